#include "app/files.hpp"

#include <algorithm>
#include <system_error>
#include <utility>

#include "recipe/file_name.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

std::vector<FolderEntry> entries_of(const fs::path& folder) {
    std::vector<FolderEntry> entries;
    std::error_code error;
    for (auto it = fs::directory_iterator(folder, error); !error && it != fs::directory_iterator();
         it.increment(error)) {
        const std::string name = it->path().filename().string();
        if (name.empty() || name.front() == '.') continue;
        std::error_code ignored;
        const bool is_folder = it->is_directory(ignored);
        if (is_folder || it->path().extension() == ".toml") entries.push_back({name, is_folder});
    }
    std::sort(entries.begin(), entries.end(), [](const FolderEntry& a, const FolderEntry& b) {
        return a.is_folder != b.is_folder ? a.is_folder : a.name < b.name;
    });
    return entries;
}

}  // namespace

void FileChoice::open(bool saving, const std::optional<fs::path>& recipe, const fs::path& start,
                      std::string suggested) {
    saving_ = saving;
    complaint_.clear();
    replace_asked_ = false;
    name_ = saving ? std::move(suggested) : "";
    if (recipe)
        folder_ = fs::absolute(*recipe).parent_path();
    else if (folder_.empty())
        folder_ = start;
    entries_.forget();
}

void FileChoice::follow() {
    std::error_code error;
    const auto changed = fs::last_write_time(folder_, error);
    entries_.of({folder_, changed},
                [](const Listed& key, auto& entries) { entries = entries_of(key.folder); });
}

void FileChoice::enter(const fs::path& folder) {
    std::error_code error;
    const fs::path whole = fs::weakly_canonical(folder, error);
    folder_ = error ? folder : whole;
    replace_asked_ = false;
}

void FileChoice::name_it(std::string name) {
    name_ = std::move(name);
    replace_asked_ = false;
    complaint_.clear();
}

std::optional<fs::path> FileChoice::finish() {
    if (name_.empty()) {
        complaint_ = "Type a name, or choose a file.";
        return std::nullopt;
    }
    fs::path path = fs::path(name_).is_absolute() ? fs::path(name_) : folder_ / name_;
    std::error_code error;
    if (fs::is_directory(path, error)) {
        enter(path);
        name_.clear();
        return std::nullopt;
    }
    if (saving_ && path.extension() != ".toml") path += recipe::file_ending;
    if (saving_ && fs::exists(path, error) && !std::exchange(replace_asked_, true)) {
        complaint_ = path.filename().string() + " is there already. Press the button again to replace it.";
        return std::nullopt;
    }
    return path;
}

}  // namespace battwright::app
