#include "app/browse/browser.hpp"

#include <algorithm>
#include <system_error>
#include <utility>

#include "app/browse/file_path.hpp"
#include "recipe/file_name.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

// A name typed without one ends as files of its kind do.
std::string ending_for(FileKind kind) {
    switch (kind) {
        case FileKind::recipe:
            return recipe::file_ending;
        case FileKind::backup:
            return ".db";
        case FileKind::table:
            return ".csv";
        case FileKind::photo:
        case FileKind::folder:
            break;
    }
    return {};
}

bool has_ending(FileKind kind, const fs::path& path) {
    if (kind == FileKind::recipe) return path.extension() == ".toml";
    return path.has_extension();
}

}  // namespace

void FileBrowser::use(const fibre::Catalogue& catalogue, std::function<void()> ready) {
    reader_ = std::make_unique<FolderReader>(ready);
    maker_ = std::make_unique<ThumbnailMaker>(catalogue, std::move(ready));
}

void FileBrowser::open(FileRequest ask, const fs::path& otherwise) {
    ask_ = std::move(ask);
    open_ = true;
    complaint_.clear();
    replace_asked_ = false;
    const bool folder_wanted = ask_.purpose == FilePurpose::folder;
    name_ = ask_.purpose == FilePurpose::save ? ask_.suggested : "";
    const fs::path& last = last_folders_[static_cast<std::size_t>(ask_.kind)];
    const fs::path at = folder_wanted ? ask_.at : ask_.at.parent_path();
    folder_ = !at.empty() ? at : !last.empty() ? last : otherwise;
    // Of photos the one wanted is mostly the one just taken.
    order_ = ask_.kind == FileKind::photo ? FileOrder::newest_first : FileOrder::by_name;
    listing_.reset();
    listed_ = {};
    list();
}

void FileBrowser::leave() {
    open_ = false;
    if (reader_) reader_->stop();
    if (maker_) maker_->stop();
}

void FileBrowser::list() {
    FolderWanted wanted{folder_, ask_.kind, order_};
    if (wanted == listed_ || !reader_) return;
    reader_->read(wanted);
    listed_ = std::move(wanted);
    listing_.reset();
    seen_first_ = seen_end_ = 0;
    wanted_.clear();
}

void FileBrowser::follow() {
    if (chosen_ && !std::exchange(chosen_->fresh, false)) chosen_.reset();
    if (!open_ || !reader_) return;
    if (auto now = reader_->latest(); now && now != listing_) {
        listing_ = std::move(now);
        look_at(seen_first_, seen_end_);
    }
    thumbnails_ = maker_->latest();
}

bool FileBrowser::has_news() const {
    if (!open_ || !reader_) return false;
    const auto now = reader_->latest();
    return (now && now != listing_) || maker_->latest() != thumbnails_;
}

bool FileBrowser::busy() const {
    return open_ && reader_ && (!listing_ || maker_->busy() || has_news());
}

void FileBrowser::enter(const fs::path& folder) {
    // What is left off a text has nothing to do with the disk.
    folder_ = folder.lexically_normal();
    if (!folder_.has_filename() && folder_.has_parent_path()) folder_ = folder_.parent_path();
    replace_asked_ = false;
    complaint_.clear();
    list();
}

void FileBrowser::name_it(std::string name) {
    name_ = std::move(name);
    replace_asked_ = false;
    complaint_.clear();
}

void FileBrowser::order_by(FileOrder order) {
    order_ = order;
    list();
}

void FileBrowser::look_at(std::size_t first, std::size_t end) {
    seen_first_ = first;
    seen_end_ = end;
    if (!listing_ || !maker_ || !row_for(ask_.kind).pictured) return;
    std::vector<ThumbnailWanted> wanted;
    for (std::size_t i = first; i < std::min(end, listing_->entries.size()); ++i) {
        const FolderEntry& entry = listing_->entries[i];
        if (!entry.is_folder) wanted.push_back({listing_->folder / entry.name, entry.changed});
    }
    if (wanted == wanted_) return;
    wanted_ = wanted;
    maker_->make(std::move(wanted));
}

const Thumbnail* FileBrowser::thumbnail_of(const FolderEntry& entry) const {
    if (!listing_) return nullptr;
    const auto found = thumbnails_->find((listing_->folder / entry.name).string());
    return found != thumbnails_->end() && found->second ? found->second.get() : nullptr;
}

std::optional<fs::path> FileBrowser::finish() {
    std::error_code error;
    if (ask_.purpose == FilePurpose::folder && name_.empty()) {
        if (!fs::is_directory(folder_, error)) {
            complaint_ = folder_.string() + " is no folder.";
            return std::nullopt;
        }
        give(ask_.who, folder_);
        return folder_;
    }
    fs::path path = typed_path(name_, folder_);
    if (path.empty()) {
        complaint_ = "Type a name, or choose a file.";
        return std::nullopt;
    }
    if (fs::is_directory(path, error)) {
        name_.clear();
        enter(path);
        return std::nullopt;
    }
    const bool saving = ask_.purpose == FilePurpose::save;
    if (saving && !has_ending(ask_.kind, path)) path += ending_for(ask_.kind);
    const bool there = fs::exists(path, error);
    if (saving && there && !std::exchange(replace_asked_, true)) {
        complaint_ = path.filename().string() + " is there already. Press the button again to replace it.";
        return std::nullopt;
    }
    if (!saving && !there) {
        complaint_ = "There is no " + path.filename().string() + " in " + path.parent_path().string() + ".";
        return std::nullopt;
    }
    last_folders_[static_cast<std::size_t>(ask_.kind)] = path.parent_path();
    give(ask_.who, path);
    return path;
}

void FileBrowser::give(std::string who, fs::path path) {
    chosen_ = Chosen{std::move(who), std::move(path)};
}

std::optional<fs::path> FileBrowser::chosen_for(std::string_view who) const {
    if (!chosen_ || chosen_->who != who) return std::nullopt;
    return chosen_->path;
}

}  // namespace battwright::app
