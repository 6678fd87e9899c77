// Lots no bound tells apart: asking fewer of them gives the answer that asking all of them gives, only
// sooner.
#include "solve/alike.hpp"

#include <ctime>

#include "keeping.hpp"
#include "solve/linear.hpp"

using namespace battwright;
using namespace battwright::testing;

namespace {

// A shelf as people have: many bags of a few kinds.
std::vector<solve::Lot> alike_bags(Random& random, std::size_t count) {
    const char* kinds[]{"merino-fine", "merino-medium", "corriedale", "polwarth", "tussah-silk"};
    std::vector<solve::Lot> lots;
    for (std::size_t i = 0; i < count; ++i)
        lots.push_back(lot("lot-" + std::to_string(i), "#4f6b78", std::round(uniform(random, 5.0, 120.0)),
                           kinds[whole(random, 0, 4)]));
    return lots;
}

void alike_bound(solve::Problem& problem, const char* kind, double low, double high) {
    problem.goal.bounds.shares.push_back({solve::ShareOf::kind, kind, low, high});
}

solve::Problem random_question(Random& random) {
    solve::Problem problem;
    problem.lots = alike_bags(random, whole(random, 3, 12));
    const auto chance = [&](double p) { return uniform(random, 0.0, 1.0) < p; };
    const double total = std::round(uniform(random, 20.0, 300.0));
    problem.goal.total = {total, chance(0.5) ? total : 1.3 * total};
    for (const char* kind : {"merino-fine", "corriedale", "tussah-silk"}) {
        if (!chance(0.5)) continue;
        const double low = std::round(uniform(random, 0.0, 60.0));
        alike_bound(problem, kind, low, low + std::round(uniform(random, 0.0, 40.0)));
    }
    problem.goal.scale_step_grams = chance(0.5) ? 0.0 : chance(0.5) ? 1.0 : 5.0;
    if (chance(0.6)) problem.goal.bounds.most_lots = whole(random, 1, 5);
    if (chance(0.5)) problem.goal.bounds.least_used_grams = uniform(random, 1.0, 40.0);
    if (chance(0.2)) problem.lots.front().least_grams = uniform(random, 0.0, 5.0);
    return problem;
}

double alike_seconds(const solve::Problem& problem, std::optional<solve::Answer>& answer) {
    const std::clock_t start = std::clock();
    answer = solve::solve(problem, setting()).value();
    return double(std::clock() - start) / CLOCKS_PER_SEC;
}

}  // namespace

TEST_CASE("fewer lots have a solution exactly when all of them have one, and it is one of theirs") {
    int yes = 0, no = 0, smaller = 0;
    for (unsigned seed = 1; seed <= 400; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        const auto problem = random_question(random);
        const auto shelf = solve::shelf_of(problem.lots, setting());
        REQUIRE(shelf);
        for (const solve::Model& model : solve::models_of(problem, *shelf)) {
            solve::BranchOptions options;
            options.any_will_do = true;
            options.most_programs = 20000;
            const solve::VectorXd cost = solve::VectorXd::Zero(Eigen::Index(model.lots()));
            const auto all = solve::branch_and_bound(model, cost, options);
            const auto few = solve::any_solution(model, solve::patient, {});
            if (!all.proved || !few.proved) continue;
            CHECK(all.grams.has_value() == few.grams.has_value());
            (few.grams ? yes : no) += 1;
            if (few.grams) CHECK(solve::keeps(model, *few.grams));
            smaller += solve::fewer_alike(model).model.lots() < model.lots();
        }
    }
    MESSAGE(yes << " with a solution, " << no << " without; fewer lots in " << smaller);
    CHECK(yes > 50);
    CHECK(no > 50);
    CHECK(smaller > 100);
}

TEST_CASE("on a shelf of two thousand lots what cannot be is told in a time one waits for") {
    Random random(5);
    solve::Problem base;
    base.lots = alike_bags(random, 2000);
    std::vector<solve::Problem> hard(4, base);
    // Each took 10 to 30 seconds when every lot was asked by itself.
    hard[0].goal.total = {80.0, 120.0};
    alike_bound(hard[0], "tussah-silk", 6.0, 9.0);
    hard[0].goal.bounds.shares.push_back({solve::ShareOf::family, "silk", 34.0, 40.0});
    alike_bound(hard[0], "merino-medium", 0.0, 49.0);
    alike_bound(hard[0], "corriedale", 63.0, 67.0);
    hard[0].goal.bounds.most_lots = 1;
    hard[0].goal.bounds.least_used_grams = 5.0;
    hard[0].goal.scale_step_grams = 5.0;
    hard[1].goal.total = {3000.0, 3000.0};
    alike_bound(hard[1], "corriedale", 26.0, 35.0);
    alike_bound(hard[1], "polwarth", 9.0, 100.0);
    hard[1].goal.bounds.most_lots = 5;
    hard[2].goal.total = {1000.0, 1000.0};
    hard[2].goal.bounds.shares.push_back({solve::ShareOf::family, "wool", 10.0, 100.0});
    alike_bound(hard[2], "tussah-silk", 26.0, 28.0);
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
        const double seconds = alike_seconds(hard[i], answer);
        MESSAGE("seconds: " << seconds);
        CHECK(seconds < 8.0);
        REQUIRE(answer->conflict);
        CHECK(answer->conflict->proved);
        CHECK_FALSE(answer->conflict->least_change.empty());
    }
}

TEST_CASE("half of one kind to the gram out of two thousand lots and at most five of them") {
    Random random(6);
    solve::Problem problem;
    problem.lots = alike_bags(random, 2000);
    problem.goal.total = {80.0, 120.0};
    alike_bound(problem, "polwarth", 49.0, 49.0);
    alike_bound(problem, "corriedale", 0.0, 67.0);
    problem.goal.bounds.most_lots = 5;
    problem.goal.bounds.least_used_grams = 1.0;
    problem.goal.scale_step_grams = 1.0;
    // 49 g of one bag and 51 g of another do it: what was called impossible is not.
    std::optional<solve::Answer> answer;
    const double seconds = alike_seconds(problem, answer);
    MESSAGE("seconds: " << seconds);
    CHECK(seconds < 8.0);
    REQUIRE_FALSE(answer->proposals.empty());
    check_keeps(problem, answer->proposals.front());
}
