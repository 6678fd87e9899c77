// Whether a proposal keeps every bound of its problem, worked out from the problem alone.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "shelves.hpp"

namespace battwright::testing {

inline double share_pct(const solve::Problem& problem, const solve::Proposal& proposal,
                        const solve::ShareBound& bound) {
    double grams = 0.0;
    for (std::size_t j = 0; j < problem.lots.size(); ++j) {
        const solve::Lot& lot = problem.lots[j];
        if (bound.of == solve::ShareOf::lot) {
            if (lot.id == bound.what) grams += proposal.grams[j];
            continue;
        }
        double whole = 0.0, part = 0.0;
        for (const auto& content : lot.content) {
            const fibre::Kind& kind = *fibre::Catalogue::builtin().find(content.fibre);
            whole += content.share_pct;
            const bool is =
                (bound.of == solve::ShareOf::kind && kind.id == bound.what) ||
                (bound.of == solve::ShareOf::family && fibre::word_for(kind.family) == bound.what) ||
                (bound.of == solve::ShareOf::label && kind.label_eu == bound.what);
            if (is) part += content.share_pct;
        }
        grams += proposal.grams[j] * part / whole;
    }
    return 100.0 * grams / proposal.total_grams;
}

inline void check_staple(const solve::Problem& problem, const solve::Proposal& proposal) {
    const solve::Bounds& bounds = problem.goal.bounds;
    double shortest = 1e9, longest = 0.0;
    for (std::size_t j = 0; j < problem.lots.size(); ++j) {
        if (!(proposal.grams[j] > 0.0)) continue;
        for (const auto& content : problem.lots[j].content) {
            const fibre::Kind& kind = *fibre::Catalogue::builtin().find(content.fibre);
            if (kind.form != fibre::Form::fibre || kind.family == fibre::Family::inclusion) continue;
            const double staple = problem.lots[j].staple_mm.value_or(kind.staple_mm);
            shortest = std::min(shortest, staple);
            longest = std::max(longest, staple);
        }
    }
    if (longest == 0.0) return;
    if (bounds.staple_spread) CHECK(longest <= *bounds.staple_spread * shortest * (1.0 + 1e-9));
    if (bounds.least_staple_mm) CHECK(shortest >= *bounds.least_staple_mm - 1e-9);
    if (bounds.most_staple_mm) CHECK(longest <= *bounds.most_staple_mm + 1e-9);
}

inline void check_weights(const solve::Problem& problem, const solve::Proposal& proposal) {
    const solve::Goal& goal = problem.goal;
    const double step = goal.scale_step_grams;
    double sum = 0.0;
    std::size_t used = 0;
    for (std::size_t j = 0; j < problem.lots.size(); ++j) {
        const solve::Lot& lot = problem.lots[j];
        const double grams = proposal.grams[j];
        CAPTURE(lot.id);
        sum += grams;
        CHECK(grams >= 0.0);
        CHECK(grams >= lot.least_grams - 1e-6);
        CHECK(grams <= solve::usable_grams(lot, goal.bounds) + 1e-6);
        CHECK(proposal.left_grams[j] == doctest::Approx(lot.on_hand_grams - grams));
        const double batt = grams / double(proposal.batts);
        CHECK(proposal.batt_grams[j] == doctest::Approx(batt));
        if (step > 0.0) CHECK(std::abs(batt / step - std::round(batt / step)) < 1e-6);
        if (grams == 0.0) continue;
        ++used;
        CHECK(batt >= goal.bounds.least_used_grams - 1e-6);
    }
    CHECK(proposal.total_grams == doctest::Approx(sum));
    if (goal.bounds.most_lots) CHECK(used <= *goal.bounds.most_lots);
}

// Totals are read to the nearest whole number of steps a batt.
inline void check_totals(const solve::Problem& problem, const solve::Proposal& proposal) {
    const solve::Goal& goal = problem.goal;
    const double granule = goal.scale_step_grams * double(proposal.batts);
    const auto read = [&](double grams) {
        return granule > 0.0 ? std::max(1.0, std::round(grams / granule)) * granule : grams;
    };
    const double batt = proposal.total_grams / double(proposal.batts);
    if (goal.batts.count > 0) CHECK(proposal.batts == goal.batts.count);
    if (goal.total.least_grams) CHECK(proposal.total_grams >= read(*goal.total.least_grams) - 1e-6);
    if (goal.total.most_grams) CHECK(proposal.total_grams <= read(*goal.total.most_grams) + 1e-6);
    if (goal.batts.least_grams) CHECK(batt >= *goal.batts.least_grams - 1e-6);
    if (goal.batts.most_grams) CHECK(batt <= *goal.batts.most_grams + 1e-6);
}

inline void check_keeps(const solve::Problem& problem, const solve::Proposal& proposal) {
    const solve::Bounds& bounds = problem.goal.bounds;
    check_weights(problem, proposal);
    check_totals(problem, proposal);
    check_staple(problem, proposal);
    for (const solve::ShareBound& bound : bounds.shares) {
        const double pct = share_pct(problem, proposal, bound);
        CHECK(pct >= bound.least_pct - 1e-4);
        CHECK(pct <= bound.most_pct + 1e-4);
    }
    if (!bounds.most_cost && !bounds.most_cost_per_100_g) return;
    REQUIRE(proposal.cost.has_value());
    if (bounds.most_cost) CHECK(*proposal.cost <= *bounds.most_cost + 1e-6);
    if (bounds.most_cost_per_100_g)
        CHECK(*proposal.cost / proposal.total_grams * 100.0 <= *bounds.most_cost_per_100_g + 1e-4);
}

// Bounds of every sort, some of which may conflict.
inline solve::Problem random_problem(Random& random) {
    solve::Problem problem;
    problem.lots = random_lots(random, whole(random, 3, 14));
    solve::Goal& goal = problem.goal;
    const auto chance = [&](double p) { return uniform(random, 0.0, 1.0) < p; };
    if (chance(0.6)) goal.target = solve::target_of(dyed_colour(random));
    if (chance(0.4)) {
        goal.use_up.emplace();
        goal.use_up->by = static_cast<solve::UseUpBy>(whole(random, 0, 2));
        for (const auto& lot : problem.lots) {
            if (chance(0.5) || goal.use_up->lots.empty()) goal.use_up->lots.push_back(lot.id);
        }
    }
    const double total = uniform(random, 10.0, 150.0);
    if (chance(0.7)) goal.total.least_grams = total;
    if (chance(0.7)) goal.total.most_grams = total * (chance(0.5) ? 1.0 : uniform(random, 1.0, 1.5));
    goal.batts.count = chance(0.6) ? 1 : whole(random, 0, 4);
    if (chance(0.3)) goal.batts.most_grams = uniform(random, 30.0, 80.0);
    goal.scale_step_grams = chance(0.5) ? 0.1 : 1.0;
    if (chance(0.5))
        goal.bounds.shares.push_back({solve::ShareOf::family, "wool", uniform(random, 0.0, 80.0), 100.0});
    if (chance(0.3)) {
        const double low = std::round(uniform(random, 0.0, 30.0));
        goal.bounds.shares.push_back(
            {solve::ShareOf::family, "silk", low, low + std::round(uniform(random, 2.0, 30.0))});
    }
    if (chance(0.2))
        goal.bounds.shares.push_back({solve::ShareOf::label, "wool", 0.0, uniform(random, 40.0, 100.0)});
    if (chance(0.2)) goal.bounds.shares.push_back({solve::ShareOf::lot, "lot-1", 5.0, 100.0});
    if (chance(0.3)) goal.bounds.most_cost_per_100_g = uniform(random, 8.0, 25.0);
    if (chance(0.2)) goal.bounds.most_cost = uniform(random, 3.0, 30.0);
    if (chance(0.3)) goal.bounds.staple_spread = uniform(random, 1.0, 2.0);
    if (chance(0.1)) goal.bounds.least_staple_mm = uniform(random, 30.0, 70.0);
    if (chance(0.4)) goal.bounds.most_lots = whole(random, 1, 5);
    if (chance(0.4)) goal.bounds.least_used_grams = uniform(random, 0.5, 8.0);
    if (chance(0.2)) goal.bounds.keep_back_pct = uniform(random, 0.0, 30.0);
    if (chance(0.2)) problem.lots.front().least_grams = uniform(random, 0.0, 20.0);
    if (chance(0.2)) problem.lots.back().keep_back_grams = uniform(random, 0.0, 20.0);
    return problem;
}

}  // namespace battwright::testing
