// What lies in a folder of the files that fit. Reads the disk: on a thread of its own while the window is
// open.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "app/browse/file_kinds.hpp"
#include "jobs/latest.hpp"

namespace battwright::app {

struct FolderEntry {
    std::string name;
    bool is_folder = false;
    std::uintmax_t bytes = 0;
    std::filesystem::file_time_type changed;
};
enum class FileOrder { by_name, newest_first };

struct Listing {
    std::filesystem::path folder;  // in full
    // Folders first; hidden ones left out.
    std::vector<FolderEntry> entries;
    std::size_t unfit = 0;  // files that do not fit
    std::string trouble;    // one line: it cannot be read, or not all of it is here
};

// More than these are not looked through by eye; the rest is told of.
inline constexpr std::size_t most_entries = 5'000;

Listing list_folder(const std::filesystem::path& folder, FileKind kind, FileOrder order);

struct FolderWanted {
    std::filesystem::path folder;
    FileKind kind = FileKind::recipe;
    FileOrder order = FileOrder::by_name;
    bool operator==(const FolderWanted&) const = default;
};
// One thread: lists the folder asked for last, and again whenever it has changed, until that is called off.
class FolderReader {
  public:
    // `ready` is called on the reader's thread once there is something new.
    explicit FolderReader(std::function<void()> ready = {});
    void read(FolderWanted wanted);
    void stop() { worker_.cancel(); }
    // Of what was asked for last; null until it is there.
    std::shared_ptr<const Listing> latest() const;

  private:
    unsigned long asked_ = 0;
    jobs::Latest<FolderWanted, Listing> worker_;
};

}  // namespace battwright::app
