#include "stash/database.hpp"

#include <sqlite3.h>

namespace battwright::stash {
namespace {

constexpr int pages_at_once = 256;
constexpr int milliseconds_between_tries = 20;

// Path as a file: URI, so that no character of it means anything else.
std::string uri_of(const std::filesystem::path& path, bool unchanging) {
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

}  // namespace

Statement::Statement(sqlite3* handle, std::string_view sql, const std::filesystem::path& path)
    : handle_(handle), path_(&path) {
    sqlite3_stmt* statement = nullptr;
    const int code =
        sqlite3_prepare_v2(handle, sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
    statement_.reset(statement);
    if (code != SQLITE_OK) fail_with(code, handle, path);
}

void Statement::Finalise::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
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

std::int64_t Statement::whole(int column) const {
    return sqlite3_column_int64(statement_.get(), column);
}
double Statement::real(int column) const {
    return sqlite3_column_double(statement_.get(), column);
}
std::string Statement::text(int column) const {
    const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), column));
    if (bytes == nullptr) return {};
    return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column))};
}
bool Statement::is_null(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}
std::optional<std::int64_t> Statement::maybe_whole(int column) const {
    return is_null(column) ? std::nullopt : std::optional(whole(column));
}
std::optional<double> Statement::maybe_real(int column) const {
    return is_null(column) ? std::nullopt : std::optional(real(column));
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
    : path_(path), touched_(std::make_unique<std::set<std::int64_t>>()) {
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(uri_of(path, unchanging).c_str(), &handle, flags_of(access), nullptr);
    handle_.reset(handle);
    if (code != SQLITE_OK) fail_with(code, handle, path_);
    sqlite3_extended_result_codes(handle, 1);
    sqlite3_busy_timeout(handle, patience_ms);
    sqlite3_update_hook(handle, note_touched_lot, touched_.get());
    // A file made by somebody else must not run functions or rewrite the schema behind our back.
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
}

void Database::script(const std::string& sql) {
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

void Database::copy_from(const Database& from) {
    sqlite3_backup* backup = sqlite3_backup_init(handle_.get(), "main", from.handle_.get(), "main");
    if (backup == nullptr) fail_with(sqlite3_errcode(handle_.get()), handle_.get(), path_);
    int code = SQLITE_OK;
    for (int tries = 0; tries < 250; ++tries) {
        do code = sqlite3_backup_step(backup, pages_at_once);
        while (code == SQLITE_OK);
        if (code != SQLITE_BUSY && code != SQLITE_LOCKED) break;
        sqlite3_sleep(milliseconds_between_tries);
    }
    const int end = sqlite3_backup_finish(backup);
    ++rollbacks_;  // whatever came of it, nothing read before is to be believed
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
}

Transaction::~Transaction() {
    if (done_) return;
    --database_.depth_;
    if (sqlite3_total_changes64(database_.handle()) != changes_before_) ++database_.rollbacks_;
    // On a full disk and the like SQLite has rolled back by itself.
    if (sqlite3_get_autocommit(database_.handle()) != 0) return;
    const char* undo = database_.depth_ > 0 ? "ROLLBACK TO inner; RELEASE inner" : "ROLLBACK";
    sqlite3_exec(database_.handle(), undo, nullptr, nullptr, nullptr);
}

void Transaction::commit() {
    if (sqlite3_get_autocommit(database_.handle()) != 0)
        fail("an earlier step failed and everything was put back", "try the whole again",
             database_.path().string());
    database_.run(database_.depth_ > 1 ? "RELEASE inner" : "COMMIT");
    --database_.depth_;
    done_ = true;
}

}  // namespace battwright::stash
