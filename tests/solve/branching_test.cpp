// Branch and bound against trying every combination of whole steps, which is slow and cannot be wrong.
#include <doctest/doctest.h>

#include <optional>

#include "shelves.hpp"
#include "solve/dominated.hpp"
#include "solve/linear.hpp"
#include "solve/whole_sums.hpp"

using namespace battwright;
using namespace battwright::testing;
using Eigen::Index;

namespace {

// Few lots of few steps; shares, counts and least weights at random, so that lots are often alike in all but
// their weight.
solve::Model random_model(Random& random) {
    const Index lots = Index(whole(random, 2, 5));
    solve::Model model;
    model.granule = 10.0;
    model.low = solve::VectorXd::Zero(lots);
    model.high.resize(lots);
    for (Index j = 0; j < lots; ++j) model.high[j] = 10.0 * double(whole(random, 0, 5));
    if (uniform(random, 0.0, 1.0) < 0.2) model.low[0] = std::min(10.0, model.high[0]);
    const double least = 10.0 * double(whole(random, 0, 3));
    model.least = model.low.cwiseMax(least).cwiseMin(model.high);
    if (model.low[0] > 0.0) model.low[0] = model.least[0];  // one that must be used is used by its least
    model.rows = solve::MatrixXd::Ones(3, lots);
    const double silk = uniform(random, 0.0, 0.6), narrow = uniform(random, 0.0, 0.3);
    for (Index j = 0; j < lots; ++j) {
        const double is_silk = random() % 2 == 0 ? 1.0 : 0.0;
        model.rows(1, j) = is_silk - silk;
        model.rows(2, j) = is_silk - silk - narrow;
    }
    const double total = uniform(random, 10.0, 120.0);
    model.row_low = solve::VectorXd::Zero(3);
    model.row_high = solve::VectorXd::Zero(3);
    model.row_low[0] = total;
    model.row_high[0] = total + uniform(random, 0.0, 60.0);
    model.row_high[1] = solve::no_limit;
    model.row_low[2] = -solve::no_limit;
    model.most_lots = whole(random, 1, std::size_t(lots));
    model.use = solve::VectorXd::Zero(lots);
    model.lot_worth = solve::VectorXd::Zero(lots);
    return model;
}

// Costs of few sizes, so that some are equal.
solve::VectorXd random_cost(Random& random, Index lots) {
    solve::VectorXd cost(lots);
    for (Index j = 0; j < lots; ++j) cost[j] = double(whole(random, 0, 4)) - 2.0;
    return cost;
}

std::optional<double> cheapest_by_trying(const solve::Model& model, const solve::VectorXd& cost) {
    std::optional<double> best;
    solve::VectorXd grams = solve::VectorXd::Zero(cost.size());
    for (;;) {
        if (solve::keeps(model, grams) && (!best || cost.dot(grams) < *best)) best = cost.dot(grams);
        Index j = 0;
        while (j < grams.size() && grams[j] + model.granule > model.high[j]) grams[j++] = 0.0;
        if (j == grams.size()) return best;
        grams[j] += model.granule;
    }
}

}  // namespace

TEST_CASE(
    "the cheapest weights are the cheapest of all combinations, and none is found where there is none") {
    int found = 0, none = 0, left_out = 0;
    for (unsigned seed = 1; seed <= 4000; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        const solve::Model model = random_model(random);
        const solve::VectorXd cost = random_cost(random, Index(model.lots()));
        const auto best = cheapest_by_trying(model, cost);
        const solve::Branched branched = solve::branch_and_bound(model, cost, {});
        CHECK(branched.proved);
        REQUIRE(branched.grams.has_value() == best.has_value());
        CHECK(solve::any_solution(model, solve::patient, {}).grams.has_value() == best.has_value());
        left_out += solve::lots_to_choose_from(model, cost).size() < model.lots();
        if (!best) {
            ++none;
            continue;
        }
        ++found;
        CHECK(solve::keeps(model, *branched.grams));
        CHECK(cost.dot(*branched.grams) == doctest::Approx(*best));
    }
    MESSAGE(found << " with a solution, " << none << " without, " << left_out << " with lots left out");
    CHECK(found > 300);
    CHECK(none > 300);
    CHECK(left_out > 300);
}

TEST_CASE("sums that must be whole are those of all lots and of lots that count alike") {
    solve::Model model;
    model.low = model.high = model.least = solve::VectorXd::Zero(4);
    model.rows.resize(3, 4);
    model.rows << 1.0, 1.0, 1.0, 1.0,  // the total
        0.8, -0.2, 0.8, -0.2,          // is silk, less a fifth
        0.1, 0.2, 0.3, 0.4;            // prices, no two alike
    model.row_low = model.row_high = solve::VectorXd::Zero(3);
    const solve::MatrixXd sums = solve::whole_sums(model);
    // By the definition in whole_sums.hpp: prices of four sizes make three sums of one lot each.
    REQUIRE(sums.rows() == 5);
    CHECK(sums.row(0) == Eigen::RowVector4d(1.0, 1.0, 1.0, 1.0));
    CHECK(sums.row(1) == Eigen::RowVector4d(0.0, 1.0, 0.0, 1.0));
    CHECK(sums.row(2) == Eigen::RowVector4d(1.0, 0.0, 0.0, 0.0));
}

TEST_CASE("a lot is left out only where as many as may be used stand in for it") {
    solve::Model model;
    model.low = solve::VectorXd::Zero(4);
    model.high.resize(4);
    model.high << 30.0, 20.0, 10.0, 40.0;
    model.least = solve::VectorXd::Zero(4);
    model.rows = solve::MatrixXd::Ones(1, 4);
    model.row_low = model.row_high = solve::VectorXd::Ones(1);
    model.most_lots = 2;
    solve::VectorXd cost = solve::VectorXd::Ones(4);
    CHECK(solve::lots_to_choose_from(model, cost) == std::vector<Index>{0, 3});
    cost[2] = 0.5;  // cheaper than those that have more
    CHECK(solve::lots_to_choose_from(model, cost) == std::vector<Index>{0, 2, 3});
    model.least[1] = 5.0;  // the others would do, but are not alike
    CHECK(solve::lots_to_choose_from(model, cost) == std::vector<Index>{0, 1, 2, 3});
    model.most_lots = 4;
    CHECK(solve::lots_to_choose_from(model, cost).size() == 4);
}
