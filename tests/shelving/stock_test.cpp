// From the shelf to lots, and from a proposal to a batt.
#include "shelving/stock.hpp"
#include "place.hpp"

#include <doctest/doctest.h>

#include <filesystem>

#include "colour/spaces.hpp"
#include "recipe/file.hpp"
#include "shelving/suggestion.hpp"
#include "stash/date.hpp"

using namespace battwright;

namespace {

const fibre::Catalogue& catalogue() {
    return fibre::Catalogue::builtin();
}

std::chrono::sys_days day(const char* text) {
    return *stash::parse_date(text);
}

stash::Shelved shelved(const std::string& mark, double grams) {
    stash::Shelved one;
    one.lot.mark = mark;
    one.lot.name = "Gull grey " + mark;
    one.lot.content = {{"corriedale", 70.0}, {"tussah-silk", 30.0}};
    one.lot.palette = {{*colour::parse_hex("#7d8892"), 100.0}};
    one.lot.got_on = "2024-03-01";
    one.grams = grams;
    return one;
}

shelving::PricedLot priced(stash::Shelved lot, std::optional<double> cost = {}) {
    return {std::make_shared<const stash::Shelved>(std::move(lot)), cost};
}

stash::Movement bought(std::int64_t id, double grams, std::optional<stash::Money> cost = {}) {
    stash::Movement movement;
    movement.id = id;
    movement.grams = grams;
    movement.cost = std::move(cost);
    return movement;
}

}  // namespace

TEST_CASE("a shelved lot becomes a lot with its weight, age, price and whether it is a remainder") {
    auto raw = shelved("RRRRRR", 200.0);
    raw.lot.raw = true;
    raw.lot.yield_pct = 60.0;
    raw.lot.got_on.clear();
    raw.lot.staple_mm = 95.0;
    const auto stock = shelving::stock_of(
        {priced(shelved("KF7R3X", 12.0), 0.25), priced(shelved("EMPTY3", 0.0)), priced(raw)},
        day("2024-04-10"));
    REQUIRE(stock.lots.size() == 2);
    REQUIRE(stock.components.size() == 2);
    const auto& first = stock.lots[0];
    CHECK(first.id == "KF7R3X");
    CHECK(first.on_hand_grams == 12.0);
    CHECK(first.scrap);
    CHECK(first.age_days == 40);  // 31 days of March less one, and ten of April
    CHECK(*first.cost_per_gram == 0.25);
    CHECK(first.content.size() == 2);
    CHECK(stock.components[0].lot == "KF7R3X");
    CHECK(stock.components[0].price->of_grams(4.0) == doctest::Approx(1.0));
    const auto& second = stock.lots[1];
    CHECK(second.on_hand_grams == doctest::Approx(120.0));  // what scouring leaves
    CHECK_FALSE(second.scrap);
    CHECK(second.age_days == 0);
    CHECK_FALSE(second.cost_per_gram);
    CHECK(*second.staple_mm == 95.0);
    // What came after the day of the question is not of negative age.
    CHECK(shelving::stock_of({priced(shelved("KF7R3X", 12.0))}, day("2023-01-01")).lots[0].age_days == 0);
}

TEST_CASE("a gram's cost is all that was paid over all that was bought, of clean fibre") {
    auto lot = shelved("KF7R3X", 80.0);
    lot.lot.cost = stash::Money{10.0, "EUR"};
    const std::vector<stash::Movement> twice{bought(1, 100.0), bought(2, 50.0, stash::Money{8.0, "EUR"})};
    CHECK(*shelving::cost_per_gram(lot, twice, "EUR") == doctest::Approx(18.0 / 150.0));
    CHECK_FALSE(shelving::cost_per_gram(lot, twice, "kr"));
    auto corrected = twice;
    corrected.push_back(bought(3, -20.0));
    corrected.back().reason = stash::Reason::corrected;
    corrected.back().of_movement = 1;
    CHECK(*shelving::cost_per_gram(lot, corrected, "EUR") == doctest::Approx(18.0 / 130.0));
    lot.lot.raw = true;
    lot.lot.yield_pct = 50.0;
    CHECK(*shelving::cost_per_gram(lot, twice, "EUR") == doctest::Approx(18.0 / 75.0));
    lot.lot.cost.reset();
    CHECK_FALSE(shelving::cost_per_gram(lot, {bought(1, 100.0)}, "EUR"));
    CHECK_FALSE(shelving::cost_per_gram(lot, {}, "EUR"));
}

TEST_CASE("a recipe's components are lots of what they weigh, and come back as they were") {
    const std::string path = battwright::testing::source_dir() + "/blends/low-tide-scraps.toml";
    const auto recipe = recipe::read_file(path, catalogue());
    REQUIRE(recipe);
    const auto stock = shelving::stock_of(*recipe);
    REQUIRE(stock);
    REQUIRE(stock->lots.size() == 6);
    CHECK(stock->lots[0].id == "1");
    CHECK(stock->lots[2].on_hand_grams == 14.0);
    CHECK(stock->lots[2].scrap);
    solve::Proposal proposal;
    proposal.grams = {11.0, 0.0, 3 * 0.1, 0.0, 0.0, 4.0};  // 0.30000000000000004
    proposal.batt_grams = {5.5, 0.0, 0.1, 0.0, 0.0, 2.0};
    const auto batt = shelving::recipe_of(*stock, proposal);
    REQUIRE(batt.components.size() == 3);
    CHECK(batt.components[1].name == "no tag, soft");
    CHECK(std::get<measure::Mass>(batt.components[1].amount).grams == 0.3);
    CHECK(batt.carding.passes == 2);
    CHECK_FALSE(batt.total);
    CHECK(recipe::check(batt, catalogue()));
    const auto one = shelving::recipe_of(*stock, proposal, true);
    CHECK(std::get<measure::Mass>(one.components[0].amount).grams == 5.5);
}

TEST_CASE("of every example one component alone makes a batt: what names the others is left out") {
    for (const auto& entry :
         std::filesystem::directory_iterator(battwright::testing::source_dir() + "/blends")) {
        CAPTURE(entry.path().filename().string());
        const auto recipe = recipe::read_file(entry.path().string(), catalogue());
        REQUIRE(recipe);
        const auto stock = shelving::stock_of(*recipe);
        REQUIRE(stock);
        solve::Proposal proposal;
        proposal.grams.assign(stock->lots.size(), 0.0);
        proposal.grams.back() = 5.0;
        proposal.batt_grams = proposal.grams;
        auto batt = shelving::recipe_of(*stock, proposal);
        batt.name = "One of them";
        for (auto& component : batt.components) component.add_on_pass = 1;
        const auto checked = recipe::check(batt, catalogue());
        CHECK_MESSAGE(checked, (checked ? "" : measure::to_line(checked.error())));
    }
}

TEST_CASE("whatever lies on the shelf becomes a recipe that checks") {
    auto odd = shelved("KF7R3X", 30.0);
    odd.lot.name = std::string(199, 'x') + "\u00e9\u00e9";
    odd.lot.staple_mm = 4000.0;
    odd.lot.diameter_um = 0.01;
    odd.lot.palette.clear();
    for (int i = 0; i < 40; ++i) odd.lot.palette.push_back({{0.01 * (i % 35), 0.5, 0.123456}, 2.5});
    const auto stock = shelving::stock_of({priced(odd, 1.0 / 3.0)}, day("2024-04-10"));
    solve::Proposal proposal;
    proposal.grams = proposal.batt_grams = {20.0};
    auto batt = shelving::recipe_of(stock, proposal);
    batt.name = "Odd";
    const auto checked = recipe::check(batt, catalogue());
    CHECK_MESSAGE(checked, (checked ? "" : measure::to_line(checked.error())));
    const auto again = recipe::read_text(recipe::write_text(batt), "odd.toml", catalogue());
    REQUIRE(again);
    CHECK(again->components[0].lot == "KF7R3X");
}

TEST_CASE("the forecast of a proposal's batt has the proposal's colour") {
    auto teal = shelved("KF7R3X", 60.0), gold = shelved("PTV49C", 40.0);
    teal.lot.palette = {{*colour::parse_hex("#1f6f78"), 60.0}, {*colour::parse_hex("#2f5d50"), 40.0}};
    gold.lot.palette = {{*colour::parse_hex("#c39a4a"), 100.0}};
    const auto stock = shelving::stock_of({priced(teal), priced(gold)}, day("2024-04-10"));
    solve::Problem problem;
    problem.lots = stock.lots;
    problem.goal.target = solve::target_of(*colour::parse_hex("#6b7f5c"));
    problem.goal.total = {50.0, 50.0};
    const auto answer = solve::solve(problem, {&catalogue(), {}});
    REQUIRE(answer);
    REQUIRE_FALSE(answer->proposals.empty());
    forecast::Bench bench;
    bench.catalogue = &catalogue();
    const auto told = shelving::suggestions_of(stock, answer->proposals, "Harbour", bench);
    REQUIRE(told);
    for (const auto& one : *told) {
        // Two ways to the same colour: the solver's sums of lots, and the forecast's of strands.
        CHECK(colour::ciede2000(one.proposal.lab, one.forecast.colour.lab) < 0.01);
        CHECK(one.forecast.total_grams == doctest::Approx(50.0));
    }
}
