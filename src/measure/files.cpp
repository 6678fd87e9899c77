#include "measure/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <system_error>
#include <utility>

namespace battwright::measure {

namespace fs = std::filesystem;

Descriptor::~Descriptor() {
    if (number_ >= 0) ::close(number_);
}
Descriptor::Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
}

std::string system_reason(int error) {
    return std::generic_category().message(error);
}

std::string mend_for_saving(int error) {
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

tl::unexpected<Complaint> complain_of(const fs::path& path, std::string what, std::string mend) {
    return tl::make_unexpected(Complaint{std::move(what), std::move(mend), path.string()});
}

tl::unexpected<Complaint> complain_of_reading(const fs::path& path, int error) {
    const char* mend =
        error == EACCES ? "change its permissions or open another file" : "check the folder and the spelling";
    return complain_of(path, "cannot be read: " + system_reason(error), mend);
}

Expected<Descriptor> open_ordinary(const fs::path& path) {
    // O_NONBLOCK: a pipe nobody writes to would keep open() waiting; to an ordinary file it means nothing.
    Descriptor descriptor(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
    struct stat status {};
    // A socket cannot be opened at all, so what it is has to be asked by its name.
    if (!descriptor) {
        const int error = errno;
        if (error != ENXIO && error != ENODEV) return complain_of_reading(path, error);
        return complain_of(path, "cannot be read: it is not an ordinary file", "save it as a file first");
    }
    if (::fstat(descriptor.number(), &status) != 0) return complain_of_reading(path, errno);
    if (S_ISDIR(status.st_mode))
        return complain_of(path, "cannot be read: it is a folder", "name a file in it");
    if (!S_ISREG(status.st_mode))
        return complain_of(path, "cannot be read: it is a pipe or a device, not an ordinary file",
                           "save it as a file first");
    return descriptor;
}

Expected<std::string> read_rest(const Descriptor& descriptor, const fs::path& path, std::size_t most) {
    std::string bytes;
    std::array<char, 65536> chunk{};
    while (true) {
        const ssize_t got = ::read(descriptor.number(), chunk.data(), chunk.size());
        if (got == 0) return bytes;
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return complain_of(path, "cannot be read: " + system_reason(errno), "open another file");
        bytes.append(chunk.data(), static_cast<std::size_t>(got));
        if (bytes.size() > most) {
            return complain_of(path, "is longer than " + std::to_string(most) + " bytes",
                               "this is not the kind of file asked for; open another");
        }
    }
}

Expected<void> check_replaceable(const fs::path& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) return {};
    if (S_ISDIR(status.st_mode))
        return complain_of(path, "cannot be saved: it is a folder", "give a file name");
    if (!S_ISREG(status.st_mode))
        return complain_of(path, "cannot be saved: it is not an ordinary file", "give another file name");
    return {};
}

fs::path follow_links(const fs::path& path) {
    std::error_code error;
    if (!fs::is_symlink(path, error)) return path;
    const fs::path target = fs::weakly_canonical(path, error);
    return error ? path : target;
}

fs::path folder_of(const fs::path& path) {
    return path.has_parent_path() ? path.parent_path() : fs::path(".");
}

}  // namespace battwright::measure
