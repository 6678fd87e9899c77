// Inside this room: a stash with a log beside it, copied to where SQLite can work.
#pragma once

#include <filesystem>

namespace battwright::stash {

// A folder of our own for as long as it is looked at, with the file and its log as they were at one moment.
// Where a disk is full or cannot be written SQLite cannot lay the index of the log beside the file. Throws
// when no place has room: the folder for temporary files, then memory (/dev/shm).
class PrivateCopy {
  public:
    explicit PrivateCopy(const std::filesystem::path& stash);
    ~PrivateCopy();
    PrivateCopy(const PrivateCopy&) = delete;
    PrivateCopy& operator=(const PrivateCopy&) = delete;
    std::filesystem::path path() const { return folder_ / "stash.db"; }

  private:
    bool fill(const std::filesystem::path& stash, const std::filesystem::path& place);
    std::filesystem::path folder_;
};

}  // namespace battwright::stash
