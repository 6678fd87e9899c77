// Files that are no stash, not ours, too new, read-only, locked, damaged or on a full disk: one clear line
// each, and nothing changed.
#include <fstream>

#include "children.hpp"
#include "measure/save.hpp"
#include "shelves.hpp"

using namespace shelves;

namespace {

std::string bytes_of(const fs::path& path) {
    return got(measure::load_bytes(path, 100'000'000));
}
void write(const fs::path& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
}

std::string refusal(const fs::path& path, const stash::OpenOptions& how = {}) {
    return line_of(stash::Stash::open(path, how));
}

// A stash of so many lots, closed, all of it in the one file.
std::vector<std::string> make(const fs::path& path, int lots) {
    stash::Stash stash = opened(path);
    std::vector<std::string> marks;
    got(stash.all_or_nothing([&]() -> measure::Expected<void> {
        for (int i = 0; i < lots; ++i) marks.push_back(got(stash.add(wool(), 100.0)).mark);
        return {};
    }));
    return marks;
}

bool line_holds(const measure::Complaint& complaint, const char* part) {
    return holds(measure::to_line(complaint), part) && !complaint.mend.empty();
}

}  // namespace

TEST_CASE("a new file and its folder are made only when that was meant") {
    const Folder folder;
    stash::OpenOptions looking;
    looking.create = false;
    CHECK(holds(refusal(folder / "none.db", looking), "no stash here"));
    looking.create = true;
    looking.read_only = true;
    CHECK(holds(refusal(folder / "none.db", looking), "no stash here"));
    CHECK_FALSE(fs::exists(folder / "none.db"));
    CHECK(holds(refusal(folder.path()), "folder"));
    CHECK(holds(refusal(""), "name a file"));
    write(folder / "file", "x");
    CHECK(holds(refusal(folder / "file/stash.db"), "folder"));
    got(opened(folder / "deep/er/stash.db").add(wool(), 5.0));
    CHECK(fs::exists(folder / "deep/er/stash.db"));
    // A name with everything in it that a URI or SQL could take for its own.
    const fs::path odd = folder / "my % wool? #1 'mode=ro'&x=y é.db";
    got(opened(odd).add(wool(), 5.0));
    CHECK(fs::exists(odd));
    // An empty file is a new stash.
    write(folder / "empty.db", "");
    got(opened(folder / "empty.db").add(wool(), 5.0));
}

TEST_CASE("what is no database, another program's, or newer is left as it is") {
    const Folder folder;
    write(folder / "letter.db", std::string(5000, 'x'));
    CHECK(holds(refusal(folder / "letter.db"), "no database"));
    {
        Raw raw(folder / "other.db");
        REQUIRE(raw.run("CREATE TABLE recipe (id); PRAGMA application_id = 77") == SQLITE_OK);
        Raw nameless(folder / "nameless.db");
        REQUIRE(nameless.run("CREATE TABLE lot (id)") == SQLITE_OK);
    }
    make(folder / "newer.db", 1);
    {
        Raw raw(folder / "newer.db");
        REQUIRE(raw.run("PRAGMA user_version = 99; PRAGMA journal_mode = DELETE") == SQLITE_OK);
    }
    make(folder / "none.db", 1);
    REQUIRE(Raw(folder / "none.db").run("PRAGMA user_version = 0") == SQLITE_OK);
    const auto left_alone = [&](const char* name, const char* words) {
        CAPTURE(name);
        const std::string before = bytes_of(folder / name);
        const std::string line = refusal(folder / name);
        CHECK(holds(line, words));
        CHECK(holds(line, name));
        CHECK(bytes_of(folder / name) == before);
    };
    left_alone("other.db", "another program");
    left_alone("nameless.db", "another program");
    left_alone("newer.db", "version 99");
    CHECK(holds(refusal(folder / "none.db"), "no version"));
}

TEST_CASE("a read-only file or folder is told, and can still be looked at") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    const std::string mark = make(path, 3).front();
    fs::permissions(folder.path(), fs::perms(0755));
    fs::permissions(path, fs::perms(0444));
    const auto both = [&] {
        const auto refused = stash::Stash::open(path);
        if (refused || !line_holds(refused.error(), "read-only")) return 1;
        stash::OpenOptions looking;
        looking.read_only = true;
        auto stash = stash::Stash::open(path, looking);
        if (!stash) return 2;
        const auto shelf = stash->shelf();
        if (!shelf || (*shelf)->lots.size() != 3) return 3;
        const auto written = stash->weigh_again(mark, 5.0);
        return !written && line_holds(written.error(), "read-only") ? 0 : 4;
    };
    CHECK(children::answer_as_nobody(both) == 0);
    // The file may be written, but nothing beside it.
    fs::permissions(path, fs::perms(0666));
    fs::permissions(folder.path(), fs::perms(0555));
    CHECK(children::answer_as_nobody([&] {
              const auto stash = stash::Stash::open(path);
              return !stash && line_holds(stash.error(), "permissions")      ? 0
                     : !stash && line_holds(stash.error(), "yours to write") ? 0
                                                                             : 1;
          }) == 0);
    fs::permissions(folder.path(), fs::perms(0755));
    CHECK(got(opened(path).lot(mark)).grams == 100.0);
}

TEST_CASE("while another program writes, readers go on and a writer is told to wait") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    stash::OpenOptions hasty;
    hasty.patience_ms = 30;
    stash::Stash stash = opened(path, hasty);
    const std::string mark = got(stash.add(wool(), 100.0)).mark;
    Raw other(path);
    REQUIRE(other.run("BEGIN IMMEDIATE; UPDATE lot SET name = 'half'") == SQLITE_OK);
    CHECK(holds(line_of(stash.weigh_again(mark, 90.0)), "another program"));
    CHECK(
        holds(measure::to_line(stash.card_it(carding({{mark, 5.0}})).error().complaint), "another program"));
    CHECK(got(stash.lot(mark)).lot.name == "Harbour fog");
    CHECK(opened(path, hasty).lot(mark).has_value());
    REQUIRE(other.run("ROLLBACK") == SQLITE_OK);
    CHECK(got(stash.weigh_again(mark, 90.0)).grams == -10.0);
}

TEST_CASE("on a full disk nothing is half written") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    const std::string mark = make(path, 200).front();
    const auto size = fs::file_size(path);
    const int carded = children::answer_of([&] {
        // Room for a few transactions in the log beside the file.
        children::limit_file_size(100'000);
        auto stash = stash::Stash::open(path);
        if (!stash) return 100;
        for (int i = 0; i < 90; ++i) {
            const auto done = stash->card_it(carding({{mark, 1.0}}));
            if (done) continue;
            if (!line_holds(done.error().complaint, "disk is full")) return 99;
            // And once more, now that it is known to be full.
            if (stash->card_it(carding({{mark, 1.0}}))) return 98;
            const auto left = stash->lot(mark);
            return left && left->grams == 100.0 - i ? i : 97;
        }
        return 96;
    });
    CAPTURE(size);
    CHECK(carded > 0);
    CHECK(carded < 90);
    const stash::Stash stash = opened(path);
    CHECK(got(stash.batts()).size() == static_cast<std::size_t>(carded));
    CHECK(got(stash.lot(mark)).grams == 100.0 - carded);
    check_sound(stash);
    // A backup that does not fit leaves the one that is there.
    got(stash.backup(folder / "backup.db"));
    const std::string old = bytes_of(folder / "backup.db");
    CHECK(children::answer_of([&] {
              auto here = stash::Stash::open(path);
              children::limit_file_size(20'000);
              const auto saved = here->backup(folder / "backup.db", measure::Replace::yes);
              return !saved && line_holds(saved.error(), "disk is full") ? 0 : 1;
          }) == 0);
    CHECK(bytes_of(folder / "backup.db") == old);
    int files = 0;
    for (const auto& entry : fs::directory_iterator(folder.path()))
        files += holds(entry.path().string(), ".part");
    CHECK(files == 0);
}

TEST_CASE(
    "a long piece of work that does not fit leaves nothing of itself, whatever it did about the failure") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    const std::string mark = make(path, 1).front();
    CHECK(children::answer_of([&] {
              auto stash = stash::Stash::open(path);
              if (!stash) return 2;
              children::limit_file_size(300'000);
              stash::Lot lot = wool("too much");
              lot.notes = std::string(15'000, 'x');
              const auto done = stash->all_or_nothing([&]() -> measure::Expected<void> {
                  // Far beyond SQLite's cache, so that it fails in the middle; and we look away.
                  for (int i = 0; i < 400; ++i) static_cast<void>(stash->add(lot, 5.0));
                  return {};
              });
              if (done || !line_holds(done.error(), "")) return 3;
              const auto shelf = stash->shelf();
              return shelf && (*shelf)->lots.size() == 1 ? 0 : 4;
          }) == 0);
    const stash::Stash stash = opened(path);
    CHECK(got(stash.shelf())->lots.size() == 1);
    CHECK(got(stash.lot(mark)).grams == 100.0);
    check_sound(stash);
}

TEST_CASE("a damaged page is told, and the backup takes its place") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    const std::string mark = make(path, 400).front();
    got(opened(path).backup(folder / "backup.db"));
    const std::string whole = bytes_of(path);
    constexpr std::size_t page = 4096;
    int told = 0, pages = 0;
    for (std::size_t at = page; at + page <= whole.size(); at += page) {
        CAPTURE(at);
        std::string broken = whole;
        for (std::size_t i = 0; i < page; ++i) broken[at + i] = static_cast<char>(i * 31 + at);
        write(path, broken);
        ++pages;
        const auto stash = stash::Stash::open(path);
        if (!stash) {
            CHECK(line_holds(stash.error(), "damaged"));
            ++told;
            continue;
        }
        if (const auto shelf = stash->shelf(); !shelf) CHECK(line_holds(shelf.error(), "damaged"));
        const auto health = stash->integrity();
        told += !health || !health->problems.empty() ? 1 : 0;
    }
    CHECK(pages > 20);
    // Every page is in use in a file nothing was ever deleted from.
    CHECK(told == pages);

    got(stash::restore(folder / "backup.db", path));
    const stash::Stash stash = opened(path);
    CHECK(got(stash.lot(mark)).grams == 100.0);
    CHECK(got(stash.integrity()).lots == 400);
    check_sound(stash);
    CHECK(fs::file_size(fs::path(path.string() + ".before")) == whole.size());
    write(path, "not a database at all, whatever its name says" + std::string(600, '.'));
    got(stash::restore(folder / "backup.db", path));
    CHECK(got(opened(path).integrity()).lots == 400);
}
