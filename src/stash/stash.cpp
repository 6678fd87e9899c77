#include "stash/stash.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cstdlib>
#include <system_error>

#include "stash/core.hpp"
#include "stash/lots.hpp"
#include "stash/schema.hpp"
#include "stash/shape.hpp"

namespace battwright::stash {
namespace {

namespace fs = std::filesystem;

// SQLite's own words for these are too general, or it would make an empty file.
void look_before_opening(const fs::path& path, const OpenOptions& how) {
    std::error_code error;
    if (path.empty() || !path.has_filename())
        fail("the stash has no file name", "name a file with --stash", path.string());
    if (fs::is_directory(path, error))
        fail("cannot be opened: it is a folder", "name a file in it", path.string());
    if (fs::exists(path, error)) {
        // A pipe would be waited for.
        if (!fs::is_regular_file(path, error))
            fail("cannot be opened: it is a pipe or a device", "name an ordinary file", path.string());
        return;
    }
    if (how.read_only || !how.create)
        fail("there is no stash here", "check the path, or put a lot on the shelf first", path.string());
    if (!path.has_parent_path()) return;
    fs::create_directories(path.parent_path(), error);
    if (error)
        fail("its folder cannot be made: " + error.message(), "choose a place you may write to",
             path.string());
}

bool is_missing_or_empty(const fs::path& path) {
    std::error_code error;
    const auto size = fs::file_size(path, error);
    return error || size == 0;
}

// On a read-only medium SQLite cannot lay its helpers beside the file. Without a log waiting there, the file
// alone is the whole of it.
bool is_unchanging(const fs::path& path, const OpenOptions& how) {
    if (!how.read_only || !is_missing_or_empty(path.string() + "-wal")) return false;
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    return ::faccessat(AT_FDCWD, folder.c_str(), W_OK, AT_EACCESS) != 0;
}

Access access_of(const OpenOptions& how) {
    if (how.read_only) return Access::read;
    return how.create ? Access::create : Access::write;
}

}  // namespace

fs::path default_path() {
    const char* data = std::getenv("XDG_DATA_HOME");
    const char* home = std::getenv("HOME");
    // The specification says to ignore a relative path in the variable.
    const bool named = data != nullptr && fs::path(data).is_absolute();
    const fs::path base =
        named ? fs::path(data) : fs::path(home != nullptr && *home != '\0' ? home : "/") / ".local" / "share";
    return base / "battwright" / "stash.db";
}

Stash::Core::Core(const fs::path& path, const OpenOptions& asked)
    : database(path, access_of(asked), asked.patience_ms, is_unchanging(path, asked)),
      how(asked),
      catalogue(asked.catalogue != nullptr ? *asked.catalogue : fibre::Catalogue::builtin()) {
    get_ready();
}

Stash::Core::Core(const fs::path& path, const OpenOptions& asked, std::unique_ptr<PrivateCopy> of_path)
    : copy(std::move(of_path)),
      database(copy != nullptr ? copy->path() : path, path, copy != nullptr ? Access::write : Access::read,
               asked.patience_ms, copy == nullptr),
      how(asked),
      catalogue(asked.catalogue != nullptr ? *asked.catalogue : fibre::Catalogue::builtin()) {
    get_ready();
    database.script("PRAGMA query_only = ON");
}

void Stash::Core::get_ready() {
    if (!how.read_only && database.read_only())
        fail("cannot be written: the file or its folder is read-only",
             "change the permissions, or name another file with --stash", database.path().string());
    bring_up_to_date(database, !how.read_only, catalogue);
    check_shape(database, !how.read_only);
    database.script("PRAGMA foreign_keys = ON");
    if (how.read_only) return;
    // Readers and one writer do not wait for each other; FULL: on disk when a call returns, power cut or not.
    database.log_ahead(how.patience_ms);
    database.script("PRAGMA synchronous = FULL");
}

namespace {

// On a full disk, and where nothing may be written, SQLite cannot lay its helpers beside the file.
std::unique_ptr<Stash::Core> core_for_reading(const fs::path& path, const OpenOptions& how) {
    try {
        return std::make_unique<Stash::Core>(path, how);
    } catch (const Failed& failed) {
        if (!by_want_of_room(failed) || is_missing_or_empty(path)) throw;
    }
    auto copy = is_missing_or_empty(path.string() + "-wal") ? nullptr : std::make_unique<PrivateCopy>(path);
    return std::make_unique<Stash::Core>(path, how, std::move(copy));
}

}  // namespace

Expected<Stash> Stash::open(const fs::path& path, const OpenOptions& how) {
    return guarded([&] {
        look_before_opening(path, how);
        return Stash(how.read_only ? core_for_reading(path, how) : std::make_unique<Core>(path, how));
    });
}

Stash::Stash(std::unique_ptr<Core> core) : core_(std::move(core)) {}
Stash::Stash(Stash&&) noexcept = default;
Stash& Stash::operator=(Stash&&) noexcept = default;
Stash::~Stash() = default;

const fs::path& Stash::path() const {
    return core_->database.path();
}

Standing Stash::standing() const {
    if (core_->database.in_place()) return Standing::in_place;
    core_->database.settle();
    return file_at(path()) ? Standing::replaced : Standing::gone;
}

Expected<void> Stash::all_or_nothing(const std::function<Expected<void>()>& work) {
    return writing(core_->database, [&] { value_of(work()); });
}

Expected<std::string> Stash::currency() const {
    return guarded([&] {
        Statement row = core_->database.prepare("SELECT value FROM setting WHERE key = 'currency'");
        return row.step() ? row.text(0) : std::string();
    });
}

Expected<void> Stash::set_currency(std::string_view currency) {
    return writing(core_->database, [&] {
        check_text(currency, "currency");
        core_->database.run("INSERT OR REPLACE INTO setting (key, value) VALUES ('currency', ?)", currency);
    });
}

}  // namespace battwright::stash
