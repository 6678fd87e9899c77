#include "measure/save.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <optional>
#include <string>
#include <system_error>

namespace battwright::measure {
namespace {

namespace fs = std::filesystem;

std::string reason(int error) {
    return std::generic_category().message(error);
}

tl::unexpected<Complaint> complain(const fs::path& path, std::string what, std::string mend) {
    return tl::make_unexpected(Complaint{std::move(what), std::move(mend), path.string()});
}

std::string mend_for(int error) {
    switch (error) {
        case ENOENT:
            return "check the folder and the spelling";
        case ENOTDIR:
            return "a part of the path is a file, not a folder";
        case EACCES:
        case EPERM:
        case EROFS:
            return "choose a place you may write to, or change the permissions";
        case ENOSPC:
        case EDQUOT:
        case EFBIG:
            return "free some space or save elsewhere; the old file is as it was";
        default:
            return "the old file is as it was; save elsewhere or try again";
    }
}

// A file descriptor that closes itself.
class Descriptor {
  public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    int number() const { return number_; }
    // Closes now and tells: some file systems report a full disk only here. 0 or errno.
    int close() {
        const int result = ::close(number_);
        number_ = -1;
        return result == 0 ? 0 : errno;
    }

  private:
    int number_;
};

// A file beside the target that is removed again unless it was renamed.
class Temporary {
  public:
    explicit Temporary(fs::path path) : path_(std::move(path)) {}
    ~Temporary() {
        if (!kept_) ::unlink(path_.c_str());
    }
    Temporary(const Temporary&) = delete;
    Temporary& operator=(const Temporary&) = delete;
    // 0 or errno.
    int rename_to(const fs::path& target) {
        if (::rename(path_.c_str(), target.c_str()) != 0) return errno;
        kept_ = true;
        return 0;
    }

  private:
    fs::path path_;
    bool kept_ = false;
};

// Opens a new file in `folder` under a name nobody uses. O_EXCL rather than mkstemp: the kernel applies the
// user's umask. Returns the descriptor, or -1 with errno.
int open_new(const fs::path& folder, fs::path& path) {
    for (int attempt = 0; attempt < 1000; ++attempt) {
        path =
            folder / (".battwright-" + std::to_string(::getpid()) + "-" + std::to_string(attempt) + ".part");
        const int number = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (number >= 0 || errno != EEXIST) return number;
    }
    errno = EEXIST;
    return -1;
}

// 0 or errno.
int write_all(int number, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(number, bytes.data(), bytes.size());
        if (written < 0) {
            if (errno == EINTR) continue;
            return errno;
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

// Makes the rename itself last through a power cut. Some file systems cannot; the new file is whole all the
// same.
void flush_folder(const fs::path& folder) {
    const Descriptor descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (descriptor.number() >= 0) ::fsync(descriptor.number());
}

// Renaming would replace anything, even a device or a file its owner has locked; so look first.
Expected<std::optional<mode_t>> mode_of_target(const fs::path& target, const fs::path& path) {
    struct stat status {};
    if (::stat(target.c_str(), &status) != 0) {
        if (errno == ENOENT) return std::optional<mode_t>{};
        return complain(path, "cannot be saved: " + reason(errno), mend_for(errno));
    }
    if (S_ISDIR(status.st_mode)) return complain(path, "cannot be saved: it is a folder", "give a file name");
    if (!S_ISREG(status.st_mode)) {
        return complain(path, "cannot be saved: it is not an ordinary file", "give another file name");
    }
    if (::access(target.c_str(), W_OK) != 0) {
        return complain(path, "cannot be saved: " + reason(errno), mend_for(errno));
    }
    return std::optional<mode_t>{status.st_mode & 07777};
}

// A link stays a link: the file it points to is the one replaced.
fs::path follow_links(const fs::path& path) {
    std::error_code error;
    if (!fs::is_symlink(path, error)) return path;
    const fs::path target = fs::weakly_canonical(path, error);
    return error ? path : target;
}

// Everything up to the rename; 0 or errno.
int fill(Descriptor& descriptor, std::optional<mode_t> mode, std::string_view bytes) {
    if (const int error = write_all(descriptor.number(), bytes); error != 0) return error;
    if (mode && ::fchmod(descriptor.number(), *mode) != 0) return errno;
    if (::fsync(descriptor.number()) != 0) return errno;
    return descriptor.close();
}

}  // namespace

Expected<void> save_bytes(const fs::path& path, std::string_view bytes) {
    if (path.empty() || !path.has_filename()) return complain(path, "is no file name", "give a file name");
    const fs::path target = follow_links(path);
    const auto mode = mode_of_target(target, path);
    if (!mode) return tl::make_unexpected(mode.error());
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    fs::path beside;
    Descriptor descriptor(open_new(folder, beside));
    if (descriptor.number() < 0) return complain(path, "cannot be saved: " + reason(errno), mend_for(errno));
    Temporary temporary(beside);
    int error = fill(descriptor, *mode, bytes);
    if (error == 0) error = temporary.rename_to(target);
    if (error != 0) return complain(path, "cannot be saved: " + reason(error), mend_for(error));
    flush_folder(folder);
    return {};
}

Expected<std::string> load_bytes(const fs::path& path, std::size_t most) {
    const Descriptor descriptor(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (descriptor.number() < 0) {
        const std::string mend = errno == EACCES ? "change its permissions or open another file"
                                                 : "check the folder and the spelling";
        return complain(path, "cannot be read: " + reason(errno), mend);
    }
    std::string bytes;
    std::array<char, 65536> chunk{};
    while (true) {
        const ssize_t got = ::read(descriptor.number(), chunk.data(), chunk.size());
        if (got == 0) return bytes;
        if (got < 0 && errno == EINTR) continue;
        if (got < 0 && errno == EISDIR)
            return complain(path, "cannot be read: it is a folder", "name a file in it");
        if (got < 0) return complain(path, "cannot be read: " + reason(errno), "open another file");
        bytes.append(chunk.data(), static_cast<std::size_t>(got));
        if (bytes.size() > most) {
            return complain(path, "is longer than " + std::to_string(most) + " bytes",
                            "this is not the kind of file asked for; open another");
        }
    }
}

}  // namespace battwright::measure
