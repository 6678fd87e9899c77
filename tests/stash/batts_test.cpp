// Carding from the shelf: all lines or none, and back again.
#include <cmath>

#include "colour/spaces.hpp"
#include "shelves.hpp"

using namespace shelves;
using doctest::Approx;

TEST_CASE("carding takes every line, and taking back puts every gram where it was") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 60.0)).mark;
    const std::string b = got(stash.add(wool("brass"), 25.0)).mark;
    stash::Carding card = carding({{a, 40.0}, {b, 12.5}, {a, 20.0}});
    card.preparation = recipe::Preparation::semi_woollen;
    card.batts = 2;
    card.retained_share = 0.97;
    card.notes = "north wind";
    const auto batt = got(stash.card_it(card));
    CHECK(got(stash.lot(a)).grams == 0.0);
    CHECK(got(stash.lot(b)).grams == 12.5);
    CHECK(batt.fed_grams == 72.5);
    const auto read = got(stash.batt(batt.id));
    CHECK(read.carding.name == card.name);
    CHECK(read.carding.recipe == card.recipe);
    CHECK(read.carding.preparation == card.preparation);
    CHECK(read.carding.batts == 2);
    CHECK(read.carding.retained_share == 0.97);
    CHECK(read.carding.notes == "north wind");
    REQUIRE(read.carding.lines.size() == 3);
    CHECK(read.carding.lines[2].mark == a);
    CHECK(read.carding.lines[2].grams == 20.0);
    CHECK(got(stash.movements(a)).back().grams == -20.0);

    got(stash.take_back(batt.id, "the belt slipped", "2024-06-02"));
    CHECK(got(stash.lot(a)).grams == 60.0);
    CHECK(got(stash.lot(b)).grams == 25.0);
    CHECK(got(stash.batt(batt.id)).taken_back_on == "2024-06-02");
    CHECK(holds(line_of(stash.take_back(batt.id)), "2024-06-02"));
    CHECK_FALSE(stash.take_back(999));
    CHECK_FALSE(stash.off_the_drum(batt.id, 70.0));
    check_sound(stash);
}

TEST_CASE("what falls short is told lot by lot, and nothing is taken") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 60.0)).mark;
    const std::string b = got(stash.add(wool("brass"), 25.0)).mark;
    const std::string c = got(stash.add(wool("rope"), 100.0)).mark;
    const std::vector<stash::Line> lines{{a, 40.0}, {b, 25.0}, {a, 20.5}, {c, 100.001}};
    const auto done = stash.card_it(carding(lines));
    REQUIRE_FALSE(done.has_value());
    REQUIRE(done.error().short_lines.size() == 2);
    CHECK(done.error().short_lines[0].mark == a);
    CHECK(done.error().short_lines[0].name == "kelp");
    CHECK(done.error().short_lines[0].wanted_grams == 60.5);
    CHECK(done.error().short_lines[0].on_hand_grams == 60.0);
    CHECK(done.error().short_lines[1].mark == c);
    const std::string line = measure::to_line(done.error().complaint);
    CHECK(holds(line, "2 lots fall short"));
    CHECK(holds(line, a.c_str()));
    CHECK_FALSE(holds(line, b.c_str()));
    CHECK(got(stash.lot(a)).grams == 60.0);
    CHECK(got(stash.lot(b)).grams == 25.0);
    CHECK(got(stash.batts()).empty());
    CHECK(got(stash.integrity()).movements == 3);
}

TEST_CASE("a carding with a fault takes nothing") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 60.0)).mark;
    const auto refused = [&](auto&& spoil) {
        stash::Carding card = carding({{a, 10.0}});
        spoil(card);
        const auto done = stash.card_it(card);
        REQUIRE_FALSE(done.has_value());
        CHECK(done.error().short_lines.empty());
        CHECK_FALSE(done.error().complaint.mend.empty());
    };
    refused([](stash::Carding& card) { card.lines.clear(); });
    refused([](stash::Carding& card) { card.lines[0].grams = 0.0; });
    refused([](stash::Carding& card) { card.lines[0].grams = std::nan(""); });
    refused([](stash::Carding& card) { card.lines.push_back({"CCCCCC", 5.0}); });
    refused([](stash::Carding& card) { card.date = "2024-02-30"; });
    refused([](stash::Carding& card) { card.batts = 0; });
    refused([](stash::Carding& card) { card.retained_share = 0.0; });
    refused([](stash::Carding& card) { card.recipe = std::string(1, char(0xff)); });
    CHECK(got(stash.lot(a)).grams == 60.0);
    CHECK(got(stash.batts()).empty());
}

TEST_CASE("a raw fleece gives up its weight by the yield, all of it without a remainder") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    for (const double yield : {60.0, 66.6, 33.3, 71.43}) {
        CAPTURE(yield);
        stash::Lot fleece = wool("Gull Island ewe");
        fleece.raw = true;
        fleece.yield_pct = yield;
        const std::string mark = got(stash.add(fleece, 1000.0)).mark;
        const auto some = got(stash.card_it(carding({{mark, 90.0}})));
        CHECK(got(stash.lot(mark)).grams == Approx(1000.0 - 90.0 * 100.0 / yield));
        CHECK(some.fed_grams == 90.0);
        const double rest = got(stash.lot(mark)).clean_grams();
        CHECK_FALSE(stash.card_it(carding({{mark, rest + 0.01}})).has_value());
        got(stash.card_it(carding({{mark, rest}})));
        CHECK(got(stash.lot(mark)).grams < 1e-5);
        got(stash.take_back(some.id));
        CHECK(got(stash.lot(mark)).grams == Approx(90.0 * 100.0 / yield));
        // Scoured since: clean fibre comes back.
        const auto again = got(stash.card_it(carding({{mark, 30.0}})));
        got(stash.scour(mark, 50.0));
        got(stash.take_back(again.id));
        CHECK(got(stash.lot(mark)).grams == Approx(80.0));
    }
    check_sound(stash);
}

TEST_CASE("the last weighing off the drum counts, and one that cannot be is turned away") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 60.0)).mark;
    const auto batt = got(stash.card_it(carding({{a, 50.0}})));
    CHECK_FALSE(got(stash.batt(batt.id)).off_drum_grams.has_value());
    got(stash.off_the_drum(batt.id, 46.0));
    got(stash.off_the_drum(batt.id, 47.5, "after the tray was swept"));
    CHECK(got(stash.batt(batt.id)).off_drum_grams == 47.5);
    for (const double grams : {0.0, -3.0, 5.0, 475.0, std::nan("")})
        CHECK_FALSE(stash.off_the_drum(batt.id, grams));
    CHECK(got(stash.batts())[0].off_drum_grams == 47.5);
}

TEST_CASE("a batt that was spun is not taken back until the skein is removed") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 60.0)).mark;
    const auto batt = got(stash.card_it(carding({{a, 50.0}})));
    stash::Skein skein;
    skein.name = "ebb";
    skein.from = {{batt.id, 100.0}};
    const auto logged = got(stash.log(skein));
    CHECK(holds(line_of(stash.take_back(batt.id)), "ebb"));
    got(stash.remove_skein(logged.id));
    got(stash.take_back(batt.id));
    CHECK_FALSE(stash.log(skein));
    check_sound(stash);
}

TEST_CASE("a batt without a foretold colour has the light of its lots, by weight") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Lot black = wool("pitch"), white = wool("sail");
    black.palette = {{{0.0, 0.0, 0.0}, 100.0}};
    white.palette = {{{1.0, 1.0, 1.0}, 100.0}};
    const std::string a = got(stash.add(black, 60.0)).mark, b = got(stash.add(white, 60.0)).mark;
    const auto batt = got(stash.card_it(carding({{a, 30.0}, {b, 10.0}})));
    // A quarter of the light (CIE 15).
    CHECK(batt.carding.colour->l == Approx(116.0 * std::cbrt(0.25) - 16.0));
    stash::Carding foretold = carding({{a, 1.0}});
    foretold.colour = colour::Lab{40.0, 5.0, -7.0};
    CHECK(got(stash.card_it(foretold)).carding.colour->b == -7.0);
}

TEST_CASE("several calls are one transaction when asked, also one within another") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string a = got(stash.add(wool("kelp"), 60.0)).mark;
    got(stash.shelf());
    const auto failed = stash.all_or_nothing([&]() -> measure::Expected<void> {
        got(stash.add(wool("rope"), 5.0));
        got(stash.card_it(carding({{a, 20.0}})));
        CHECK(got(stash.shelf())->lots.size() == 2);
        return tl::make_unexpected(measure::Complaint{"row 7 is wrong", "mend it", "shelf.csv", 7});
    });
    CHECK(holds(line_of(failed), "row 7"));
    // The picture of the shelf that was taken in between is not believed any more.
    CHECK(got(stash.shelf())->lots.size() == 1);
    CHECK(got(stash.lot(a)).grams == 60.0);
    got(stash.all_or_nothing([&]() -> measure::Expected<void> {
        got(stash.add(wool("rope"), 5.0));
        CHECK_FALSE(stash.card_it(carding({{a, 600.0}})).has_value());  // put back by itself
        // An inner piece of work that fails takes only its own with it.
        CHECK_FALSE(stash.all_or_nothing([&]() -> measure::Expected<void> {
            got(stash.add(wool("flotsam"), 5.0));
            got(stash.weigh_again(a, 1.0));
            return tl::make_unexpected(measure::Complaint{"no", "no"});
        }));
        return stash.all_or_nothing([&] { return stash.set_currency("kr"); });
    }));
    CHECK(got(stash.shelf())->lots.size() == 2);
    CHECK(got(stash.lot(a)).grams == 60.0);
    CHECK(got(stash.currency()) == "kr");
    check_sound(stash);
}
