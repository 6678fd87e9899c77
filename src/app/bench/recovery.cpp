#include "app/bench/recovery.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <string_view>

#include "measure/save.hpp"
#include "recipe/file.hpp"

namespace battwright::app {
namespace {

namespace fs = std::filesystem;
constexpr std::string_view origin_mark = "# recovered from: ";
constexpr std::string_view held_mark = "# which held: ";  // bytes and their hash
constexpr std::size_t longest_copy = 4u << 20;

fs::path lock_of(const fs::path& file) {
    return fs::path(file).replace_extension(".lock");
}

// The descriptor of a lock we now hold, or -1 when somebody else does.
int take_lock(const fs::path& path) {
    const int descriptor = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (descriptor < 0) return -1;
    struct stat status {};
    // One that was swept away between the two calls locks nothing.
    if (::flock(descriptor, LOCK_EX | LOCK_NB) == 0 && ::fstat(descriptor, &status) == 0 &&
        status.st_nlink > 0)
        return descriptor;
    ::close(descriptor);
    return -1;
}

std::string held(const measure::Seen& seen) {
    return std::string(held_mark) + std::to_string(seen.bytes) + " " + std::to_string(seen.hash) + "\n";
}

// The same read back; nothing was there when it is no such line.
measure::Seen read_held(std::string_view line) {
    measure::Seen seen;
    if (!line.starts_with(held_mark)) return seen;
    const char* const end = line.data() + line.size();
    const auto [at, trouble] = std::from_chars(line.data() + held_mark.size(), end, seen.bytes);
    if (trouble == std::errc() && at != end)
        seen.there = std::from_chars(at + 1, end, seen.hash).ec == std::errc();
    return seen;
}

void sweep_locks(const fs::path& folder) {
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error)) {
        const fs::path& path = entry.path();
        if (path.extension() != ".lock" || !path.filename().string().starts_with("unsaved-")) continue;
        const int lock = take_lock(path);
        if (lock < 0) continue;  // its run is alive
        ::unlink(path.c_str());
        ::close(lock);
    }
}

LeftBehind read_copy(const fs::path& file) {
    LeftBehind left;
    left.file = file;
    std::error_code error;
    left.when = fs::last_write_time(file, error);
    if (auto text = measure::load_bytes(file, longest_copy)) left.text = *text;
    const std::string_view view(left.text);
    if (view.substr(0, origin_mark.size()) == origin_mark) {
        const auto end = view.find('\n');
        left.original = fs::path(view.substr(origin_mark.size(), end - origin_mark.size()));
        if (end != view.npos) left.seen = read_held(view.substr(end + 1, view.find('\n', end + 1) - end - 1));
    }
    return left;
}

}  // namespace

Recovery::Recovery(const fs::path& folder) {
    if (folder.empty()) return;
    std::error_code error;
    fs::create_directories(folder, error);
    const std::string stem = "unsaved-" + std::to_string(::getpid());
    for (int n = 0; n < 100 && lock_ < 0; ++n) {
        file_ = folder / (stem + "-" + std::to_string(n) + ".toml");
        if (fs::exists(file_, error)) continue;  // a dead run's copy, waiting to be offered
        lock_ = take_lock(lock_of(file_));
    }
}

Recovery::~Recovery() {
    if (lock_ < 0) return;
    ::unlink(lock_of(file_).c_str());
    ::close(lock_);
}

void Recovery::touched(Clock::time_point now) {
    if (!first_change_) first_change_ = now;
}

std::optional<double> Recovery::seconds_until_due(Clock::time_point now) const {
    if (!first_change_) return std::nullopt;
    const std::chrono::duration<double> left = *first_change_ + delay - now;
    return std::max(0.0, left.count());
}

measure::Expected<void> Recovery::write(const std::string& recipe_text,
                                        const std::optional<fs::path>& original, const measure::Seen& seen) {
    first_change_.reset();
    if (file_.empty()) return {};
    std::string bytes;
    // A file name may hold a line break; such a name is left out rather than written in two lines.
    if (original && original->string().find('\n') == std::string::npos)
        bytes = std::string(origin_mark) + original->string() + "\n" + (seen.there ? held(seen) : "");
    auto saved = measure::save_bytes(file_, bytes + recipe_text);
    if (saved) {
        told_ = false;
        return {};
    }
    if (told_) return {};
    told_ = true;
    return saved;
}

void Recovery::clear() {
    first_change_.reset();
    if (file_.empty()) return;
    std::error_code error;
    fs::remove(file_, error);
}

std::vector<LeftBehind> Recovery::left_behind(const fs::path& folder) {
    std::vector<LeftBehind> found;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error)) {
        const fs::path& file = entry.path();
        if (file.extension() != ".toml" || file.filename().string().rfind("unsaved-", 0) != 0) continue;
        const int lock = take_lock(lock_of(file));
        if (lock < 0) continue;  // its run is alive
        found.push_back(read_copy(file));
        ::unlink(lock_of(file).c_str());
        ::close(lock);
    }
    sweep_locks(folder);
    std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.when > b.when; });
    return found;
}

std::optional<std::string> Recovery::name_of(const LeftBehind& left) {
    const auto recipe = recipe::read_text(left.text, left.file.string(), fibre::Catalogue::builtin());
    if (!recipe || recipe->name.empty()) return std::nullopt;
    return recipe->name;
}

void Recovery::discard(const LeftBehind& left) {
    std::error_code error;
    fs::remove(left.file, error);
}

}  // namespace battwright::app
