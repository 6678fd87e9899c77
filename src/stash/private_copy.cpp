#include "stash/private_copy.hpp"

#include <unistd.h>

#include <string>
#include <system_error>

#include "measure/seen.hpp"
#include "stash/database.hpp"

namespace battwright::stash {
namespace {

namespace fs = std::filesystem;

// Another program may write meanwhile: the log is looked at again, and all of it copied anew when it changed.
constexpr int most_copies = 20;

bool copy_file_to(const fs::path& from, const fs::path& to) {
    std::error_code error;
    return fs::copy_file(from, to, fs::copy_options::overwrite_existing, error) && !error;
}

}  // namespace

PrivateCopy::PrivateCopy(const fs::path& stash) {
    std::error_code error;
    for (const fs::path& place : {fs::temp_directory_path(error), fs::path("/dev/shm")})
        if (!place.empty() && fill(stash, place)) return;
    fail("cannot be read: there is no room for what SQLite lays beside it",
         "free some space there, or in the folder for temporary files", stash.string());
}

PrivateCopy::~PrivateCopy() {
    std::error_code error;
    if (!folder_.empty()) fs::remove_all(folder_, error);
}

bool PrivateCopy::fill(const fs::path& stash, const fs::path& place) {
    std::string pattern = (place / "battwright-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) return false;
    folder_ = pattern;
    const fs::path log = stash.string() + "-wal";
    for (int i = 0; i < most_copies; ++i) {
        const auto before = measure::look_at(log);
        if (!before || !copy_file_to(stash, path())) break;
        if (before->there && !copy_file_to(log, path().string() + "-wal")) break;
        const auto still = measure::is_still(log, *before);
        if (still && *still) return true;
    }
    std::error_code error;
    fs::remove_all(folder_, error);
    folder_.clear();
    return false;
}

}  // namespace battwright::stash
