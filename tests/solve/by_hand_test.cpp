// Limits, grids and defaults worked out by hand, and derivatives against differences.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "colour/large.hpp"
#include "colour/optics.hpp"
#include "colour/reflectance.hpp"
#include "keeping.hpp"
#include "solve/appearance.hpp"
#include "solve/fit.hpp"
#include "solve/gamut.hpp"

namespace by_hand_test {

using namespace battwright;
using namespace battwright::testing;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

solve::Problem forty_grams() {
    solve::Problem problem;
    problem.lots = {lot("blue", "#264e7a", 50.0), lot("gold", "#b08d3c", 30.0, "tussah-silk")};
    problem.goal.total = {40.0, 40.0};
    return problem;
}

// What the only change that helps makes of a bound.
double changed_to(const solve::Problem& problem) {
    const auto answer = solve::solve(problem, setting());
    REQUIRE(answer);
    REQUIRE(answer->conflict);
    CAPTURE(answer->conflict->words);
    REQUIRE(answer->conflict->least_change.size() == 1);
    REQUIRE_FALSE(answer->conflict->least_change[0].drop);
    return answer->conflict->least_change[0].to;
}

bool is_refused(const solve::Problem& problem, const char* where) {
    const auto checked = solve::check(problem, setting());
    return !checked && checked.error().where == where;
}

solve::Problem hundred_grams_of(std::vector<solve::Lot> lots, const char* hex) {
    solve::Problem problem;
    problem.lots = std::move(lots);
    problem.goal.target = solve::target_of(*colour::parse_hex(hex));
    problem.goal.total = {100.0, 100.0};
    return problem;
}

}  // namespace

TEST_CASE("a colour's first and second derivatives are its differences") {
    // Taylor: along a straight line a smooth function changes by its slope and half its bend.
    for (const auto optics :
         {colour::Optics::stearns_noechel, colour::Optics::friele, colour::Optics::kubelka_munk}) {
        colour::OpticsModel model;
        model.optics = optics;
        const auto additive = [&](const char* hex) {
            const auto reflectance = colour::reflectance_of(*colour::parse_hex(hex));
            VectorXd f(Eigen::Index(colour::bands));
            for (Eigen::Index b = 0; b < f.size(); ++b)
                f[b] = colour::forward(reflectance[std::size_t(b)], model);
            return f;
        };
        const VectorXd here = 0.5 * (additive("#5d7a3c") + additive("#a08060"));
        const VectorXd along = additive("#a08060") - here;
        const solve::OfLab of = [](const colour::Lab& lab) {
            return lab.l * lab.l / 50.0 + lab.a * lab.b / 10.0 + 3.0 * lab.b;
        };
        const auto value = [&](double t) { return of(solve::lab_of_f(here + t * along, model)); };
        const auto local = solve::local_colour(here, model, of);
        const Eigen::Vector3d xyz = local.slope * along;
        const double h = 0.02;
        const double slope = (value(-2 * h) - 8 * value(-h) + 8 * value(h) - value(2 * h)) / (12 * h);
        const double bend =
            (-value(-2 * h) + 16 * value(-h) - 30 * value(0) + 16 * value(h) - value(2 * h)) / (12 * h * h);
        CAPTURE(static_cast<int>(optics));
        CHECK(local.value == doctest::Approx(value(0)));
        CHECK(local.gradient.dot(xyz) == doctest::Approx(slope).epsilon(1e-4).scale(0.0));
        CHECK(xyz.dot(local.hessian * xyz) + local.bend.dot(along.cwiseAbs2()) ==
              doctest::Approx(bend).epsilon(0.01).scale(0.0));
    }
}

TEST_CASE("a white and a black fibre have a slope by all three optics") {
    // Ends of the scales: Friele's function is 1 for white and Kubelka and Munk's 0, and neither goes
    // further.
    for (const auto optics :
         {colour::Optics::stearns_noechel, colour::Optics::friele, colour::Optics::kubelka_munk}) {
        colour::OpticsModel model;
        model.optics = optics;
        const solve::OfLab lightness = [](const colour::Lab& lab) { return lab.l; };
        for (const double reflectance : {1.0, 0.0005}) {
            const VectorXd f =
                VectorXd::Constant(Eigen::Index(colour::bands), colour::forward(reflectance, model));
            const auto local = solve::local_colour(f, model, lightness);
            CAPTURE(static_cast<int>(optics));
            CAPTURE(reflectance);
            CHECK(local.slope.allFinite());
            CHECK(local.bend.allFinite());
        }
    }
}

TEST_CASE("colour weighed against grams of a lot ends where trying every hundredth of a gram does") {
    // 100 g of black and white: a teal is not among their greys, and the more black, the more is used up.
    const colour::OpticsModel model;
    MatrixXd f(Eigen::Index(colour::bands), 2);
    Eigen::Index lot = 0;
    for (const char* hex : {"#202020", "#f4f0e8"}) {
        const auto reflectance = colour::reflectance_of(*colour::parse_hex(hex));
        for (Eigen::Index b = 0; b < f.rows(); ++b)
            f(b, lot) = colour::forward(reflectance[std::size_t(b)], model);
        ++lot;
    }
    const auto target = solve::target_of(*colour::parse_hex("#7f9f9f"));
    solve::FitProblem problem;
    problem.f = &f;
    problem.of = {solve::squared_difference(target, 1.0)};
    problem.columns = {{0, 0, 0.0, 100.0}, {0, 1, 0.0, 100.0}};
    problem.rows = MatrixXd::Ones(1, 2);
    problem.row_low = problem.row_high = VectorXd::Constant(1, 100.0);
    problem.root = true;
    for (const double worth : {0.0, 0.05, 0.1}) {
        problem.linear = VectorXd::Zero(2);
        problem.linear[0] = -worth;
        double best = 0.0, least = 1e9;
        for (double black = 0.0; black <= 100.0; black += 0.01) {
            const VectorXd mean = (black * f.col(0) + (100.0 - black) * f.col(1)) / 100.0;
            const double value =
                colour::match_difference(target.lab, solve::lab_of_f(mean, model)) - worth * black;
            if (value < least) {
                least = value;
                best = black;
            }
        }
        CAPTURE(worth);
        REQUIRE(best > 1.0);
        REQUIRE(best < 99.0);
        const auto found = solve::fit(problem, VectorXd::Constant(2, 50.0));
        CHECK(std::abs(found.grams[0] - best) < 0.05);
    }
}

TEST_CASE("a second proposal that a quarter of the weight can be moved to is given when two are wanted") {
    // Enough of the grey itself, and of black and white, which make a warmer one.
    solve::Problem problem = hundred_grams_of(
        {lot("grey", "#6f7f8a", 100.0), lot("black", "#302820", 100.0), lot("white", "#f4ead8", 100.0)},
        "#6f7f8a");
    problem.goal.most_proposals = 2;
    problem.goal.worst_delta_e = 50.0;
    const auto answer = solve::solve(problem, setting());
    REQUIRE(answer);
    REQUIRE(answer->proposals.size() == 2);
    CHECK(solve::difference(answer->proposals[0], answer->proposals[1]) >= 0.25);
}

TEST_CASE("a tenth kept back of 200 g leaves 180, and a lot's own if that is more") {
    solve::Lot grey = lot("grey", "#8c8c88", 200.0);
    solve::Bounds bounds;
    CHECK(solve::usable_grams(grey, bounds) == doctest::Approx(200.0));
    bounds.keep_back_pct = 10.0;
    CHECK(solve::usable_grams(grey, bounds) == doctest::Approx(180.0));
    grey.keep_back_grams = 30.0;
    CHECK(solve::usable_grams(grey, bounds) == doctest::Approx(170.0));
}

TEST_CASE(
    "without a number of batts there are two dozen at most, and a thousand are not too many to ask for") {
    solve::Problem problem;
    problem.lots = {lot("grey", "#8c8c88", 1500.0)};
    problem.goal.batts = {0, 50.0, 50.0};
    const auto many = solve::solve(problem, setting());
    REQUIRE((many && !many->proposals.empty()));
    CHECK(many->proposals.front().batts == 24);
    problem.goal.batts = {1000, {}, {}};
    CHECK(solve::check(problem, setting()));
    problem.goal.batts.count = 1001;
    CHECK(is_refused(problem, "batts"));
}

TEST_CASE("the finest scale weighs milligrams, shares end at the whole, and a gamut has four details") {
    solve::Problem problem = forty_grams();
    problem.goal.scale_step_grams = 0.001;  // a jeweller's scale, common practice
    CHECK(solve::check(problem, setting()));
    problem.goal.scale_step_grams = 0.0009;
    CHECK(is_refused(problem, "scale step"));
    problem = forty_grams();
    problem.goal.bounds.shares = {{solve::ShareOf::family, "silk", 0.0, 100.5}};
    CHECK_FALSE(solve::check(problem, setting()));
    problem = forty_grams();
    problem.goal.bounds.keep_back_pct = 100.5;
    CHECK(is_refused(problem, "keep back"));
    CHECK_FALSE(solve::gamut_of(problem.lots, setting(), {5}));
    CHECK_FALSE(solve::gamut_of(problem.lots, setting(), {0}));
    problem = forty_grams();
    problem.lots[0].on_hand_grams = problem.lots[1].on_hand_grams = 5000.0;
    std::vector<solve::Target> targets(101, solve::target_of(*colour::parse_hex("#6f7f86")));
    const auto series = solve::solve_series(problem, targets, setting());
    REQUIRE_FALSE(series);
    CHECK(series.error().where == "targets");
}

TEST_CASE(
    "bounds in the way are moved to where they just let it be, to the cent, the tenth and the percent") {
    // 40 g of the cheapest, 0.1025 a gram, cost 4.10; 100 g of it 10.25.
    solve::Problem problem = forty_grams();
    problem.lots[0].cost_per_gram = 0.1025;
    problem.lots[1].cost_per_gram = 0.30;
    problem.goal.bounds.most_cost = 4.05;  // for this 39.5 g could be had: a larger change
    CHECK(changed_to(problem) == doctest::Approx(4.10).epsilon(1e-9));
    problem.goal.bounds.most_cost.reset();
    problem.goal.bounds.most_cost_per_100_g = 9.0;
    CHECK(changed_to(problem) == doctest::Approx(10.25).epsilon(1e-9));
    // Told for as much as it is asked for: per 100 g.
    const auto bounds = solve::bounds_of(problem);
    const auto cost = std::find_if(bounds.begin(), bounds.end(), [](const solve::Bound& bound) {
        return bound.kind == solve::BoundKind::cost_per_100_g;
    });
    REQUIRE(cost != bounds.end());
    CHECK(cost->words == "a cost of at most 9 per 100 g");
    // To the thousandth.
    problem.goal.bounds.most_cost_per_100_g = 9.12345;
    CHECK(std::ranges::any_of(solve::bounds_of(problem), [](const solve::Bound& bound) {
        return bound.words == "a cost of at most 9.123 per 100 g";
    }));
    // Both lots are needed for 80 g, and 90 mm are 1.5 times 60.
    problem = forty_grams();
    problem.goal.total = {80.0, 80.0};
    problem.lots[0].staple_mm = 60.0;
    problem.lots[1].staple_mm = 90.0;
    problem.goal.bounds.staple_spread = 1.4;
    CHECK(changed_to(problem) <= 1.5 + 1e-9);
    // 50 g of wool in 80 g are 62.5 %.
    problem = forty_grams();
    problem.goal.total = {80.0, 80.0};
    problem.goal.bounds.shares = {{solve::ShareOf::family, "wool", 0.0, 62.0}};
    CHECK(changed_to(problem) == doctest::Approx(62.5).epsilon(1e-9));
    // Without a step weights are told to a tenth of a gram: of 80.05 g, 80.
    problem = forty_grams();
    problem.lots[0].on_hand_grams = 50.05;
    problem.goal.scale_step_grams = 0.0;
    problem.goal.total = {100.0, {}};
    CHECK(changed_to(problem) == doctest::Approx(80.0).epsilon(1e-9));
}

TEST_CASE("what is not said is a tenth of a gram, everything allowed, half of five for half of the scraps") {
    // Half of 20 g of scraps fit: of the 5 that all of them are worth, 2.5 are lost.
    solve::Problem problem;
    problem.lots = {lot("blue", "#264e7a", 10.0), lot("grey", "#8c8c88", 10.0)};
    problem.goal.use_up = solve::UseUp{{"blue", "grey"}};
    problem.goal.total = {10.0, 10.0};
    auto answer = solve::solve(problem, setting());
    REQUIRE((answer && !answer->proposals.empty()));
    CHECK(answer->proposals.front().objective == doctest::Approx(2.5));
    // A share without an upper bound bounds nothing above: all of it may be wool.
    problem = forty_grams();
    problem.lots.pop_back();
    solve::ShareBound wool;
    wool.of = solve::ShareOf::family;
    wool.what = "wool";
    problem.goal.bounds.shares = {wool};
    CHECK(solve::bounds_of(problem).size() <= 3);
    answer = solve::solve(problem, setting());
    REQUIRE((answer && !answer->proposals.empty()));
    CHECK(answer->proposals.front().grams[0] == doctest::Approx(40.0));
    // 10 g in thirds come in tenths: 3.3 or 3.4.
    problem = forty_grams();
    problem.goal.total = {10.0, 10.0};
    problem.goal.bounds.shares = {{solve::ShareOf::lot, "gold", 33.5, 34.9}};
    answer = solve::solve(problem, setting());
    REQUIRE((answer && !answer->proposals.empty()));
    CHECK(answer->proposals.front().grams[1] == doctest::Approx(3.4));
}

TEST_CASE("a quarter of the weight placed otherwise is another proposal, at most five, none far worse") {
    // White bags of one colour: 75 g and two of 25 g. The quarter can come out of either.
    solve::Problem problem = hundred_grams_of(
        {lot("large", "#efe9dd", 75.0), lot("left", "#efe9dd", 25.0), lot("right", "#efe9dd", 25.0)},
        "#efe9dd");
    auto answer = solve::solve(problem, setting());
    REQUIRE(answer);
    REQUIRE(answer->proposals.size() >= 2);
    CHECK(solve::difference(answer->proposals[0], answer->proposals[1]) == doctest::Approx(0.25));
    // Nothing of one is in the other: all of the weight.
    solve::Proposal one, other;
    one.grams = {60.0, 0.0};
    other.grams = {0.0, 30.0};
    one.total_grams = 60.0;
    other.total_grams = 30.0;
    CHECK(solve::difference(one, other) == doctest::Approx(1.0));
    std::size_t most = 0;
    double worst = 0.0;
    for (unsigned seed = 501; seed <= 530; ++seed) {
        Random random(seed);
        problem.lots = random_lots(random, seed % 2 == 0 ? 5 : 25);
        problem.goal.target = solve::target_of(dyed_colour(random));
        problem.goal.total = {30.0, 30.0};
        answer = solve::solve(problem, setting());
        REQUIRE(answer);
        most = std::max(most, answer->proposals.size());
        for (const auto& proposal : answer->proposals)
            worst = std::max(worst, proposal.objective - answer->proposals.front().objective);
    }
    CHECK(most == 5);
    CHECK(worst <= 5.0);
    CHECK(worst > 4.0);
}

}  // namespace by_hand_test
