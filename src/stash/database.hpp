// Inside this room: SQLite behind three small classes. Any statement can fail (a full disk, a locked file),
// so in here failures travel as an exception.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "measure/failed.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace battwright::stash {

using measure::fail;
using measure::Failed;  // its code is SQLite's, where it was SQLite that failed
using measure::guarded;
using measure::value_of;
bool by_damage(const Failed& failed);
bool by_want_of_room(const Failed& failed);  // SQLite could not lay its helpers beside the file

// Statements that have run and are ready to run again: for a short one SQLite takes longer over the text than
// over the work.
class Prepared {
  public:
    Prepared() = default;
    Prepared(const Prepared&) = delete;
    Prepared& operator=(const Prepared&) = delete;
    ~Prepared();

    sqlite3_stmt* take(std::string_view sql);  // null when there is none
    void give_back(sqlite3_stmt* statement);

  private:
    std::multimap<std::string, sqlite3_stmt*, std::less<>> idle_;
};

// One statement; values are always bound, never written into the text. It must not outlive its database.
class Statement {
  public:
    Statement(sqlite3* handle, std::string_view sql, const std::filesystem::path& path, Prepared& prepared);

    template <class... Values>
    Statement& bind(const Values&... values) {
        int at = 0;
        (put(++at, values), ...);
        return *this;
    }
    bool step();  // true: a row is there
    void run();   // to the end, ready to be bound anew
    void reset();

    // A column by its name, so that a query may gain or move one; or by its place, in a query of one or two.
    struct Column {
        Column(int place) : place(place) {}
        Column(const char* name) : name(name) {}
        int place = -1;
        std::string_view name{};
    };
    std::int64_t whole(Column column) const;
    double real(Column column) const;
    // Fit to be shown, whoever wrote the file: what is no UTF-8 and what a terminal would obey is '?'.
    std::string text(Column column) const;
    std::string bytes(Column column) const;  // the very text
    bool is_null(Column column) const;
    std::optional<std::int64_t> maybe_whole(Column column) const;
    std::optional<double> maybe_real(Column column) const;

  private:
    int place_of(const Column& column) const;
    void put(int at, std::int64_t value);
    void put(int at, int value) { put(at, static_cast<std::int64_t>(value)); }
    void put(int at, bool value) { put(at, static_cast<std::int64_t>(value)); }
    void put(int at, double value);
    void put(int at, std::string_view value);
    void put(int at, const std::string& value) { put(at, std::string_view(value)); }
    void put(int at, const char* value) { put(at, std::string_view(value)); }
    void put(int at, std::nullopt_t);
    template <class T>
    void put(int at, const std::optional<T>& value) {
        value ? put(at, *value) : put(at, std::nullopt);
    }

    struct GiveBack {
        Prepared* to;
        void operator()(sqlite3_stmt* statement) const { to->give_back(statement); }
    };
    sqlite3* handle_;
    std::unique_ptr<sqlite3_stmt, GiveBack> statement_;
    const std::filesystem::path* path_;
    mutable int next_ = 0;  // columns are mostly read in their order
};

enum class Access { read, write, create };
// Which file it is, whatever it is called by now.
struct FileId {
    std::uint64_t device = 0, inode = 0;
    bool operator==(const FileId&) const = default;
};
std::optional<FileId> file_at(const std::filesystem::path& path);  // none when there is no file

class Database {
  public:
    // Waits `patience_ms` for other programs. "": in memory. `unchanging`: the file lies where nothing can be
    // written, not even SQLite's own helpers beside it, and nobody changes it.
    Database(const std::filesystem::path& path, Access access, int patience_ms, bool unchanging = false);
    // The file at `path`, which complaints call `name`.
    Database(const std::filesystem::path& path, const std::filesystem::path& name, Access access,
             int patience_ms, bool unchanging);

    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    Statement prepare(std::string_view sql) const {
        *steps_ = 0;
        return {handle_.get(), sql, path_, *prepared_};
    }
    template <class... Values>
    void run(std::string_view sql, const Values&... values) {
        prepare(sql).bind(values...).run();
    }
    // Several statements of our own making, separated by semicolons.
    void script(const std::string& sql);
    // Keeps a write-ahead log from now on. SQLite does not wait for other programs here, so this does.
    void log_ahead(int patience_ms);
    std::int64_t pragma(const char* name) const;
    std::int64_t last_id() const;
    bool read_only() const;
    const std::filesystem::path& path() const { return path_; }
    sqlite3* handle() const { return handle_.get(); }
    // Is it still the file that was opened which lies at its path? What is written to one that was deleted or
    // replaced is lost.
    bool in_place() const;
    // What is only in the log goes into the file that is open, wherever it lies by now, and the log is
    // emptied: whoever opens what lies at the path next would take it for that file's own.
    void settle() const;

    // Equal as long as nothing in the file can have changed: by others, by us, by a rollback of
    // something written.
    struct Version {
        std::int64_t others = -1, ours = -1, rollbacks = -1;
        bool operator==(const Version&) const = default;
    };
    Version version() const;
    // Lots whose row or sum was written through this connection since they were last forgotten.
    const std::set<std::int64_t>& touched_lots() const { return *touched_; }
    void forget_touched_lots() { touched_->clear(); }
    // Pages of `from` into this file, in one transaction. `when_locked` runs when nobody else can write to it
    // any more and nothing is written yet; what it throws leaves the file as it was.
    void copy_from(const Database& from, const std::function<void()>& when_locked = {});

  private:
    friend class Transaction;
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    std::filesystem::path path_;
    std::filesystem::path file_;  // what path_ names, unless it is a copy
    int patience_ms_ = 0;
    std::optional<FileId> opened_;
    std::unique_ptr<std::set<std::int64_t>> touched_;  // where SQLite's hook finds it
    std::unique_ptr<std::int64_t> steps_;              // of the running statement; the same
    std::unique_ptr<sqlite3, Close> handle_;
    std::unique_ptr<Prepared> prepared_;  // ends before what it was prepared for
    int depth_ = 0;
    std::int64_t rollbacks_ = 0;
};

// A statement that takes more steps of SQLite's machine than this is stopped: the check of 10,000 lots and
// 100,000 movements takes some ten millions, a statement of ours on a file somebody has tampered with may
// run for ever.
inline constexpr std::int64_t most_steps = 300'000'000;

// All or nothing: rolled back unless commit() was reached. Within another one it is a savepoint. The
// outermost one that writes takes the file's one write lock at once, so that it cannot fail half way for want
// of it.
class Transaction {
  public:
    enum class For { reading, writing };
    Transaction(Database& database, For what);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

  private:
    void undo();
    void check_in_place() const;
    Database& database_;
    std::int64_t changes_before_ = 0;
    bool writes_ = false;  // the outermost, and for writing
    bool done_ = false;
};

// What SQLite's code means to a person; `handle` may be null.
[[noreturn]] void fail_with(int code, sqlite3* handle, const std::filesystem::path& path);

}  // namespace battwright::stash
