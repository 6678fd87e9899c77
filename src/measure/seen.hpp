// What was on disk when it was last looked at, so that nobody's newer work is saved over unasked.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "measure/complaint.hpp"

namespace battwright::measure {

// One file at one moment. `there` false: there was none, and the rest means nothing.
struct Seen {
    bool there = false;
    std::int64_t modified_ns = 0;  // since 1970
    std::uint64_t bytes = 0;
    std::uint64_t hash = 0;  // of its bytes (hash_of)
    std::uint64_t device = 0, inode = 0;
    bool operator==(const Seen&) const = default;
};
// FNV-1a, 64 bits (Fowler, Noll, Vo): tells texts apart that nobody made to be mistaken for one another.
std::uint64_t hash_of(std::string_view bytes);

struct Loaded {
    std::string bytes;
    Seen seen;
};
// As load_bytes(), with what was seen of the very file that was read.
Expected<Loaded> load_seen(const std::filesystem::path& path, std::size_t most);
// What is there now; a missing file is no complaint.
Expected<Seen> look_at(const std::filesystem::path& path);
// Does the file still hold what it held? Another time or inode alone does not count (a sync tool lays down
// the same bytes as a new file); other bytes, or no file any more, do. Reads the file only when the time, the
// size or the inode tell of a change.
Expected<bool> is_still(const std::filesystem::path& path, const Seen& seen);
// Saves as save_bytes() and gives what is on disk from then on.
Expected<Seen> save_seen(const std::filesystem::path& path, std::string_view bytes);

// Are both the same file, by whatever name, link or hard link? False when one of them is not there.
bool is_same_file(const std::filesystem::path& first, const std::filesystem::path& second);

}  // namespace battwright::measure
