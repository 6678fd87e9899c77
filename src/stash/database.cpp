#include "stash/database.hpp"

#include <sqlite3.h>
#include <sys/stat.h>

#include <utility>

#include "measure/printable.hpp"

namespace battwright::stash {
namespace {

// How often, and how soon again, it looks whether another program is done.
constexpr int most_tries = 250, milliseconds_between_tries = 20;
// The longest text we write is a recipe or a forecast of a million bytes.
constexpr int longest_value = 16 << 20;
constexpr std::size_t most_idle = 64;

// Path as a file: URI, so that no character of it means anything else.
std::string uri_of(const std::filesystem::path& path, bool unchanging) {
    if (path.empty()) return ":memory:";
    constexpr std::string_view plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789/._-~";
    constexpr char digits[] = "0123456789abcdef";
    std::string uri = "file:";
    for (const char c : std::filesystem::absolute(path).string()) {
        if (plain.find(c) != std::string_view::npos) {
            uri += c;
            continue;
        }
        const auto byte = static_cast<unsigned char>(c);
        uri += '%';
        uri += digits[byte >> 4];
        uri += digits[byte & 15];
    }
    return unchanging ? uri + "?immutable=1" : uri;
}

int flags_of(Access access) {
    if (access == Access::read) return SQLITE_OPEN_READONLY | SQLITE_OPEN_URI;
    if (access == Access::write) return SQLITE_OPEN_READWRITE | SQLITE_OPEN_URI;
    return SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_URI;
}

// SQLite calls this for each row written, triggers' work included.
void note_touched_lot(void* touched, int, const char*, const char* table, sqlite3_int64 row) {
    const std::string_view name = table;
    if (name == "lot" || name == "on_hand") static_cast<std::set<std::int64_t>*>(touched)->insert(row);
}

// SQLite calls this every so many steps.
constexpr int steps_at_a_look = 1000;
int count_steps(void* steps) {
    auto& count = *static_cast<std::int64_t*>(steps);
    count += steps_at_a_look;
    return count > most_steps ? 1 : 0;
}

// A file made by somebody else must not run functions, rewrite the schema behind our back, or keep us busy
// for ever (after SQLite's page "Defense Against The Dark Arts").
void be_on_guard(sqlite3* handle, std::int64_t& steps) {
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, longest_value);
    sqlite3_limit(handle, SQLITE_LIMIT_TRIGGER_DEPTH, 4);
    sqlite3_progress_handler(handle, steps_at_a_look, count_steps, &steps);
    // Cells of broken pages are looked at before they are believed, and sorting needs no room on a full disk.
    sqlite3_exec(handle, "PRAGMA cell_size_check = ON; PRAGMA temp_store = MEMORY", nullptr, nullptr,
                 nullptr);
}

}  // namespace

std::optional<FileId> file_at(const std::filesystem::path& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) return std::nullopt;
    return FileId{static_cast<std::uint64_t>(status.st_dev), static_cast<std::uint64_t>(status.st_ino)};
}

Prepared::~Prepared() {
    for (const auto& [sql, statement] : idle_) sqlite3_finalize(statement);
}

sqlite3_stmt* Prepared::take(std::string_view sql) {
    const auto found = idle_.find(sql);
    if (found == idle_.end()) return nullptr;
    sqlite3_stmt* statement = found->second;
    idle_.erase(found);
    return statement;
}

void Prepared::give_back(sqlite3_stmt* statement) {
    const std::string_view sql = sqlite3_sql(statement);
    // Some pragmas do their work while they are prepared.
    if (idle_.size() >= most_idle || sql.starts_with("PRAGMA")) {
        sqlite3_finalize(statement);
        return;
    }
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    idle_.emplace(sql, statement);
}

Statement::Statement(sqlite3* handle, std::string_view sql, const std::filesystem::path& path,
                     Prepared& prepared)
    : handle_(handle), statement_(prepared.take(sql), GiveBack{&prepared}), path_(&path) {
    if (statement_ != nullptr) return;
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v3(handle, sql.data(), static_cast<int>(sql.size()),
                                        SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
    statement_.reset(statement);
    if (code != SQLITE_OK) fail_with(code, handle, path);
}

bool Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) return true;
    if (code == SQLITE_DONE) return false;
    // The words first: putting the statement back may change them.
    const int extended = sqlite3_extended_errcode(handle_);
    fail_with(extended, handle_, *path_);
}

void Statement::run() {
    while (step()) {
    }
    reset();
}

void Statement::reset() {
    sqlite3_reset(statement_.get());
    sqlite3_clear_bindings(statement_.get());
}

int Statement::place_of(const Column& column) const {
    if (column.place >= 0) return column.place;
    const int count = sqlite3_column_count(statement_.get());
    for (int i = 0; i < count; ++i) {
        const int place = (next_ + i) % count;
        if (column.name != sqlite3_column_name(statement_.get(), place)) continue;
        next_ = place + 1;
        return place;
    }
    fail("a query gives no column " + measure::quoted(column.name), "this is a fault in the program");
}

std::int64_t Statement::whole(Column column) const {
    return sqlite3_column_int64(statement_.get(), place_of(column));
}
double Statement::real(Column column) const {
    return sqlite3_column_double(statement_.get(), place_of(column));
}
std::string Statement::text(Column column) const {
    return measure::printable(bytes(column), measure::Lines::many);
}
std::string Statement::bytes(Column column) const {
    const int place = place_of(column);
    const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), place));
    if (bytes == nullptr) return {};
    return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), place))};
}
bool Statement::is_null(Column column) const {
    return sqlite3_column_type(statement_.get(), place_of(column)) == SQLITE_NULL;
}
std::optional<std::int64_t> Statement::maybe_whole(Column column) const {
    const Column at(place_of(column));
    return is_null(at) ? std::nullopt : std::optional(whole(at));
}
std::optional<double> Statement::maybe_real(Column column) const {
    const Column at(place_of(column));
    return is_null(at) ? std::nullopt : std::optional(real(at));
}

void Statement::put(int at, std::int64_t value) {
    sqlite3_bind_int64(statement_.get(), at, value);
}
void Statement::put(int at, double value) {
    sqlite3_bind_double(statement_.get(), at, value);
}
void Statement::put(int at, std::string_view value) {
    // A view of no text has no address, which SQLite would take for NULL.
    const char* bytes = value.data() != nullptr ? value.data() : "";
    sqlite3_bind_text(statement_.get(), at, bytes, static_cast<int>(value.size()), SQLITE_TRANSIENT);
}
void Statement::put(int at, std::nullopt_t) {
    sqlite3_bind_null(statement_.get(), at);
}

void Database::Close::operator()(sqlite3* handle) const {
    sqlite3_close_v2(handle);
}

Database::Database(const std::filesystem::path& path, Access access, int patience_ms, bool unchanging)
    : Database(path, path, access, patience_ms, unchanging) {}

Database::Database(const std::filesystem::path& path, const std::filesystem::path& name, Access access,
                   int patience_ms, bool unchanging)
    : path_(name),
      file_(path.empty() ? path : std::filesystem::absolute(path)),
      patience_ms_(patience_ms),
      touched_(std::make_unique<std::set<std::int64_t>>()),
      steps_(std::make_unique<std::int64_t>(0)),
      prepared_(std::make_unique<Prepared>()) {
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(uri_of(path, unchanging).c_str(), &handle, flags_of(access), nullptr);
    handle_.reset(handle);
    if (code != SQLITE_OK) fail_with(code, handle, path_);
    opened_ = file_at(file_);
    sqlite3_extended_result_codes(handle, 1);
    sqlite3_busy_timeout(handle, patience_ms);
    sqlite3_update_hook(handle, note_touched_lot, touched_.get());
    be_on_guard(handle, *steps_);
}

bool Database::in_place() const {
    int moved = 0;
    sqlite3_file_control(handle_.get(), "main", SQLITE_FCNTL_HAS_MOVED, &moved);
    return moved == 0 && opened_.has_value() && file_at(file_) == opened_;
}

Database::~Database() {
    if (handle_ != nullptr && opened_.has_value() && !in_place()) settle();
}

void Database::settle() const {
    sqlite3_busy_timeout(handle_.get(), 0);
    sqlite3_wal_checkpoint_v2(handle_.get(), "main", SQLITE_CHECKPOINT_TRUNCATE, nullptr, nullptr);
    sqlite3_busy_timeout(handle_.get(), patience_ms_);
}

void Database::script(const std::string& sql) {
    *steps_ = 0;
    const int code = sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) fail_with(code, handle_.get(), path_);
}

void Database::log_ahead(int patience_ms) {
    for (int waited = 0;; waited += milliseconds_between_tries) {
        const int code = sqlite3_exec(handle_.get(), "PRAGMA journal_mode = WAL", nullptr, nullptr, nullptr);
        if (code == SQLITE_OK) return;
        const bool busy = (code & 0xff) == SQLITE_BUSY || (code & 0xff) == SQLITE_LOCKED;
        if (!busy || waited >= patience_ms) fail_with(code, handle_.get(), path_);
        sqlite3_sleep(milliseconds_between_tries);
    }
}

std::int64_t Database::pragma(const char* name) const {
    Statement statement = prepare(std::string("PRAGMA ") + name);
    return statement.step() ? statement.whole(0) : 0;
}

std::int64_t Database::last_id() const {
    return sqlite3_last_insert_rowid(handle_.get());
}

bool Database::read_only() const {
    return sqlite3_db_readonly(handle_.get(), "main") == 1;
}

Database::Version Database::version() const {
    return {pragma("data_version"), sqlite3_total_changes64(handle_.get()), rollbacks_};
}

void Database::copy_from(const Database& from, const std::function<void()>& when_locked) {
    struct Backup {
        sqlite3_backup* handle;
        // Before its end is reached this puts everything back.
        int finish() { return sqlite3_backup_finish(std::exchange(handle, nullptr)); }
        ~Backup() { finish(); }
    } backup{sqlite3_backup_init(handle_.get(), "main", from.handle_.get(), "main")};
    if (backup.handle == nullptr) fail_with(sqlite3_errcode(handle_.get()), handle_.get(), path_);
    const auto stepped = [&](int pages) {
        int code = SQLITE_OK;
        for (int tries = 0; tries < most_tries; ++tries) {
            code = sqlite3_backup_step(backup.handle, pages);
            if (code != SQLITE_BUSY && code != SQLITE_LOCKED) break;
            sqlite3_sleep(milliseconds_between_tries);
        }
        return code;
    };
    ++rollbacks_;  // whatever comes of it, nothing read before is to be believed
    // No page yet, but the lock.
    int code = stepped(0);
    if (code == SQLITE_OK) {
        if (when_locked) when_locked();
        code = stepped(-1);  // all of them
    }
    const int end = backup.finish();
    if (code != SQLITE_DONE) fail_with(code, handle_.get(), path_);
    if (end != SQLITE_OK) fail_with(end, handle_.get(), path_);
}

Transaction::Transaction(Database& database, For what) : database_(database) {
    const bool inner = database_.depth_ > 0;
    if (inner && sqlite3_get_autocommit(database_.handle()) != 0)
        fail("an earlier step failed and everything was put back", "try the whole again",
             database_.path().string());
    const char* begin = what == For::writing ? "BEGIN IMMEDIATE" : "BEGIN";
    changes_before_ = sqlite3_total_changes64(database_.handle());
    database_.run(inner ? "SAVEPOINT inner" : begin);
    ++database_.depth_;
    writes_ = !inner && what == For::writing;
    if (!writes_) return;
    try {
        check_in_place();
    } catch (...) {
        undo();
        database_.settle();
        throw;
    }
}

void Transaction::check_in_place() const {
    if (!database_.in_place()) fail_with(SQLITE_READONLY_DBMOVED, nullptr, database_.path());
}

void Transaction::undo() {
    --database_.depth_;
    if (sqlite3_total_changes64(database_.handle()) != changes_before_) ++database_.rollbacks_;
    // On a full disk and the like SQLite has rolled back by itself.
    if (sqlite3_get_autocommit(database_.handle()) != 0) return;
    const char* undo = database_.depth_ > 0 ? "ROLLBACK TO inner; RELEASE inner" : "ROLLBACK";
    sqlite3_exec(database_.handle(), undo, nullptr, nullptr, nullptr);
}

Transaction::~Transaction() {
    if (!done_) undo();
}

void Transaction::commit() {
    if (sqlite3_get_autocommit(database_.handle()) != 0)
        fail("an earlier step failed and everything was put back", "try the whole again",
             database_.path().string());
    if (writes_) check_in_place();
    database_.run(database_.depth_ > 1 ? "RELEASE inner" : "COMMIT");
    --database_.depth_;
    done_ = true;
}

}  // namespace battwright::stash
