// Movements: signed, summed, never edited.
#include <cmath>

#include "shelves.hpp"

using namespace shelves;
using stash::Reason;

namespace {

double grams_of(const stash::Stash& stash, const std::string& mark) {
    return got(stash.lot(mark)).grams;
}

}  // namespace

TEST_CASE("what leaves and what comes is summed, and no lot gives more than it has") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string mark = got(stash.add(wool(), 100.0)).mark;
    CHECK(got(stash.move({mark, Reason::wasted, 7.5, "2024-06-01", "moth", {}})).grams == -7.5);
    CHECK(got(stash.move({mark, Reason::given, 20.0, "", "to the net loft", {}})).grams == -20.0);
    CHECK(got(stash.move({mark, Reason::bought, 50.0, "2024-07-01", "", {}})).grams == 50.0);
    CHECK(grams_of(stash, mark) == 122.5);
    const auto refused = stash.move({mark, Reason::given, 122.501, "", "", {}});
    CHECK(holds(line_of(refused), "has 122.5 g, less than 122.501 g"));
    CHECK(holds(line_of(refused), "Harbour fog"));
    got(stash.move({mark, Reason::given, 122.5, "", "", {}}));
    CHECK(grams_of(stash, mark) == 0.0);
    for (const Reason reason : {Reason::carded, Reason::taken_back, Reason::weighed, Reason::corrected})
        CHECK_FALSE(stash.move({mark, reason, 1.0, "", "", {}}));
    for (const double grams : {0.0, -1.0, std::nan(""), HUGE_VAL})
        CHECK_FALSE(stash.move({mark, Reason::bought, grams, "", "", {}}));
    CHECK_FALSE(stash.move({mark, Reason::bought, 1.0, "yesterday", "", {}}));
    CHECK(got(stash.movements(mark)).size() == 5);
    check_sound(stash);
}

TEST_CASE("weighing again writes the difference as a movement of its own") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string mark = got(stash.add(wool(), 100.0)).mark;
    CHECK(got(stash.weigh_again(mark, 96.25, "damp gone", "2024-08-01")).grams == -3.75);
    CHECK(got(stash.weigh_again(mark, 96.25)).id == 0);
    CHECK(got(stash.weigh_again(mark, 0.0)).grams == -96.25);
    CHECK(got(stash.weigh_again(mark, 4.0)).grams == 4.0);
    CHECK_FALSE(stash.weigh_again(mark, -1.0));
    CHECK_FALSE(stash.weigh_again(mark, std::nan("")));
    const auto movements = got(stash.movements(mark));
    CHECK(movements.size() == 4);
    CHECK(movements[1].reason == Reason::weighed);
    CHECK(movements[1].note == "damp gone");
    CHECK(grams_of(stash, mark) == 4.0);
}

TEST_CASE("a movement is corrected by another one that names it") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string mark = got(stash.add(wool(), 100.0)).mark;
    const auto given = got(stash.move({mark, Reason::given, 30.0, "", "", {}}));
    const auto first = got(stash.correct(given.id, -20.0, "it was twenty"));
    CHECK(first.grams == 10.0);
    CHECK(first.of_movement == given.id);
    // Again: counted from what the first correction made of it.
    CHECK(got(stash.correct(given.id, -25.0)).grams == -5.0);
    CHECK(got(stash.correct(given.id, -25.0)).id == 0);
    CHECK(grams_of(stash, mark) == 75.0);
    CHECK(got(stash.correct(given.id, 0.0)).grams == 25.0);
    CHECK_FALSE(stash.correct(given.id, 5.0));
    CHECK_FALSE(stash.correct(first.id, 1.0));
    CHECK_FALSE(stash.correct(999, 1.0));
    CHECK_FALSE(stash.correct(given.id, -101.0));
    CHECK_FALSE(stash.correct(given.id, std::nan("")));
    const auto batt = got(stash.card_it(carding({{mark, 40.0}})));
    const auto movements = got(stash.movements(mark));
    CHECK(movements.back().batt == batt.id);
    CHECK(holds(line_of(stash.correct(movements.back().id, -30.0)), "take the batt back"));
    // The purchase cannot become less than what has gone into batts.
    CHECK_FALSE(stash.correct(movements.front().id, 39.0));
    got(stash.correct(movements.front().id, 40.0));
    CHECK(grams_of(stash, mark) == 0.0);
    check_sound(stash);
}

TEST_CASE("a raw fleece comes out of the bath lighter and clean") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Lot fleece = wool("Gull Island ewe");
    fleece.form = stash::Form::fleece;
    fleece.raw = true;
    fleece.yield_pct = 60.0;
    const std::string mark = got(stash.add(fleece, 2000.0)).mark;
    CHECK_FALSE(stash.scour(mark, 2000.0));
    CHECK_FALSE(stash.scour(mark, 0.0));
    CHECK(got(stash.scour(mark, 1150.0, "three baths")).grams == -850.0);
    const auto shelved = got(stash.lot(mark));
    CHECK_FALSE(shelved.lot.raw);
    CHECK(shelved.lot.yield_pct == 100.0);
    CHECK(shelved.clean_grams() == 1150.0);
    CHECK(holds(line_of(stash.scour(mark, 1000.0)), "not raw"));
    check_sound(stash);
}

TEST_CASE("the file itself refuses to edit, delete or replace a movement, whoever asks") {
    const Folder folder;
    std::string mark;
    {
        stash::Stash stash = opened(folder / "stash.db");
        mark = got(stash.add(wool(), 100.0)).mark;
        got(stash.card_it(carding({{mark, 40.0}})));
    }
    Raw raw(folder / "stash.db");
    for (const char* sql :
         {"UPDATE movement SET micrograms = 5 WHERE id = 1", "UPDATE movement SET note = 'x'",
          "DELETE FROM movement WHERE id = 1", "DELETE FROM movement",
          "INSERT OR REPLACE INTO movement (id, lot, reason, micrograms, made_on, note) "
          "VALUES (1, 1, 'bought', 5, '2024-01-01', '')",
          "REPLACE INTO movement (id, lot, reason, micrograms, made_on, note) "
          "VALUES (1, 1, 'bought', 5, '2024-01-01', '')",
          "UPDATE batt_line SET micrograms = 1", "DELETE FROM batt_line"}) {
        CAPTURE(sql);
        CHECK(raw.run(sql) == SQLITE_CONSTRAINT);
        CHECK(holds(raw.message(), "never"));
    }
    // Nor one that makes no sense, or takes more than there is.
    for (const char* values :
         {"(1, 'bought', -5, '2024-01-01', '')", "(1, 'wasted', 5, '2024-01-01', '')",
          "(1, 'carded', -5, '2024-01-01', '')", "(1, 'eaten', -5, '2024-01-01', '')",
          "(1, 'corrected', -5, '2024-01-01', '')", "(1, 'weighed', 0, '2024-01-01', '')",
          "(1, 'wasted', -60000001, '2024-01-01', '')"}) {
        CAPTURE(values);
        CHECK(raw.run(std::string("INSERT INTO movement (lot, reason, micrograms, made_on, note) VALUES ") +
                      values) == SQLITE_CONSTRAINT);
    }
    const stash::Stash stash = opened(folder / "stash.db");
    CHECK(got(stash.movements(mark)).size() == 2);
    CHECK(grams_of(stash, mark) == 60.0);
    check_sound(stash);
}

TEST_CASE("a sum that was changed behind our back is found") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string mark = got(stash.add(wool(), 100.0)).mark;
    Raw raw(folder / "stash.db");
    REQUIRE(raw.run("UPDATE on_hand SET micrograms = micrograms + 1") == SQLITE_OK);
    const auto health = got(stash.integrity());
    REQUIRE(health.problems.size() == 1);
    CHECK(holds(health.problems[0], mark.c_str()));
    REQUIRE(raw.run("UPDATE on_hand SET micrograms = micrograms - 1") == SQLITE_OK);
    check_sound(stash);
}
