// Sums that can be done by hand, and what a thing without a tag may have been.
#include "colour/spaces.hpp"
#include "shelves.hpp"

using namespace shelves;
using doctest::Approx;
using stash::Reason;

namespace {

stash::Lot priced(const char* name, double cost, const char* currency = "EUR") {
    stash::Lot lot = wool(name);
    lot.cost = stash::Money{cost, currency};
    return lot;
}

}  // namespace

TEST_CASE("a batt costs what its lots cost when it was carded") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string kelp = got(stash.add(priced("kelp", 10.0), 100.0)).mark;  // 0.10 a gram
    const std::string rope = got(stash.add(wool("rope"), 100.0)).mark;          // of no price
    const std::string krona = got(stash.add(priced("buoy", 50.0, "kr"), 100.0)).mark;
    const auto first = got(stash.card_it(carding({{kelp, 50.0}, {rope, 5.0}, {krona, 10.0}})));
    // 50 g left at 0.10 and 50 g more at 0.20: 0.15 on average.
    got(stash.move({kelp, Reason::bought, 50.0, "", "", stash::Money{10.0, "EUR"}}));
    const auto second = got(stash.card_it(carding({{kelp, 40.0}})));
    const auto undone = got(stash.card_it(carding({{kelp, 10.0}})));
    got(stash.take_back(undone.id));
    CHECK(holds(line_of(stash.move({kelp, Reason::bought, 5.0, "", "", stash::Money{1.0, "kr"}})), "EUR"));
    CHECK_FALSE(stash.move({kelp, Reason::given, 5.0, "", "", stash::Money{1.0, "EUR"}}));

    const auto costs = got(stash.batt_costs());
    REQUIRE(costs.size() == 2);
    CHECK(costs[0].batt == first.id);
    REQUIRE(costs[0].cost.sums.size() == 2);
    CHECK(costs[0].cost.sums[0].currency == "EUR");
    CHECK(costs[0].cost.sums[0].amount == Approx(5.0));
    CHECK(costs[0].cost.sums[1].amount == Approx(5.0));
    CHECK(costs[0].cost.unpriced_grams == 5.0);
    CHECK(costs[1].batt == second.id);
    CHECK(costs[1].cost.sums[0].amount == Approx(6.0));

    // Two skeins of 10 g and 30 g of the second batt, 40 g off the drum.
    got(stash.off_the_drum(second.id, 40.0));
    stash::Skein skein;
    skein.from = {{second.id, 100.0}};
    skein.date = "2024-07-01";
    skein.grams = 10.0;
    got(stash.log(skein));
    skein.grams = 30.0;
    skein.metres = 90.0;
    got(stash.log(skein));
    const auto skeins = got(stash.skein_costs());
    REQUIRE(skeins.size() == 2);
    CHECK(skeins[0].cost.sums[0].amount == Approx(1.5));
    CHECK(skeins[1].cost.sums[0].amount == Approx(4.5));

    const auto used = got(stash.used_in(2024));
    CHECK(used.batts == 2);
    CHECK(used.skeins == 2);
    CHECK(used.spun_metres == 90.0);
    CHECK(used.carded_grams == Approx(50.0 + 5.0 + 10.0 + 40.0));
    REQUIRE(used.kinds.size() == 1);
    CHECK(used.kinds[0].carded_grams == Approx(105.0));
    CHECK(used.carded_cost.sums[0].amount == Approx(11.0));
    CHECK(used.bought_grams == Approx(300.0));  // the later purchase is of today
    CHECK(got(stash.used_in(2019)).batts == 0);
}

TEST_CASE("raw fleece is dearer by the gram that goes on the drum, and dearer still out of the bath") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Lot fleece = priced("Gull Island ewe", 24.0);
    fleece.raw = true;
    fleece.yield_pct = 60.0;
    const std::string mark = got(stash.add(fleece, 2000.0)).mark;
    got(stash.card_it(carding({{mark, 60.0}})));  // 100 g of it as it lies, at 0.012
    CHECK(got(stash.batt_costs())[0].cost.sums[0].amount == Approx(1.2));
    got(stash.scour(mark, 950.0));  // 1900 g of raw, 22.80 of the money, are 950 g now
    got(stash.card_it(carding({{mark, 100.0}}, "2024-06-03")));
    CHECK(got(stash.batt_costs())[1].cost.sums[0].amount == Approx(2.4));
}

TEST_CASE("a purchase that is corrected keeps its money") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    const std::string mark = got(stash.add(priced("kelp", 10.0), 100.0)).mark;
    got(stash.correct(got(stash.movements(mark))[0].id, 80.0));
    got(stash.card_it(carding({{mark, 40.0}})));
    CHECK(got(stash.batt_costs())[0].cost.sums[0].amount == Approx(5.0));
    // Moths take grams at the price of the day.
    got(stash.move({mark, Reason::wasted, 20.0, "", "", {}}));
    got(stash.card_it(carding({{mark, 20.0}}, "2024-06-03")));
    CHECK(got(stash.batt_costs())[1].cost.sums[0].amount == Approx(2.5));
}

TEST_CASE("by kind and by age, with the worth of what is left") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Lot mixed = priced("kelp", 20.0);
    mixed.content = {{"merino-fine", 70.0}, {"tussah-silk", 30.0}};
    mixed.got_on = "2024-01-01";
    got(stash.add(mixed, 200.0));
    stash::Lot fleece = wool("ewe");
    fleece.raw = true;
    fleece.yield_pct = 50.0;
    fleece.got_on = "2019-02-28";
    got(stash.add(fleece, 1000.0));
    stash::Lot undated = priced("rope", 5.0);
    undated.got_on = "";
    got(stash.weigh_again(got(stash.add(undated, 100.0)).mark, 40.0));
    const auto kinds = got(stash.by_kind());
    REQUIRE(kinds.size() == 2);
    CHECK(kinds[0].kind == "merino-fine");
    CHECK(kinds[0].lots == 3);
    CHECK(kinds[0].grams == Approx(140.0 + 1000.0 + 40.0));
    CHECK(kinds[0].clean_grams == Approx(140.0 + 500.0 + 40.0));
    CHECK(kinds[1].grams == Approx(60.0));

    const auto ages = got(stash.by_age("2024-02-29"));
    REQUIRE(ages.size() == 6);
    CHECK(ages[0].lots == 1);
    CHECK(ages[0].worth.sums[0].amount == Approx(20.0));
    CHECK(ages[3].lots == 1);  // 2019-02-28 is five years ago
    CHECK(ages[3].worth.unpriced_grams == 1000.0);
    CHECK(ages[5].grams == 40.0);
    CHECK(ages[5].worth.sums[0].amount == Approx(2.0));
    CHECK(got(stash.by_age("2024-02-27"))[2].lots == 1);
    CHECK_FALSE(stash.by_age("today"));
}

TEST_CASE("what was this? The one that fits comes first, with its reasons") {
    const Folder folder;
    stash::Stash stash = opened(folder / "stash.db");
    stash::Lot green = wool("kelp"), red = wool("buoy");
    green.palette = {{*colour::parse_hex("#2f5d50"), 100.0}};
    red.palette = {{*colour::parse_hex("#e04020"), 100.0}};
    const std::string kelp = got(stash.add(green, 100.0)).mark;
    const std::string buoy = got(stash.add(red, 100.0)).mark;
    const auto first = got(stash.card_it(carding({{kelp, 50.0}}, "2024-06-01")));
    const auto second = got(stash.card_it(carding({{buoy, 40.0}}, "2024-09-01")));
    stash::Skein skein;
    skein.name = "ebb";
    skein.from = {{first.id, 100.0}};
    skein.date = "2024-06-20";
    skein.grams = 47.0;
    skein.metres = 180.0;
    got(stash.log(skein));
    skein.name = "flood";
    skein.from = {{second.id, 100.0}};
    skein.metres = 150.0;
    skein.date = "2024-09-20";
    got(stash.log(skein));

    stash::Clue clue;
    clue.colour = colour::lab(*colour::parse_hex("#335f55"));
    clue.metres = 178.0;
    auto suspects = got(stash.look_up(clue, 10));
    REQUIRE(suspects.size() == 6);
    CHECK(suspects[0].name == "ebb");
    CHECK(suspects[0].thing == stash::Thing::skein);
    REQUIRE(suspects[0].reasons.size() == 2);
    CHECK(holds(suspects[0].reasons[0], "CIEDE2000"));
    CHECK(holds(suspects[0].reasons[1], "180 m"));
    CHECK(suspects[0].deviations < suspects[1].deviations);

    clue = {};
    clue.grams = 100.0;  // as bought, though half of it is gone
    clue.colour = colour::lab(*colour::parse_hex("#e04020"));
    suspects = got(stash.look_up(clue, 2));
    REQUIRE(suspects.size() == 2);
    CHECK(suspects[0].mark == buoy);
    CHECK(suspects[0].deviations == Approx(0.0).epsilon(0.001));

    // As wound, of a wool the wash takes 22 to 28 % of (published figures of polwarth): 240 m are 180 m.
    clue = {};
    clue.metres = 240.0;
    const auto ebb = [&] {
        for (const auto& suspect : got(stash.look_up(clue, 10)))
            if (suspect.name == "ebb" && suspect.thing == stash::Thing::skein) return suspect;
        FAIL("the skein is not there");
        return stash::Suspect{};
    };
    CHECK(ebb().deviations > 2.0);
    clue.shrink_pct = yarn::Spread{22.0, 28.0};
    CHECK(ebb().deviations == Approx(0.0).epsilon(0.001));
    CHECK(got(stash.look_up(clue, 10))[0].name == "ebb");

    clue = {};
    clue.date = "2024-09-03";
    CHECK(got(stash.look_up(clue, 10))[0].thing == stash::Thing::batt);
    CHECK(got(stash.look_up(clue, 10))[0].id == second.id);
    CHECK_FALSE(stash.look_up({}, 10));
    clue.date = "autumn";
    CHECK_FALSE(stash.look_up(clue, 10));
}
