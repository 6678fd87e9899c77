#include "measure/beside.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <string>
#include <system_error>

#include "measure/files.hpp"

namespace battwright::measure {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view part_start = ".battwright-";
constexpr std::string_view part_end = ".part";

void remove_with_helpers(const fs::path& path) {
    ::unlink(path.c_str());
    for (const char* ending : helper_endings) ::unlink((path.string() + ending).c_str());
}

// Nobody holds the lock of what a killed program left behind.
void remove_when_left(const fs::path& path) {
    const Descriptor left(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOFOLLOW));
    if (left && ::flock(left.number(), LOCK_EX | LOCK_NB) == 0) remove_with_helpers(path);
}

void sweep(const fs::path& folder) {
    std::error_code error;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
        const std::string name = at->path().filename().string();
        if (name.starts_with(part_start) && name.ends_with(part_end)) remove_when_left(at->path());
    }
}

// The lock and that nobody has swept the file away before it was locked. A file system without such locks
// has nobody who sweeps either.
bool locked(const Descriptor& descriptor) {
    if (::flock(descriptor.number(), LOCK_EX | LOCK_NB) != 0) return errno != EWOULDBLOCK;
    struct stat status {};
    return ::fstat(descriptor.number(), &status) == 0 && status.st_nlink > 0;
}

// Renames where nothing has the new name yet; false with errno when it cannot be done.
bool move_to_new(const fs::path& from, const fs::path& to) {
#ifdef RENAME_NOREPLACE
    return ::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0;
#else
    static_cast<void>(from), static_cast<void>(to);
    errno = EOPNOTSUPP;  // no such call here
    return false;
#endif
}

// O_EXCL rather than mkstemp: the kernel applies the user's umask. None, with errno, when it cannot be.
Descriptor open_new(const fs::path& folder, fs::path& path) {
    for (int attempt = 0; attempt < 1000; ++attempt) {
        path = folder / (std::string(part_start) + std::to_string(::getpid()) + "-" +
                         std::to_string(attempt) + std::string(part_end));
        Descriptor descriptor(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
        if (!descriptor && errno != EEXIST) return descriptor;
        if (descriptor && locked(descriptor)) return descriptor;
    }
    errno = EEXIST;
    return Descriptor();
}

// Makes the rename itself last through a power cut. Some file systems cannot; the new file is whole all the
// same.
void flush_folder(const fs::path& folder) {
    const Descriptor descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (descriptor) ::fsync(descriptor.number());
}

}  // namespace

struct Beside::Made {
    fs::path path;
    Descriptor descriptor;
    bool kept = false;

    Made(fs::path made_at, Descriptor made) : path(std::move(made_at)), descriptor(std::move(made)) {}
    ~Made() {
        if (!kept) remove_with_helpers(path);
    }
    Made(const Made&) = delete;
    Made& operator=(const Made&) = delete;
};

Beside::Beside(std::unique_ptr<Made> made) : made_(std::move(made)) {}
Beside::~Beside() = default;
Beside::Beside(Beside&&) noexcept = default;
Beside& Beside::operator=(Beside&&) noexcept = default;

Expected<Beside> Beside::make(const fs::path& target) {
    const fs::path folder = folder_of(follow_links(target));
    sweep(folder);
    fs::path path;
    Descriptor descriptor = open_new(folder, path);
    if (!descriptor)
        return complain_of(target, "cannot be saved: " + system_reason(errno), mend_for_saving(errno));
    return Beside(std::make_unique<Made>(std::move(path), std::move(descriptor)));
}

const fs::path& Beside::path() const {
    return made_->path;
}

int Beside::descriptor() const {
    return made_->descriptor.number();
}

Expected<void> Beside::replace(const fs::path& target) {
    const fs::path at = follow_links(target);
    if (auto may = check_replaceable(target); !may) return may;
    // Some file systems report a full disk only here.
    if (::fsync(descriptor()) != 0 || ::rename(path().c_str(), at.c_str()) != 0)
        return complain_of(target, "cannot be saved: " + system_reason(errno), mend_for_saving(errno));
    made_->kept = true;
    flush_folder(folder_of(at));
    return {};
}

Expected<bool> Beside::place(const fs::path& target) {
    if (::fsync(descriptor()) == 0 && ::link(path().c_str(), target.c_str()) == 0) {
        // The second name goes with this value.
        flush_folder(folder_of(target));
        return true;
    }
    if (errno == EEXIST) return false;
    // No hard links on this file system.
    if (errno == EPERM || errno == EOPNOTSUPP || errno == EMLINK) {
        if (move_to_new(path(), target)) {
            made_->kept = true;
            flush_folder(folder_of(target));
            return true;
        }
        if (errno == EEXIST) return false;
    }
    return complain_of(target, "cannot be saved: " + system_reason(errno), mend_for_saving(errno));
}

}  // namespace battwright::measure
