// Backup, restore and the check of the whole file.
#include <sqlite3.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <optional>
#include <system_error>

#include "measure/beside.hpp"
#include "measure/replace.hpp"
#include "measure/seen.hpp"
#include "stash/core.hpp"
#include "stash/kept_copy.hpp"
#include "stash/shape.hpp"
#include "stash/validity.hpp"

namespace battwright::stash {
namespace {

namespace fs = std::filesystem;

constexpr int most_problems = 20;

// The folder is looked at first, since SQLite's word for a missing one is the same as for much else.
void check_place(const fs::path& to) {
    std::error_code error;
    if (!to.has_filename() || fs::is_directory(to, error))
        fail("cannot be saved: it is a folder", "name a file in it", to.string());
    if (fs::exists(to, error) && !fs::is_regular_file(to, error))
        fail("cannot be saved: it is not an ordinary file", "give another file name", to.string());
    const fs::path folder = to.has_parent_path() ? to.parent_path() : fs::path(".");
    if (!fs::is_directory(folder, error))
        fail("cannot be saved: there is no folder " + folder.string(), "make the folder first", to.string());
}

void remove_helpers(const fs::path& path) {
    std::error_code error;
    for (const char* ending : measure::helper_endings) fs::remove(path.string() + ending, error);
}

// Backups go over their target in one rename, with no journal of an older file left to be taken for theirs.
void save_copy(const Database& from, const fs::path& to) {
    auto part = value_of(measure::Beside::make(to));
    copy_whole_for(from, part, to);
    remove_helpers(to);
    value_of(part.replace(to));
}

// "stash.db.before", "stash.db.before-2", ...
fs::path before_of(const fs::path& path) {
    return path.string() + ".before";
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
    Statement rows = database.prepare("PRAGMA integrity_check(" + std::to_string(most_problems) + ")");
    while (rows.step())
        if (rows.text(0) != "ok") problems.push_back(rows.text(0));
    Statement keys = database.prepare("PRAGMA foreign_key_check");
    while (keys.step() && problems.size() < most_problems)
        problems.push_back("a line of table " + keys.text("table") + " points at nothing in " +
                           keys.text("parent"));
}

std::int64_t count_of(const Database& database, const char* sql) {
    Statement row = database.prepare(sql);
    return row.step() ? row.whole(0) : 0;
}

// Of the schema: what does no harm is a remark.
void check_schema(const Database& database, Health& health) {
    const Shape shape = shape_of(database);
    for (const auto* told : {&shape.broken, &shape.unsafe})
        health.problems.insert(health.problems.end(), told->begin(), told->end());
    health.remarks = shape.odd;
}

Health health_of(const Database& database, const fibre::Catalogue& catalogue) {
    Health health;
    try {
        check_file(database, health.problems);
        check_schema(database, health);
        // Where the pages or the tables are broken, the sums over them mean nothing.
        if (!health.problems.empty()) return health;
        check_sums(database, health.problems);
        check_rows(database, catalogue, most_problems, health.problems, health.remarks);
        health.lots = count_of(database, "SELECT count(*) FROM lot");
        health.movements = count_of(database, "SELECT count(*) FROM movement");
        health.batts = count_of(database, "SELECT count(*) FROM batt");
        health.skeins = count_of(database, "SELECT count(*) FROM skein");
    } catch (const Failed& failed) {
        if (!by_damage(failed)) throw;
        health.problems.push_back("the file " + failed.complaint.what);
    }
    return health;
}

// The pages of a restored file go into one that others have open, which cannot change their size.
void fit_pages(const fs::path& part, std::int64_t page_size) {
    if (page_size == 0) return;
    Database copy(part, Access::write, 0);
    if (copy.pragma("page_size") == page_size) return;
    copy.script("PRAGMA journal_mode = DELETE; PRAGMA page_size = " + std::to_string(page_size) + "; VACUUM");
}

// At one moment, while others may write. Nothing is to be kept, so the end of it cannot fail.
Health health_at_once(Stash::Core& core) {
    const Transaction looking(core.database, Transaction::For::reading);
    return health_of(core.database, core.catalogue);
}

// A copy of the backup in the present version, at `part`; a complaint when anything is wrong with it.
void make_checked_copy(const fs::path& from, const fs::path& part, const OpenOptions& how,
                       std::int64_t page_size) {
    {
        const Database backup(from, Access::read, how.patience_ms);
        if (backup.pragma("user_version") == 0 && backup.pragma("application_id") == 0)
            fail("is no backup of a stash", "name another file");
        copy_whole(backup, part);
    }
    {
        OpenOptions looking = how;
        looking.create = false;
        looking.read_only = false;
        const auto copy = value_of(Stash::open(part, looking));
        const Health health = value_of(copy.integrity());
        if (!health.problems.empty())
            fail("is damaged: " + health.problems.front(), "restore an older backup");
    }
    fit_pages(part, page_size);
}

// `page_size` 0: as it comes.
void make_sound_copy(const fs::path& from, const fs::path& part, const OpenOptions& how,
                     std::int64_t page_size) {
    std::error_code error;
    if (!fs::exists(from, error)) fail("there is no backup here", "check the path", from.string());
    if (fs::is_directory(from, error))
        fail("cannot be read: it is a folder", "name a file in it", from.string());
    if (!fs::is_regular_file(from, error))
        fail("cannot be read: it is a pipe or a device", "name an ordinary file", from.string());
    try {
        make_checked_copy(from, part, how, page_size);
    } catch (Failed& failed) {
        // What is wrong with the copy is wrong with the backup.
        failed.complaint.where = from.string();
        throw;
    }
}

fs::path restore_into(Database& database, const fs::path& from, const OpenOptions& how) {
    const fs::path& path = database.path();
    if (measure::is_same_file(from, path)) fail("is the stash itself", "name a backup of it", from.string());
    const auto part = value_of(measure::Beside::make(path));
    make_sound_copy(from, part.path(), how, database.pragma("page_size"));
    fs::path kept;
    {
        const Database copy(part.path(), Access::read, how.patience_ms);
        database.copy_from(copy, [&] {
            if (!database.in_place()) fail_with(SQLITE_READONLY_DBMOVED, nullptr, path);
            // Another connection: this one is about to be written to.
            kept = keep_copy(Database(path, Access::read, how.patience_ms), before_of(path));
        });
    }
    database.script("PRAGMA journal_mode = WAL");
    return kept;
}

// For a file that does not open: it is put aside as it is, helpers and all. Names the file.
fs::path put_aside(const fs::path& path) {
    std::error_code error;
    int n = 1;
    while (n < most_numbered && fs::exists(fs::symlink_status(numbered(before_of(path), n), error))) ++n;
    fs::path kept = numbered(before_of(path), n);
    // The log first: the file alone would be an older state of it.
    for (const char* ending : {"-wal", "-shm", "-journal", ""}) {
        const fs::path old = path.string() + ending;
        if (!fs::exists(old, error)) continue;
        fs::rename(old, kept.string() + ending, error);
        if (error)
            fail("cannot be put aside: " + error.message(), "choose a place you may write to", old.string());
    }
    return kept;
}

// By way of the open file, so that other programs that have it open see it too; gives the file that holds
// what was there. None when it is damaged, which may lie in pages that opening does not read.
std::optional<fs::path> restored_in_place(const fs::path& from, const fs::path& path,
                                          const OpenOptions& how) {
    try {
        Stash::Core core(path, how);
        if (!health_at_once(core).problems.empty()) return std::nullopt;
        return restore_into(core.database, from, how);
    } catch (const Failed& failed) {
        const bool of_path = failed.complaint.where == path.string();
        if (!of_path || !by_damage(failed)) throw;
        return std::nullopt;
    }
}

bool is_nothing(const fs::path& path) {
    std::error_code error;
    return !fs::exists(path, error) || fs::is_empty(path, error);
}

// A log that lies beside a file which is gone would be taken for the new one's.
bool has_helpers(const fs::path& path) {
    std::error_code error;
    return std::any_of(std::begin(measure::helper_endings), std::end(measure::helper_endings),
                       [&](const char* ending) { return fs::exists(path.string() + ending, error); });
}

// What lies there, if it is anything, goes aside; the part takes its place.
fs::path put_in_place(measure::Beside& part, const fs::path& path) {
    const bool nothing = is_nothing(path);
    fs::path kept = nothing && !has_helpers(path) ? fs::path() : put_aside(path);
    std::error_code error;
    if (kept.empty() && fs::exists(path, error))
        value_of(part.replace(path));  // an empty file
    else if (!value_of(part.place(path)))
        fail("was made by another program meanwhile", "try again", path.string());
    return kept;
}

}  // namespace

Expected<void> Stash::backup(const fs::path& to, measure::Replace replace) const {
    return guarded([&] {
        check_place(to);
        if (measure::is_same_file(to, core_->database.path()))
            fail("is the stash itself", "name another file for the backup", to.string());
        value_of(measure::may_write(to, measure::FileKind::database, replace));
        save_copy(core_->database, to);
    });
}

Expected<fs::path> Stash::keep_copy(const fs::path& first) const {
    return guarded([&] {
        check_place(first);
        return stash::keep_copy(core_->database, first);
    });
}

Expected<Health> Stash::integrity() const {
    return guarded([&] { return health_at_once(*core_); });
}

Expected<fs::path> Stash::restore(const fs::path& from) {
    return guarded([&] { return restore_into(core_->database, from, core_->how); });
}

Expected<fs::path> restore(const fs::path& from, const fs::path& path, const OpenOptions& how) {
    return guarded([&]() -> fs::path {
        check_place(path);
        if (measure::is_same_file(from, path))
            fail("is the stash itself", "name a backup of it", from.string());
        if (!is_nothing(path))
            if (const auto kept = restored_in_place(from, path, how)) return *kept;
        auto part = value_of(measure::Beside::make(path));
        make_sound_copy(from, part.path(), how, 0);
        return put_in_place(part, path);
    });
}

}  // namespace battwright::stash
