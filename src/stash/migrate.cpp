#include <sqlite3.h>

#include <array>
#include <filesystem>

#include "stash/kept_copy.hpp"
#include "stash/schema.hpp"

namespace battwright::stash {
namespace {

void stamp(Database& database) {
    // Pragmas take no bound values; both are our own numbers.
    database.script("PRAGMA application_id = " + std::to_string(application_id) +
                    "; PRAGMA user_version = " + std::to_string(present_version));
}

bool has_tables(const Database& database) {
    Statement statement = database.prepare("SELECT 1 FROM sqlite_schema LIMIT 1");
    return statement.step();
}

// Empty, ours and present, ours and older; anything else does not return.
enum class State { empty, present, older };

State state_of(const Database& database) {
    const std::int64_t owner = database.pragma("application_id");
    const std::int64_t version = database.pragma("user_version");
    const std::string where = database.path().string();
    if (owner == 0 && version == 0 && !has_tables(database)) return State::empty;
    if (owner != application_id)
        fail("is a database of another program, not a stash", "name another file with --stash", where);
    if (version > present_version)
        fail("is of version " + std::to_string(version) + ", this program reads up to version " +
                 std::to_string(present_version),
             "use the newer battwright it was made with; nothing was changed", where);
    if (version < 1) fail("is damaged: it says it is of no version", "restore the last backup", where);
    return version == present_version ? State::present : State::older;
}

// A copy of the file as it was, since a step to a newer version is not walked back. One that lies there is
// never written over.
void keep_old(const Database& database) {
    keep_copy(database,
              database.path().string() + ".version-" + std::to_string(database.pragma("user_version")));
}

// Rebuilding a table that others refer to wants foreign keys off, which only works outside a transaction;
// they are looked over before the step counts.
class WithoutForeignKeys {
  public:
    explicit WithoutForeignKeys(Database& database) : database_(database) {
        database_.script("PRAGMA foreign_keys = OFF");
    }
    ~WithoutForeignKeys() {
        sqlite3_exec(database_.handle(), "PRAGMA foreign_keys = ON", nullptr, nullptr, nullptr);
    }
    WithoutForeignKeys(const WithoutForeignKeys&) = delete;
    WithoutForeignKeys& operator=(const WithoutForeignKeys&) = delete;

  private:
    Database& database_;
};

void check_foreign_keys(const Database& database) {
    Statement statement = database.prepare("PRAGMA foreign_key_check");
    if (statement.step())
        fail("could not be carried over: a line of its table " + statement.text(0) + " points nowhere",
             "restore an older backup; nothing was changed", database.path().string());
}

// One rung a version: the step from it to the next.
struct Rung {
    std::int64_t from;
    void (*climb)(Database&, const fibre::Catalogue&);
};
constexpr std::array<Rung, present_version - 1> ladder{{
    {1, carry_over_version_1},
    {2, carry_over_version_2},
    {3, carry_over_version_3},
    {4, carry_over_version_4},
}};
consteval bool every_version_has_its_rung() {
    std::int64_t version = 1;
    for (const Rung& rung : ladder)
        if (rung.from != version++ || rung.climb == nullptr) return false;
    return true;
}
static_assert(every_version_has_its_rung());

void climb(Database& database, const fibre::Catalogue& catalogue) {
    const std::int64_t version = database.pragma("user_version");
    for (const Rung& rung : ladder)
        if (rung.from >= version) rung.climb(database, catalogue);
}

void make_or_carry_over(Database& database, const fibre::Catalogue& catalogue) {
    const WithoutForeignKeys off(database);
    Transaction transaction(database, Transaction::For::writing);
    // Again, now that nobody else can write: another program may have been faster.
    const State state = state_of(database);
    if (state == State::present) return;
    if (state == State::empty) database.script(present_schema());
    if (state == State::older) climb(database, catalogue);
    check_foreign_keys(database);
    stamp(database);
    transaction.commit();
}

}  // namespace

void bring_up_to_date(Database& database, bool may_write, const fibre::Catalogue& catalogue) {
    const State state = [&] {
        // In one transaction: another program may be making the file between one look and the next.
        const Transaction looking(database, Transaction::For::reading);
        return state_of(database);
    }();
    if (state == State::present) return;
    if (!may_write)
        fail(state == State::empty ? "has nothing in it" : "is of an older version",
             state == State::empty ? "put a lot on the shelf first"
                                   : "open it once for writing, which carries it over",
             database.path().string());
    if (state == State::older) keep_old(database);
    make_or_carry_over(database, catalogue);
}

}  // namespace battwright::stash
