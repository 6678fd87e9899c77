// Backup and restore, and the step from version 1.
#include "measure/save.hpp"
#include "stash/schema.hpp"
#include "versions.hpp"

using namespace shelves;
using doctest::Approx;
using stash::Reason;

namespace {

void write_version_1(const fs::path& path) {
    write_version(1, path);
}

}  // namespace

TEST_CASE("a file of version 1 is carried over with all it knew") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    write_version_1(path);
    const auto check = [&] {
        const stash::Stash stash = opened(path);
        const auto shelf = got(stash.shelf());
        REQUIRE(shelf->lots.size() == 2);
        const auto& fog = *shelf->lots[0];
        CHECK(fog.lot.id == 3);
        CHECK(stash::parse_mark(fog.lot.mark).has_value());
        CHECK(fog.lot.name == "Harbour fog");
        CHECK(fog.lot.content[0].fibre == "merino-fine");
        CHECK(fog.lot.palette[0].colour.r == Approx(0x8a / 255.0));
        CHECK(fog.colour.has_value());
        CHECK(fog.lot.form == stash::Form::top);
        CHECK(fog.lot.cost == stash::Money{12.5, "EUR"});
        CHECK(fog.lot.maker == "Saltmarsh Farm");
        CHECK(fog.lot.got_on == "2021-04-03");
        CHECK(fog.lot.place == "blue chest");
        CHECK(fog.lot.notes == "it's soft; DROP TABLE");
        // 100.1 - 33.333333 - 0.5, in whole micrograms.
        CHECK(fog.grams == 66.266667);
        const auto moved = got(stash.movements(fog.lot.mark));
        REQUIRE(moved.size() == 3);
        CHECK(moved[1].batt == 2);
        CHECK(moved[2].reason == Reason::weighed);
        CHECK(moved[2].note == "damp");
        // Version 1 let a sum fall to -5 g; the record says where it was filled up.
        const auto& rope = *shelf->lots[1];
        CHECK(rope.lot.form == stash::Form::other);
        CHECK(rope.grams == 0.0);
        const auto given = got(stash.movements(rope.lot.mark));
        REQUIRE(given.size() == 4);
        CHECK(given[2].grams == 5.0);
        CHECK(holds(given[2].note, "version 1"));
        CHECK(given[3].grams == -25.0);

        const auto batt = got(stash.batt(2));
        CHECK(batt.carding.recipe == "format = 1");
        REQUIRE(batt.carding.lines.size() == 2);
        CHECK(batt.fed_grams == Approx(43.333333));
        const auto skeins = got(stash.skeins());
        REQUIRE(skeins.size() == 2);
        CHECK(skeins[0].metres == 182.88);
        CHECK(skeins[0].from[0].batt == 2);
        CHECK(skeins[0].foretold->nominal_length_m == 160.0);
        CHECK(skeins[0].became == "mitts");
        CHECK(skeins[1].from.empty());
        CHECK_FALSE(skeins[1].foretold.has_value());
        // What was foretold by another law of lengths is kept, and nothing is learnt from it.
        CHECK(skeins[0].foretold->law == 1);
        CHECK(got(stash.calibration()).of(recipe::Preparation::worsted).count == 0);
        check_sound(stash);
    };
    check();
    check();  // opened again: nothing more to do
    CHECK(Raw(path).value("PRAGMA user_version") == std::to_string(stash::present_version));
    CHECK(Raw(path).value("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name GLOB '*_1'") ==
          "0");
    CHECK(Raw(folder / "stash.db.version-1").value("SELECT count(*) FROM movement WHERE grams = 100.1") ==
          "1");

    stash::Stash stash = opened(path);
    got(stash.take_back(2, "", "2021-07-01").has_value() ? measure::Expected<void>{} : stash.remove_skein(5));
    got(stash.take_back(2, "", "2021-07-01"));
    CHECK(got(stash.shelf())->lots[0]->grams == 99.6);
    check_sound(stash);
}

TEST_CASE("a step that cannot be finished leaves the old file") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    write_version_1(path);
    {
        Raw raw(path);
        REQUIRE(raw.run("PRAGMA foreign_keys = OFF; INSERT INTO movement VALUES (9, 44, 'bought', 5, "
                        "'2021-01-01', '', NULL)") == SQLITE_OK);
    }
    CHECK(line_of(stash::Stash::open(path)).size() > 20);
    CHECK(Raw(path).value("PRAGMA user_version") == "1");
    CHECK(Raw(path).value("SELECT count(*) FROM movement") == "8");
    stash::OpenOptions looking;
    looking.read_only = true;
    CHECK(holds(line_of(stash::Stash::open(path, looking)), "older version"));
}

TEST_CASE("a backup is one whole file, and restoring brings all of it back, to everybody who looks") {
    const Folder folder;
    const fs::path path = folder / "stash.db", saved = folder / "safe.db";
    stash::Stash stash = opened(path);
    const std::string mark = got(stash.add(wool(), 100.0)).mark;
    stash::Stash elsewhere = opened(path);
    got(elsewhere.shelf());
    got(stash.backup(saved));
    CHECK_FALSE(fs::exists(saved.string() + "-wal"));
    got(stash.weigh_again(mark, 1.0));
    got(stash.add(wool("later"), 5.0));
    got(stash.restore(saved));
    CHECK(got(stash.lot(mark)).grams == 100.0);
    CHECK(got(elsewhere.shelf())->lots.size() == 1);
    CHECK(got(elsewhere.weigh_again(mark, 50.0)).grams == -50.0);
    CHECK(got(stash.lot(mark)).grams == 50.0);
    // What was there before is kept beside it.
    CHECK(got(opened(path.string() + ".before").shelf())->lots.size() == 2);
    // From outside, over a stash that is well, and where none is.
    got(stash::restore(saved, path));
    CHECK(got(stash.lot(mark)).grams == 100.0);
    got(stash::restore(saved, folder / "new.db"));
    CHECK(got(opened(folder / "new.db").lot(mark)).grams == 100.0);
    check_sound(stash);
    // The backup is as it was, and can be made again over itself.
    CHECK(got(opened(saved).lot(mark)).grams == 100.0);
    CHECK(holds(line_of(stash.backup(saved)), "--replace"));
    got(stash.backup(saved, measure::Replace::yes));
    int files = 0;
    for (const auto& entry : fs::directory_iterator(folder.path()))
        files += holds(entry.path().string(), "part");
    CHECK(files == 0);
}

TEST_CASE("what cannot be backed up to or restored from is told, and the stash stays") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    stash::Stash stash = opened(path);
    const std::string mark = got(stash.add(wool(), 100.0)).mark;
    CHECK(holds(line_of(stash.backup(path)), "itself"));
    CHECK(holds(line_of(stash.backup(folder.path())), "folder"));
    CHECK(holds(line_of(stash.backup(folder / "no/such/place.db")), "no folder"));
    CHECK(holds(line_of(stash.restore(path)), "itself"));
    CHECK(holds(line_of(stash.restore(folder / "none.db")), "no backup"));
    CHECK(holds(line_of(stash.restore(folder.path())), "folder"));
    got(measure::save_bytes(folder / "letter.db", std::string(5000, 'x')));
    CHECK(holds(line_of(stash.restore(folder / "letter.db")), "letter.db: is not a stash"));
    got(measure::save_bytes(folder / "empty.db", ""));
    CHECK(holds(line_of(stash.restore(folder / "empty.db")), "no backup of a stash"));
    {
        Raw raw(folder / "other.db");
        REQUIRE(raw.run("CREATE TABLE x (y); PRAGMA application_id = 5") == SQLITE_OK);
    }
    CHECK(holds(line_of(stash.restore(folder / "other.db")), "another program"));
    got(stash.backup(folder / "broken.db"));
    CHECK(Raw(folder / "broken.db").run("UPDATE on_hand SET micrograms = 7") == SQLITE_OK);
    CHECK(holds(line_of(stash.restore(folder / "broken.db")), "broken.db: is damaged"));
    CHECK(holds(line_of(stash::restore(folder / "broken.db", path)), "broken.db: is damaged"));
    // Somebody else's file is not put aside for a backup of ours.
    CHECK(holds(line_of(stash::restore(path, folder / "other.db")), "another program"));
    CHECK(got(stash.lot(mark)).grams == 100.0);
    // One of version 1 is carried over in a copy and stays itself.
    write_version_1(folder / "old.db");
    got(stash.restore(folder / "old.db"));
    CHECK(got(stash.shelf())->lots.size() == 2);
    CHECK(Raw(folder / "old.db").value("PRAGMA user_version") == "1");
    check_sound(stash);
}

TEST_CASE("what lies under the name of a step's copy is never written over") {
    const Folder folder;
    const fs::path path = folder / "stash.db", old = folder / "stash.db.version-1";
    const std::string hers = "kept by hand";
    REQUIRE(measure::save_bytes(old, hers));
    write_version_1(path);
    const std::string movements = Raw(path).value("SELECT count(*) FROM movement");
    opened(path);
    CHECK(got(measure::load_bytes(old, 1000)) == hers);
    CHECK(Raw(folder / "stash.db.version-1-2").value("PRAGMA user_version") == "1");
    // An older state of the same stash comes back from somewhere, with one movement less.
    fs::remove(path);
    write_version_1(path);
    REQUIRE(Raw(path).run("DELETE FROM movement WHERE id = 7") == SQLITE_OK);
    const std::string fewer = Raw(path).value("SELECT count(*) FROM movement");
    CHECK(fewer != movements);
    opened(path);
    CHECK(Raw(folder / "stash.db.version-1-2").value("SELECT count(*) FROM movement") == movements);
    CHECK(Raw(folder / "stash.db.version-1-3").value("SELECT count(*) FROM movement") == fewer);
}

TEST_CASE("a step that fails time and again leaves one copy of the old file, not one a try") {
    const Folder folder;
    const fs::path path = folder / "stash.db";
    write_version_1(path);
    REQUIRE(Raw(path).run("PRAGMA foreign_keys = OFF; INSERT INTO movement VALUES (9, 44, 'bought', 5, "
                          "'2021-01-01', '', NULL)") == SQLITE_OK);
    for (int i = 0; i < 3; ++i) CHECK_FALSE(stash::Stash::open(path));
    CHECK(fs::exists(folder / "stash.db.version-1"));
    CHECK_FALSE(fs::exists(folder / "stash.db.version-1-2"));
}
