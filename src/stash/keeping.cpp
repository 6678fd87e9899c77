// Backup, restore and the check of the whole file.
#include <unistd.h>

#include <filesystem>
#include <system_error>

#include "stash/core.hpp"

namespace battwright::stash {
namespace {

namespace fs = std::filesystem;

constexpr int most_problems = 20;

// A name beside `path` that is removed again, with SQLite's helpers, unless it was renamed.
class Beside {
  public:
    explicit Beside(const fs::path& path) : path_(path.string() + ".part-" + std::to_string(::getpid())) {
        remove();
    }
    ~Beside() { remove(); }
    Beside(const Beside&) = delete;
    Beside& operator=(const Beside&) = delete;
    const fs::path& path() const { return path_; }
    void rename_to(const fs::path& target) const {
        std::error_code error;
        fs::rename(path_, target, error);
        if (error)
            fail("cannot be saved: " + error.message(), "choose a place you may write to", target.string());
    }

  private:
    void remove() const {
        std::error_code error;
        for (const char* ending : {"", "-wal", "-shm", "-journal"})
            fs::remove(path_.string() + ending, error);
    }
    fs::path path_;
};

// A copy in one file that needs no helpers beside it.
void copy_whole(const Database& from, const fs::path& to) {
    Database copy(to, Access::create, 0);
    copy.copy_from(from);
    copy.script("PRAGMA journal_mode = DELETE");
}

// The folder is looked at first, since SQLite's word for a missing one is the same as for much else.
void check_place(const fs::path& to) {
    std::error_code error;
    if (!to.has_filename() || fs::is_directory(to, error))
        fail("cannot be saved: it is a folder", "name a file in it", to.string());
    const fs::path folder = to.has_parent_path() ? to.parent_path() : fs::path(".");
    if (!fs::is_directory(folder, error))
        fail("cannot be saved: there is no folder " + folder.string(), "make the folder first", to.string());
}

bool same_file(const fs::path& first, const fs::path& second) {
    std::error_code error;
    return fs::equivalent(first, second, error) && !error;
}

// Backups go over their target in one rename, with no journal of an older file left to be taken for theirs.
void save_copy(const Database& from, const fs::path& to) {
    const Beside part(to);
    copy_whole(from, part.path());
    std::error_code error;
    for (const char* ending : {"-wal", "-shm", "-journal"}) fs::remove(to.string() + ending, error);
    part.rename_to(to);
}

void list_problems(const Database& database, const char* sql, std::vector<std::string>& problems) {
    Statement rows = database.prepare(sql);
    while (rows.step() && problems.size() < most_problems) problems.push_back(rows.text(0));
}

// Our own sums; each query gives one line a problem, none when all is well.
void check_sums(const Database& database, std::vector<std::string>& problems) {
    list_problems(
        database,
        "SELECT 'lot ' || lot.mark || ' is kept at ' || coalesce(on_hand.micrograms, 'nothing') || "
        "' micrograms, its movements come to ' || (SELECT coalesce(sum(micrograms), 0) FROM movement "
        "WHERE movement.lot = lot.id) FROM lot LEFT JOIN on_hand ON on_hand.lot = lot.id "
        "WHERE on_hand.micrograms IS NOT (SELECT coalesce(sum(micrograms), 0) FROM movement "
        "WHERE movement.lot = lot.id)",
        problems);
    list_problems(database,
                  "SELECT 'batt ' || batt.id || ' has no lines' FROM batt WHERE NOT EXISTS "
                  "(SELECT 1 FROM batt_line WHERE batt_line.batt = batt.id)",
                  problems);
    list_problems(database,
                  "SELECT 'a line of batt ' || line.batt || ' does not match its movement' "
                  "FROM batt_line line LEFT JOIN movement ON movement.id = line.movement "
                  "WHERE movement.batt IS NOT line.batt OR movement.lot IS NOT line.lot "
                  "OR movement.reason IS NOT 'carded' OR -movement.micrograms < line.micrograms",
                  problems);
    list_problems(
        database,
        "SELECT 'movement ' || id || ' was carded into no line' FROM movement WHERE reason = 'carded' "
        "AND id NOT IN (SELECT movement FROM batt_line)",
        problems);
    list_problems(
        database,
        "SELECT 'batt ' || batt.id || ' is half taken back' FROM batt "
        "WHERE (SELECT count(*) FROM movement WHERE movement.batt = batt.id AND reason = 'taken back') "
        "IS NOT iif(taken_back_on = '', 0, (SELECT count(*) FROM batt_line WHERE batt_line.batt = "
        "batt.id))",
        problems);
    list_problems(
        database,
        "SELECT 'skein ' || skein.id || ' is promised beyond its length' FROM skein WHERE micrometres < "
        "(SELECT coalesce(sum(a.micrometres), 0) FROM allocation a WHERE a.skein = skein.id)",
        problems);
}

void check_file(const Database& database, std::vector<std::string>& problems) {
    Statement rows = database.prepare("PRAGMA integrity_check(20)");
    while (rows.step())
        if (rows.text(0) != "ok") problems.push_back(rows.text(0));
    Statement keys = database.prepare("PRAGMA foreign_key_check");
    while (keys.step() && problems.size() < most_problems)
        problems.push_back("a line of table " + keys.text(0) + " points at nothing in " + keys.text(2));
}

std::int64_t count_of(const Database& database, const char* sql) {
    Statement row = database.prepare(sql);
    return row.step() ? row.whole(0) : 0;
}

Health health_of(const Database& database) {
    Health health;
    try {
        check_file(database, health.problems);
        // Where the pages are broken, the sums over them mean nothing.
        if (!health.problems.empty()) return health;
        check_sums(database, health.problems);
        health.lots = count_of(database, "SELECT count(*) FROM lot");
        health.movements = count_of(database, "SELECT count(*) FROM movement");
        health.batts = count_of(database, "SELECT count(*) FROM batt");
        health.skeins = count_of(database, "SELECT count(*) FROM skein");
    } catch (const Failed& failed) {
        if (!failed.by_damage()) throw;
        health.problems.push_back("the file " + failed.complaint.what);
    }
    return health;
}

// A copy of the backup in the present version, at `part`; a complaint when anything is wrong with it.
void make_checked_copy(const fs::path& from, const fs::path& part, const How& how) {
    const Database backup(from, Access::read, how.patience_ms);
    if (backup.pragma("user_version") == 0 && backup.pragma("application_id") == 0)
        fail("is no backup of a stash", "name another file");
    copy_whole(backup, part);
    How looking = how;
    looking.create = false;
    looking.read_only = false;
    const auto copy = value_of(Stash::open(part, looking));
    const Health health = value_of(copy.integrity());
    if (!health.problems.empty()) fail("is damaged: " + health.problems.front(), "restore an older backup");
}

void make_sound_copy(const fs::path& from, const fs::path& part, const How& how) {
    std::error_code error;
    if (!fs::exists(from, error)) fail("there is no backup here", "check the path", from.string());
    if (fs::is_directory(from, error))
        fail("cannot be read: it is a folder", "name a file in it", from.string());
    try {
        make_checked_copy(from, part, how);
    } catch (Failed& failed) {
        // What is wrong with the copy is wrong with the backup.
        failed.complaint.where = from.string();
        throw;
    }
}

fs::path before_of(const fs::path& path) {
    return path.string() + ".before";
}

void restore_into(Database& database, const fs::path& from, const How& how) {
    if (same_file(from, database.path())) fail("is the stash itself", "name a backup of it", from.string());
    const Beside part(database.path());
    make_sound_copy(from, part.path(), how);
    save_copy(database, before_of(database.path()));
    const Database copy(part.path(), Access::read, how.patience_ms);
    database.copy_from(copy);
    database.script("PRAGMA journal_mode = WAL");
}

// For a file that does not open: it is put aside as it is, helpers and all.
void put_aside(const fs::path& path) {
    std::error_code error;
    for (const char* ending : {"", "-wal", "-shm"}) {
        const fs::path old = path.string() + ending;
        const fs::path kept = before_of(path).string() + ending;
        fs::remove(kept, error);
        if (fs::exists(old, error)) fs::rename(old, kept, error);
        if (error)
            fail("cannot be put aside: " + error.message(), "choose a place you may write to", old.string());
    }
}

bool is_sound(const Database& database) {
    return health_of(database).problems.empty();
}

// By way of the open file, so that other programs that have it open see it too. False when it is damaged.
// Damage may lie in pages that opening does not read.
bool restored_in_place(const fs::path& from, const fs::path& path, const How& how) {
    try {
        Stash::Core core(path, how);
        if (!is_sound(core.database)) return false;
        restore_into(core.database, from, how);
        return true;
    } catch (const Failed& failed) {
        const bool of_path = failed.complaint.where == path.string();
        if (!of_path || !failed.by_damage()) throw;
        return false;
    }
}

}  // namespace

Expected<void> Stash::backup(const fs::path& to) const {
    return guarded([&] {
        check_place(to);
        if (same_file(to, core_->database.path()))
            fail("is the stash itself", "name another file for the backup", to.string());
        save_copy(core_->database, to);
    });
}

Expected<Health> Stash::integrity() const {
    auto health = reading(core_->database, [&] { return health_of(core_->database); });
    return health;
}

Expected<void> Stash::restore(const fs::path& from) {
    return guarded([&] { restore_into(core_->database, from, core_->how); });
}

Expected<void> restore(const fs::path& from, const fs::path& path, const How& how) {
    return guarded([&] {
        if (same_file(from, path)) fail("is the stash itself", "name a backup of it", from.string());
        if (restored_in_place(from, path, how)) return;
        const Beside part(path);
        make_sound_copy(from, part.path(), how);
        put_aside(path);
        part.rename_to(path);
    });
}

}  // namespace battwright::stash
