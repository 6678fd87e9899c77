#include "measure/save.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <optional>
#include <string>
#include <utility>

#include "measure/beside.hpp"
#include "measure/files.hpp"
#include "measure/save_in_pieces.hpp"

namespace battwright::measure {
namespace {

namespace fs = std::filesystem;

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

tl::unexpected<Complaint> cannot_be_saved(const fs::path& path, int error) {
    return complain_of(path, "cannot be saved: " + system_reason(error), mend_for_saving(error));
}

// Renaming would replace anything, even a device or a file its owner has locked; so look first.
Expected<std::optional<mode_t>> mode_of_target(const fs::path& target, const fs::path& path) {
    struct stat status {};
    if (::stat(target.c_str(), &status) != 0) {
        if (errno == ENOENT) return std::optional<mode_t>{};
        return cannot_be_saved(path, errno);
    }
    if (auto may = check_replaceable(path); !may) return tl::make_unexpected(may.error());
    if (::access(target.c_str(), W_OK) != 0) return cannot_be_saved(path, errno);
    return std::optional<mode_t>{status.st_mode & 07777};
}

}  // namespace

Expected<SaveInPieces> SaveInPieces::begin(fs::path path) {
    if (path.empty() || !path.has_filename()) return complain_of(path, "is no file name", "give a file name");
    const auto mode = mode_of_target(follow_links(path), path);
    if (!mode) return tl::make_unexpected(mode.error());
    auto beside = Beside::make(path);
    if (!beside) return tl::make_unexpected(beside.error());
    if (*mode && ::fchmod(beside->descriptor(), **mode) != 0) return cannot_be_saved(path, errno);
    return SaveInPieces(std::move(path), std::move(*beside));
}

Expected<void> SaveInPieces::add(std::string_view bytes) {
    if (const int error = write_all(beside_.descriptor(), bytes); error != 0)
        return cannot_be_saved(path_, error);
    return {};
}

Expected<void> SaveInPieces::finish() {
    return beside_.replace(path_);
}

Expected<Beside> written_beside(const fs::path& path, std::string_view bytes) {
    auto save = SaveInPieces::begin(path);
    if (!save) return tl::make_unexpected(save.error());
    if (auto added = save->add(bytes); !added) return tl::make_unexpected(added.error());
    return std::move(*save).take();
}

Expected<void> save_bytes(const fs::path& path, std::string_view bytes) {
    auto beside = written_beside(path, bytes);
    if (!beside) return tl::make_unexpected(beside.error());
    return beside->replace(path);
}

Expected<std::string> load_bytes(const fs::path& path, std::size_t most) {
    const auto descriptor = open_ordinary(path);
    if (!descriptor) return tl::make_unexpected(descriptor.error());
    return read_rest(*descriptor, path, most);
}

}  // namespace battwright::measure
