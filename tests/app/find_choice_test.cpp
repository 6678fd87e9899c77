// What was chosen and typed, as a problem; a conflict's changes, as typed again.
#include "app/find/find_choice.hpp"

#include <doctest/doctest.h>
#include <cmath>

#include "app/find/find_plot.hpp"
#include "harbour.hpp"
#include "stash/date.hpp"

using namespace battwright;
using app::FindChoice;
using app::FindColour;
using app::UseUpWhat;
using measure::MassUnit;

namespace {

const fibre::Catalogue& catalogue() {
    return fibre::Catalogue::builtin();
}
const recipe::Carder& carder() {
    return *recipe::find_carder("table-standard");
}

shelving::Stock harbour_stock() {
    std::vector<shelving::PricedLot> lots;
    for (const auto& bag : harbour::bags()) {
        stash::Shelved one{harbour::lot_of(bag), bag.grams, std::nullopt};
        one.lot.mark = bag.name;  // any text will do here
        lots.push_back({std::make_shared<const stash::Shelved>(std::move(one)), 0.09});
    }
    return shelving::stock_of(lots, *stash::parse_date("2026-01-01"));
}

auto problem_of(const FindChoice& choice, const shelving::Stock& stock = harbour_stock(),
                MassUnit unit = MassUnit::gram) {
    return app::problem_of(choice, stock, carder(), catalogue(), unit);
}

std::string fault_of(const FindChoice& choice, const shelving::Stock& stock = harbour_stock()) {
    const auto problem = problem_of(choice, stock);
    REQUIRE_FALSE(problem);
    CHECK_FALSE(problem.error().mend.empty());
    return problem.error().where;
}

FindChoice match() {
    FindChoice choice;
    choice.use_up = UseUpWhat::nothing;
    choice.colour = FindColour::one;
    return choice;
}

}  // namespace

TEST_CASE("what is on show and ticked is what may be used") {
    const auto stock = harbour_stock();
    FindChoice choice = match();
    CHECK(app::listed(choice, stock, catalogue()).size() == harbour::bags().size());
    choice.words = "SILK tide";
    CHECK(app::listed(choice, stock, catalogue()).empty());
    choice.words = "silk";  // by family, kind or name
    const auto silks = app::listed(choice, stock, catalogue());
    CHECK(silks.size() >= 5);
    choice.scraps_only = true;
    const auto scraps = app::listed(choice, stock, catalogue());
    REQUIRE(scraps.size() == 1);
    CHECK(stock.lots[scraps[0]].name == "Gutter silk");
    choice.left_out = {"Gutter silk"};
    CHECK(fault_of(choice) == "lots");
    choice.scraps_only = false;
    const auto problem = problem_of(choice);
    REQUIRE(problem);
    CHECK(problem->problem.lots.size() == silks.size() - 1);
    CHECK(problem->stock.components.size() == silks.size() - 1);
}

TEST_CASE("rows of bounds become shares; empty ones bound nothing") {
    FindChoice choice = match();
    choice.bounds = {{"wool", "60", ""}, {"cotton", "", ""}, {"silk", "10 %", "20"}, {"sparkle", "", "3"}};
    const auto problem = problem_of(choice);
    REQUIRE(problem);
    const auto& shares = problem->problem.goal.bounds.shares;
    REQUIRE(shares.size() == 3);
    CHECK(problem->bound_rows == std::vector<std::size_t>{0, 2, 3});
    CHECK(shares[0].of == solve::ShareOf::family);
    CHECK(shares[0].least_pct == 60.0);
    CHECK(shares[0].most_pct == 100.0);
    CHECK(shares[1].least_pct == 10.0);
    CHECK(shares[1].most_pct == 20.0);
    CHECK(shares[2].least_pct == 0.0);
    CHECK(shares[2].most_pct == 3.0);
}

TEST_CASE("weights, batts, lots, cost, staple and reserve are read as typed") {
    FindChoice choice = match();
    choice.total = "80-120";
    choice.within_load = true;
    choice.batts = 0;
    choice.most_lots = 4;
    choice.most_cost = "7.50";
    choice.staple_spread = "1.5";
    choice.keep_back = "10";
    choice.step = "1";
    const auto problem = problem_of(choice);
    REQUIRE(problem);
    const auto& goal = problem->problem.goal;
    CHECK(*goal.total.least_grams == 80.0);
    CHECK(*goal.total.most_grams == 120.0);
    CHECK(goal.batts.count == 0);
    CHECK(*goal.batts.most_grams == carder().load_high_grams);
    CHECK(*goal.bounds.most_lots == 4);
    CHECK(*goal.bounds.most_cost == 7.5);
    CHECK(*goal.bounds.staple_spread == 1.5);
    CHECK(goal.bounds.keep_back_pct == 10.0);
    CHECK(goal.scale_step_grams == 1.0);
    choice.total = "3 - 4";
    const auto ounces = problem_of(choice, harbour_stock(), MassUnit::ounce);
    REQUIRE(ounces);
    CHECK(*ounces->problem.goal.total.most_grams == doctest::Approx(4.0 * 28.349523125));
}

TEST_CASE("what to use up, and a gradient") {
    FindChoice choice;
    choice.by = solve::UseUpBy::smallest_first;
    const auto scraps = problem_of(choice);
    REQUIRE(scraps);
    CHECK(scraps->problem.goal.use_up->lots.size() == 10);
    CHECK(scraps->problem.goal.use_up->by == solve::UseUpBy::smallest_first);
    CHECK_FALSE(scraps->problem.goal.target);
    choice.words = "romney";
    CHECK(fault_of(choice) == "use up");
    choice.use_up = UseUpWhat::all;
    REQUIRE(problem_of(choice));
    CHECK(problem_of(choice)->problem.goal.use_up->lots.size() == 2);
    FindChoice gradient = match();
    gradient.colour = FindColour::gradient;
    gradient.steps = 5;
    gradient.batts = 3;
    const auto problem = problem_of(gradient);
    REQUIRE(problem);
    CHECK(problem->targets.size() == 5);
    CHECK(problem->problem.goal.batts.count == 1);
}

TEST_CASE("a bad field is named") {
    const auto with = [](auto change) {
        FindChoice choice = match();
        change(choice);
        return choice;
    };
    CHECK(fault_of(with([](FindChoice& c) { c.total = "much"; })) == "total");
    CHECK(fault_of(with([](FindChoice& c) { c.total = "120-80"; })) == "total");
    CHECK(fault_of(with([](FindChoice& c) { c.step = "fine"; })) == "step");
    CHECK(fault_of(with([](FindChoice& c) { c.most_cost = "cheap"; })) == "cost");
    CHECK(fault_of(with([](FindChoice& c) { c.staple_spread = "0.4"; })) == "staple spread");
    CHECK(fault_of(with([](FindChoice& c) { c.keep_back = "120"; })) == "keep back");
    CHECK(fault_of(with([](FindChoice& c) {
              c.bounds = {{"wool", "", ""}, {"wool", "x", ""}};
          })) == "bound 2");
    CHECK(fault_of(with([](FindChoice& c) { c.bounds = {{"wool", "50", "40"}}; })) == "bound 1");
    CHECK(fault_of(with([](FindChoice& c) { c.bounds = {{"wol", "50", ""}}; })) == "bound 1");
    CHECK(fault_of(with([](FindChoice& c) { c.colour = FindColour::any; })) == "goal");
    CHECK(fault_of(match(), {}) == "lots");
}

TEST_CASE("bounds are offered for what the lots hold") {
    const auto words = app::bounded_words(harbour_stock(), catalogue());
    REQUIRE(words.size() > 10);
    CHECK(words.front() == "wool");
    for (const auto& word : words) {
        FindChoice choice = match();
        choice.bounds = {{word, "", "50"}};
        CHECK_MESSAGE(problem_of(choice), word);
    }
}

TEST_CASE("the least change, typed into the fields, makes the problem solvable") {
    std::vector<FindChoice> stuck;
    FindChoice choice = match();
    choice.words = "silk";  // 244 g and less
    choice.total = "900 g";
    stuck.push_back(choice);
    choice = match();
    choice.total = "100 g";
    choice.bounds = {{"wool", "", ""}, {"wool", "80", ""}, {"silk", "30", ""}};
    stuck.push_back(choice);
    choice = match();
    choice.total = "200 g";
    choice.most_cost = "3";
    stuck.push_back(choice);
    choice = match();
    choice.scraps_only = true;
    choice.total = "60 g";
    choice.most_lots = 2;
    stuck.push_back(choice);
    choice = match();
    choice.scraps_only = true;
    choice.within_load = true;
    choice.batts = 8;
    stuck.push_back(choice);
    choice = match();
    choice.words = "polwarth";
    choice.total = "280 g";
    choice.keep_back = "20";
    stuck.push_back(choice);
    for (const FindChoice& one : stuck) {
        const auto before = problem_of(one);
        REQUIRE(before);
        const auto answer = solve::solve(before->problem, {&catalogue(), {}});
        REQUIRE(answer);
        REQUIRE(answer->conflict);
        CAPTURE(answer->conflict->words);
        REQUIRE_FALSE(answer->conflict->least_change.empty());
        const auto changed = app::with_changes(one, *before, answer->conflict->least_change, MassUnit::gram);
        CHECK_FALSE(changed == one);
        const auto after = problem_of(changed);
        REQUIRE(after);
        const auto found = solve::solve(after->problem, {&catalogue(), {}});
        REQUIRE(found);
        CHECK_FALSE(found->conflict);
        CHECK_FALSE(found->proposals.empty());
    }
}

TEST_CASE("a found batt takes the place of the components and nothing else") {
    recipe::Recipe bench;
    bench.name = "Slack Water";
    bench.notes = "for the ferryman";
    bench.total = measure::Mass{50.0, MassUnit::gram};
    bench.carding.passes = 5;
    bench.components.resize(2);
    recipe::Recipe found;
    found.name = "Scraps";
    found.components.resize(3);
    found.components[0].lot = "KF7R3X";
    const auto taken = app::take_to_bench(app::sheet_of(bench), found);
    CHECK(taken.recipe.name == "Slack Water");
    CHECK(taken.recipe.notes == "for the ferryman");
    CHECK(taken.recipe.carding.passes == 5);
    CHECK_FALSE(taken.recipe.total);
    CHECK(taken.recipe.components.size() == 3);
    CHECK(taken.recipe.components[0].lot == "KF7R3X");
    CHECK(taken.marks.size() == 3);
    CHECK(app::take_to_bench({}, found).recipe.name == "Scraps");
}

TEST_CASE("axes of the gamut hold everything, in round steps, a and b alike") {
    const auto axes = app::axes_over({{20.0, -33.0, 5.0}, {80.0, 12.0, 61.0}});
    CHECK(axes.a.from <= -33.0);
    CHECK(axes.a.to >= 12.0);
    CHECK(axes.b.to >= 61.0);
    CHECK(axes.a.to - axes.a.from == doctest::Approx(axes.b.to - axes.b.from));
    CHECK(axes.l.place(50.0) == doctest::Approx(0.5));
    for (const auto* axis : {&axes.a, &axes.b, &axes.l}) {
        const auto ticks = axis->ticks();
        CHECK(ticks.front() == axis->from);
        CHECK(ticks.back() == doctest::Approx(axis->to));
        for (const double tick : ticks) CHECK(std::remainder(tick, 20.0) == doctest::Approx(0.0));
    }
    const auto one = app::axes_over({{50.0, 20.0, 20.0}});
    CHECK(one.a.to - one.a.from >= 60.0);
    CHECK(app::axes_over({}).b.to > app::axes_over({}).b.from);
}
