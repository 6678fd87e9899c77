// Using up scraps, with no colour asked for: linear, so answers can be worked out by hand or by trying all.
#include "keeping.hpp"

using namespace battwright;
using namespace battwright::testing;

namespace {

solve::Proposal best_of(const solve::Problem& problem) {
    const auto answer = solve::solve(problem, setting());
    REQUIRE(answer);
    if (answer->conflict) MESSAGE(answer->conflict->words);
    REQUIRE(!answer->proposals.empty());
    for (const auto& proposal : answer->proposals) check_keeps(problem, proposal);
    return answer->proposals.front();
}

std::vector<solve::Lot> shelf_of_four() {
    return {lot("blue", "#264e7a", 12.0), lot("grey", "#8c8c88", 40.0),
            lot("gold", "#b08d3c", 7.0, "tussah-silk"), lot("white", "#efe9dd", 200.0)};
}

// The objective of one set of whole grams, as Goal states it.
double objective_of(const solve::Problem& problem, const std::vector<double>& grams) {
    const auto& up = *problem.goal.use_up;
    double used = 0.0, all = 0.0, lots = 0.0;
    for (std::size_t j = 0; j < grams.size(); ++j) {
        const bool named = std::find(up.lots.begin(), up.lots.end(), problem.lots[j].id) != up.lots.end();
        const double usable = solve::usable_grams(problem.lots[j], problem.goal.bounds);
        if (!named && grams[j] > 0.0) lots += problem.goal.lot_worth_delta_e;
        if (!named || usable <= 0.0) continue;
        double weight = 1.0;
        if (up.by == solve::UseUpBy::oldest) weight = std::max(1, problem.lots[j].age_days);
        if (up.by == solve::UseUpBy::smallest_first) weight = 1.0 / usable;
        used += weight * grams[j];
        all += weight * usable;
    }
    return up.worth_delta_e * (1.0 - used / all) + lots;
}

// The best of all whole grams, for small shelves, on a scale of 1 g.
double best_of_all(const solve::Problem& problem, std::vector<double>& grams, std::size_t at = 0) {
    const solve::Goal& goal = problem.goal;
    const double total = *goal.total.most_grams;
    double sum = 0.0;
    for (std::size_t j = 0; j < at; ++j) sum += grams[j];
    if (sum > total) return 1e9;
    if (at == grams.size()) {
        if (sum < *goal.total.least_grams) return 1e9;
        std::size_t used = 0;
        double wool = 0.0;
        for (std::size_t j = 0; j < grams.size(); ++j) {
            used += grams[j] > 0.0;
            if (problem.lots[j].content.front().fibre != "tussah-silk") wool += grams[j];
        }
        if (used > *goal.bounds.most_lots || wool < goal.bounds.shares[0].least_pct / 100.0 * sum - 1e-9)
            return 1e9;
        return objective_of(problem, grams);
    }
    double best = 1e9;
    const double most = std::floor(solve::usable_grams(problem.lots[at], goal.bounds) + 1e-9);
    for (double g = 0.0; g <= most; g += 1.0) {
        if (g > 0.0 && g < goal.bounds.least_used_grams) continue;
        grams[at] = g;
        best = std::min(best, best_of_all(problem, grams, at + 1));
    }
    return best;
}

}  // namespace

TEST_CASE("all scraps go in when there is room, and the rest is filled up") {
    solve::Problem problem;
    problem.lots = shelf_of_four();
    problem.goal.use_up = solve::UseUp{{"blue", "grey", "gold"}};
    problem.goal.total = {100.0, 100.0};
    const auto best = best_of(problem);
    CHECK(best.grams == std::vector<double>{12.0, 40.0, 7.0, 41.0});
    CHECK(best.used_share == doctest::Approx(1.0));
    CHECK(best.used_up == std::vector<std::size_t>{0, 1, 2});
    CHECK(best.objective == doctest::Approx(0.02));  // one lot that was not asked for
}

TEST_CASE("what is used first, when not all of it fits") {
    solve::Problem problem;
    problem.lots = shelf_of_four();
    problem.lots[0].age_days = 10;
    problem.lots[1].age_days = 400;
    problem.lots[2].age_days = 30;
    problem.goal.use_up = solve::UseUp{{"blue", "grey", "gold"}};
    problem.goal.total = {20.0, 20.0};
    problem.goal.use_up->by = solve::UseUpBy::oldest;
    CHECK(best_of(problem).grams == std::vector<double>{0.0, 20.0, 0.0, 0.0});
    // 7 g and 12 g are finished, and 1 g is left for the grey.
    problem.goal.use_up->by = solve::UseUpBy::smallest_first;
    CHECK(best_of(problem).grams == std::vector<double>{12.0, 1.0, 7.0, 0.0});
}

TEST_CASE("a bound on a kind limits what can be used up") {
    // 7 g of silk at most 10 % asks for 70 g in all.
    solve::Problem problem;
    problem.lots = shelf_of_four();
    problem.lots[3].on_hand_grams = 0.0;
    problem.goal.use_up = solve::UseUp{{"blue", "grey", "gold"}};
    problem.goal.bounds.shares = {{solve::ShareOf::family, "silk", 0.0, 10.0}};
    const auto best = best_of(problem);
    // 52 g of wool carry 52 / 9 = 5.77 g of silk.
    CHECK(best.grams == std::vector<double>{12.0, 40.0, 5.7, 0.0});
}

TEST_CASE("equal batts within the carder's load") {
    solve::Problem problem;
    problem.lots = {lot("grey", "#8c8c88", 100.0), lot("blue", "#264e7a", 31.0)};
    problem.goal.batts = {0, 40.0, 60.0};
    const auto best = best_of(problem);
    // 131 g is more than two of 60 g hold; in three batts 33.3 g and 10.3 g.
    CHECK(best.batts == 3);
    CHECK(best.batt_grams[0] == doctest::Approx(33.3));
    CHECK(best.batt_grams[1] == doctest::Approx(10.3));
    CHECK(best.total_grams == doctest::Approx(130.8));
}

TEST_CASE("least weights and few lots: as good as trying every weight") {
    for (unsigned seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        solve::Problem problem;
        for (std::size_t k = 0; k < 4; ++k) {
            auto one = random_lot(random, k);
            one.on_hand_grams = double(whole(random, 3, 16));
            one.content = {{k % 2 == 0 ? "merino-fine" : "tussah-silk", 100.0}};
            problem.lots.push_back(one);
        }
        solve::Goal& goal = problem.goal;
        goal.scale_step_grams = 1.0;
        goal.use_up =
            solve::UseUp{{"lot-0", "lot-1", "lot-2"}, static_cast<solve::UseUpBy>(whole(random, 0, 2))};
        goal.total = {double(whole(random, 1, 8)), double(whole(random, 10, 20))};
        goal.bounds.most_lots = whole(random, 1, 3);
        goal.bounds.least_used_grams = double(whole(random, 1, 5));
        goal.bounds.shares = {{solve::ShareOf::family, "wool", double(whole(random, 0, 60)), 100.0}};
        std::vector<double> grams(4);
        const double all = best_of_all(problem, grams);
        const auto answer = solve::solve(problem, setting());
        REQUIRE(answer);
        REQUIRE(answer->proposals.empty() == (all > 1e8));
        if (answer->proposals.empty()) continue;
        const auto& best = answer->proposals.front();
        check_keeps(problem, best);
        CHECK(best.objective == doctest::Approx(objective_of(problem, best.grams)));
        CHECK(best.objective == doctest::Approx(all).epsilon(1e-9));
        CHECK(best.best_possible <= all + 1e-9);
    }
}

TEST_CASE("colour and scraps are weighed against each other") {
    Random random(9);
    solve::Problem problem;
    problem.lots = random_lots(random, 20);
    problem.goal.target = solve::target_of(*colour::parse_hex("#6f7f86"));
    problem.goal.use_up = solve::UseUp{{"lot-1", "lot-2", "lot-3"}};
    for (std::size_t j = 1; j <= 3; ++j) problem.lots[j].on_hand_grams = 15.0;
    problem.goal.total = {100.0, 100.0};
    double used = -1.0, delta_e = -1.0;
    for (const double worth : {0.0, 2.0, 10.0, 100.0}) {
        problem.goal.use_up->worth_delta_e = worth;
        const auto best = best_of(problem);
        CHECK(best.used_share >= used - 1e-6);
        CHECK(*best.delta_e >= delta_e - 0.05);  // a local search, on a step
        used = best.used_share;
        delta_e = *best.delta_e;
    }
    CHECK(used == doctest::Approx(1.0));
}
