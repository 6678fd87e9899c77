// What can and cannot be made of a shelf of two thousand lots, in a time one waits for.
#include <ctime>

#include "keeping.hpp"
#include "solve/conflict.hpp"

using namespace battwright;
using namespace battwright::testing;

namespace {

// A shelf as people have: many bags of a few kinds.
std::vector<solve::Lot> bags(Random& random, std::size_t count) {
    const char* kinds[]{"merino-fine", "merino-medium", "corriedale", "polwarth", "tussah-silk"};
    std::vector<solve::Lot> lots;
    for (std::size_t i = 0; i < count; ++i)
        lots.push_back(lot("lot-" + std::to_string(i), "#4f6b78", std::round(uniform(random, 5.0, 120.0)),
                           kinds[whole(random, 0, 4)]));
    return lots;
}

void bound_share(solve::Problem& problem, const char* kind, double low, double high) {
    problem.goal.bounds.shares.push_back({solve::ShareOf::kind, kind, low, high});
}

double seconds_for(const solve::Problem& problem, std::optional<solve::Answer>& answer) {
    const std::clock_t start = std::clock();
    answer = solve::solve(problem, setting()).value();
    return double(std::clock() - start) / CLOCKS_PER_SEC;
}

}  // namespace

TEST_CASE("bounds in each other's way on two thousand lots are told of in a time one waits for") {
    Random random(5);
    solve::Problem base;
    base.lots = bags(random, 2000);
    std::vector<solve::Problem> hard(4, base);
    // Each took 10 to 30 seconds when every lot was asked by itself.
    hard[0].goal.total = {80.0, 120.0};
    bound_share(hard[0], "tussah-silk", 6.0, 9.0);
    hard[0].goal.bounds.shares.push_back({solve::ShareOf::family, "silk", 34.0, 40.0});
    bound_share(hard[0], "merino-medium", 0.0, 49.0);
    bound_share(hard[0], "corriedale", 63.0, 67.0);
    hard[0].goal.bounds.most_lots = 1;
    hard[0].goal.bounds.least_used_grams = 5.0;
    hard[0].goal.scale_step_grams = 5.0;
    hard[1].goal.total = {3000.0, 3000.0};
    bound_share(hard[1], "corriedale", 26.0, 35.0);
    bound_share(hard[1], "polwarth", 9.0, 100.0);
    hard[1].goal.bounds.most_lots = 5;
    hard[2].goal.total = {1000.0, 1000.0};
    hard[2].goal.bounds.shares.push_back({solve::ShareOf::family, "wool", 10.0, 100.0});
    bound_share(hard[2], "tussah-silk", 26.0, 28.0);
    hard[2].goal.bounds.most_lots = 3;
    hard[2].goal.scale_step_grams = 5.0;
    hard[3].goal.total = {100.0, 100.0};
    hard[3].goal.bounds.shares.push_back({solve::ShareOf::family, "wool", 60.0, 100.0});
    hard[3].goal.bounds.shares.push_back({solve::ShareOf::family, "silk", 50.0, 100.0});
    hard[3].goal.bounds.most_lots = 2;
    hard[3].goal.bounds.least_used_grams = 30.0;
    for (std::size_t i = 0; i < hard.size(); ++i) {
        CAPTURE(i);
        std::optional<solve::Answer> answer;
        const double seconds = seconds_for(hard[i], answer);
        MESSAGE("seconds: " << seconds);
        CHECK(seconds < 8.0);
        REQUIRE(answer->conflict);
        REQUIRE_FALSE(answer->conflict->least_change.empty());
        solve::Problem mended = hard[i];
        for (const auto& change : answer->conflict->least_change) mended = solve::changed(mended, change);
        CHECK(*solve::feasible(mended, setting()));
    }
}

TEST_CASE("half of one kind to the gram out of two thousand lots and at most five of them") {
    Random random(6);
    solve::Problem problem;
    problem.lots = bags(random, 2000);
    problem.goal.total = {80.0, 120.0};
    bound_share(problem, "polwarth", 49.0, 49.0);
    bound_share(problem, "corriedale", 0.0, 67.0);
    problem.goal.bounds.most_lots = 5;
    problem.goal.bounds.least_used_grams = 1.0;
    problem.goal.scale_step_grams = 1.0;
    // 49 g of one bag and 51 g of another do it: what was called impossible is not.
    std::optional<solve::Answer> answer;
    const double seconds = seconds_for(problem, answer);
    MESSAGE("seconds: " << seconds);
    CHECK(seconds < 8.0);
    REQUIRE_FALSE(answer->proposals.empty());
    check_keeps(problem, answer->proposals.front());
}
