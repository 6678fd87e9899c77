#include "measure/seen.hpp"

#include <sys/stat.h>

#include <cerrno>
#include <chrono>
#include <limits>

#include "measure/files.hpp"

namespace battwright::measure {
namespace {

namespace fs = std::filesystem;

Seen seen_in(const struct stat& status, std::uint64_t hash) {
    Seen seen;
    seen.there = true;
    const auto whole = std::chrono::seconds(status.st_mtim.tv_sec);
    seen.modified_ns = (whole + std::chrono::nanoseconds(status.st_mtim.tv_nsec)).count();
    seen.bytes = static_cast<std::uint64_t>(status.st_size);
    seen.hash = hash;
    seen.device = static_cast<std::uint64_t>(status.st_dev);
    seen.inode = static_cast<std::uint64_t>(status.st_ino);
    return seen;
}

bool is_missing(const fs::path& path) {
    struct stat status {};
    return ::stat(path.c_str(), &status) != 0 && (errno == ENOENT || errno == ENOTDIR);
}

}  // namespace

std::uint64_t hash_of(std::string_view bytes) {
    std::uint64_t hash = 0xcbf29ce484222325u;
    for (const char byte : bytes) hash = (hash ^ static_cast<unsigned char>(byte)) * 0x100000001b3u;
    return hash;
}

Expected<Loaded> load_seen(const fs::path& path, std::size_t most) {
    const auto descriptor = open_ordinary(path);
    if (!descriptor) return tl::make_unexpected(descriptor.error());
    struct stat status {};
    // Before the bytes: whatever is written while they are read shows as a change afterwards.
    if (::fstat(descriptor->number(), &status) != 0) return complain_of_reading(path, errno);
    auto bytes = read_rest(*descriptor, path, most);
    if (!bytes) return tl::make_unexpected(bytes.error());
    Loaded loaded{std::move(*bytes), {}};
    loaded.seen = seen_in(status, hash_of(loaded.bytes));
    loaded.seen.bytes = loaded.bytes.size();
    return loaded;
}

Expected<Seen> look_at(const fs::path& path) {
    if (is_missing(path)) return Seen{};
    auto loaded = load_seen(path, std::numeric_limits<std::size_t>::max());
    if (!loaded) return tl::make_unexpected(loaded.error());
    return loaded->seen;
}

Expected<bool> is_still(const fs::path& path, const Seen& seen) {
    struct stat status {};
    if (is_missing(path)) return !seen.there;
    if (!seen.there) return false;
    if (::stat(path.c_str(), &status) != 0) return complain_of_reading(path, errno);
    if (seen_in(status, seen.hash) == seen) return true;
    if (static_cast<std::uint64_t>(status.st_size) != seen.bytes) return false;
    const auto now = look_at(path);
    if (!now) return tl::make_unexpected(now.error());
    return now->bytes == seen.bytes && now->hash == seen.hash;
}

Expected<Seen> save_seen(const fs::path& path, std::string_view bytes) {
    auto beside = written_beside(path, bytes);
    if (!beside) return tl::make_unexpected(beside.error());
    struct stat status {};
    // Of the very file that takes the place: should another program be faster, that shows as a change.
    if (::fstat(beside->descriptor(), &status) != 0) return complain_of_reading(path, errno);
    if (auto saved = beside->replace(path); !saved) return tl::make_unexpected(saved.error());
    return seen_in(status, hash_of(bytes));
}

bool is_same_file(const fs::path& first, const fs::path& second) {
    struct stat one {
    }, other{};
    return ::stat(first.c_str(), &one) == 0 && ::stat(second.c_str(), &other) == 0 &&
           one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

}  // namespace battwright::measure
