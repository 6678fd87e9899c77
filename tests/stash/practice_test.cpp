// What the stash takes for a slip of the pen and what for a habit, from both sides of each border. The
// borders are common practice, no source, but where one is named.
#include <cmath>

#include "shelves.hpp"
#include "stash/habit.hpp"
#include "stash/hands.hpp"
#include "yarn/finish.hpp"

using namespace shelves;
using doctest::Approx;
using recipe::Preparation;

TEST_CASE("a remainder is half an ounce or so: not enough for a skein") {
    stash::Shelved shelved;
    shelved.lot = wool("kelp");
    shelved.grams = 14.2;  // half an ounce
    CHECK(stash::is_scrap(shelved));
    shelved.grams = 16.0;
    CHECK_FALSE(stash::is_scrap(shelved));
    shelved.lot.raw = true;
    shelved.lot.yield_pct = 50.0;  // 28 g as it lies, half of them clean
    shelved.grams = 28.0;
    CHECK(shelved.clean_grams() == Approx(14.0));
}

TEST_CASE(
    "what comes off the drum: a third of what was fed is a slip, a tenth more is damp, a fifth more is a "
    "slip") {
    const auto takes = [](double off_drum_grams) {
        stash::CardingHabit habit;
        return !habit.update(Preparation::woollen, off_drum_grams, 100.0);
    };
    CHECK(takes(33.0));
    CHECK_FALSE(takes(28.0));
    CHECK(takes(109.0));
    CHECK_FALSE(takes(115.0));
}

TEST_CASE(
    "before any batt: what a card loses, and Student's range of one batt after two, six degrees of freedom") {
    const stash::CardingHabit habit;
    for (const auto preparation : {Preparation::woollen, Preparation::semi_woollen, Preparation::worsted}) {
        const double lost_pct = yarn::carding_loss_pct(preparation).middle();
        CHECK(habit.share(preparation) == Approx(1.0 - 0.01 * lost_pct));
        // t of six degrees of freedom leaves a tenth beyond 1.440 (tables of Student's t); two parts in a
        // hundred from batt to batt, and the mean of two batts for the habit.
        const auto range = habit.share_80_percent(preparation);
        CHECK(0.5 * std::log(range.high / range.low) ==
              Approx(1.440 * 0.02 * std::sqrt(1.0 + 1.0 / 2.0)).epsilon(0.005).scale(0.0));
    }
}

TEST_CASE("measures of skeins and lots that nobody has") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const auto logs = [&](double grams, double metres, double wpi, int plies) {
        stash::Skein skein;
        skein.name = "ebb";
        skein.date = "2024-06-10";
        skein.grams = grams;
        skein.metres = metres;
        skein.wpi = wpi;
        skein.plies = plies;
        return stash.log(skein).has_value();
    };
    CHECK(logs(50.0, 120.0, 12.0, 2));
    // A rope of 100 kg a kilometre, a thread of a gram.
    CHECK(logs(99.0, 1.0, 0.0, 1));
    CHECK_FALSE(logs(110.0, 1.0, 0.0, 1));
    CHECK(logs(1.05, 1000.0, 0.0, 1));
    CHECK_FALSE(logs(0.95, 1000.0, 0.0, 1));
    CHECK_FALSE(logs(50.0, 120.0, 1100.0, 2));
    CHECK_FALSE(logs(50.0, 120.0, 12.0, 1100));
    stash::Lot lot = wool("kelp");
    lot.staple_mm = 11'000.0;
    CHECK_FALSE(stash.add(lot, 100.0));
    lot.staple_mm.reset();
    lot.diameter_um = 11'000.0;
    CHECK_FALSE(stash.add(lot, 100.0));
    // Of several batts the shares make a whole.
    const std::string mark = got(stash.add(wool("tar"), 100.0)).mark;
    const auto batt = got(stash.card_it(carding({{mark, 20.0}})));
    stash::Skein skein;
    skein.name = "flood";
    skein.date = "2024-06-10";
    skein.metres = 60.0;
    for (const auto& [share_pct, taken] : {std::pair{100.0, true}, {110.0, false}, {90.0, false}}) {
        CAPTURE(share_pct);
        skein.from = {{batt.id, share_pct}};
        CHECK(stash.log(skein).has_value() == taken);
    }
}

TEST_CASE("the age of what lies on the shelf, in years and the day before") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    for (const char* day : {"2023-06-02", "2023-06-01", "2022-06-02", "2022-06-01", "2019-06-02",
                            "2019-06-01", "2014-06-02", "2014-06-01"}) {
        stash::Lot lot = wool(day);
        lot.got_on = day;
        got(stash.add(lot, 10.0));
    }
    const auto ages = got(stash.by_age("2024-06-01"));
    // Under a year; to two; to five; to ten; older.
    CHECK(ages[0].lots == 1);
    CHECK(ages[1].lots == 2);
    CHECK(ages[2].lots == 2);
    CHECK(ages[3].lots == 2);
    CHECK(ages[4].lots == 1);
}
