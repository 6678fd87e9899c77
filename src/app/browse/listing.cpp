#include "app/browse/listing.hpp"

#include <algorithm>
#include <chrono>
#include <system_error>
#include <utility>

#include "text/words.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

// How often a folder on show is looked at for changes.
constexpr std::chrono::milliseconds look_every{1000};

void sort_entries(std::vector<FolderEntry>& entries, FileOrder order) {
    std::ranges::sort(entries, [&](const FolderEntry& a, const FolderEntry& b) {
        if (a.is_folder != b.is_folder) return a.is_folder;
        if (order == FileOrder::newest_first && a.changed != b.changed) return a.changed > b.changed;
        const std::string left = text::lower(a.name), right = text::lower(b.name);
        return left != right ? left < right : a.name < b.name;
    });
}

// A link that leads nowhere, or a file that has just gone, counts as nothing.
void take_entry(const fs::directory_entry& found, FileKind kind, Listing& listing) {
    const std::string name = found.path().filename().string();
    if (name.empty() || name.front() == '.') return;
    std::error_code error;
    const bool is_folder = found.is_directory(error);
    if (!is_folder && !found.is_regular_file(error)) return;
    if (!is_folder && !fits(kind, name)) {
        ++listing.unfit;
        return;
    }
    FolderEntry entry{name, is_folder, 0, found.last_write_time(error)};
    if (!is_folder) entry.bytes = found.file_size(error);
    listing.entries.push_back(std::move(entry));
}

}  // namespace

Listing list_folder(const fs::path& folder, FileKind kind, FileOrder order) {
    std::error_code error;
    const fs::path whole = fs::weakly_canonical(folder, error);
    Listing listing;
    listing.folder = error ? folder : whole;
    auto it = fs::directory_iterator(listing.folder, error);
    for (; !error && it != fs::directory_iterator(); it.increment(error)) {
        if (listing.entries.size() == most_entries) {
            listing.trouble = "More than " + std::to_string(most_entries) +
                              " lie here, and not all are shown: type the name of one that is not.";
            break;
        }
        take_entry(*it, kind, listing);
    }
    if (error) listing.trouble = "This folder cannot be read: " + error.message() + ".";
    sort_entries(listing.entries, order);
    return listing;
}

FolderReader::FolderReader(std::function<void()> ready)
    : worker_(
          [](const FolderWanted& wanted, const auto& turn) {
              const auto list = [&] {
                  auto listing =
                      std::make_shared<const Listing>(list_folder(wanted.folder, wanted.kind, wanted.order));
                  turn.publish(listing);
                  return listing->folder;
              };
              const auto changed = [](const fs::path& folder) {
                  std::error_code error;
                  return fs::last_write_time(folder, error);
              };
              auto seen = changed(wanted.folder);
              const fs::path folder = list();
              while (turn.rest(look_every)) {
                  const auto now = changed(folder);
                  if (std::exchange(seen, now) != now) list();
              }
          },
          std::move(ready)) {}

void FolderReader::read(FolderWanted wanted) {
    asked_ = worker_.ask(std::move(wanted));
}

std::shared_ptr<const Listing> FolderReader::latest() const {
    const auto state = worker_.state();
    return state.number == asked_ ? state.latest : nullptr;
}

}  // namespace battwright::app
