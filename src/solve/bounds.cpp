#include "solve/bounds.hpp"

#include <algorithm>
#include <cmath>

#include "measure/units.hpp"
#include "text/numbers.hpp"

namespace battwright::solve {
namespace {

std::string number(double value) {
    return text::rounded(value, 3);
}
std::string weight(const Problem& problem, double grams) {
    return problem.mass == measure::MassUnit::gram ? number(grams) + " g"
                                                   : measure::print_mass(grams, problem.mass);
}
std::string staple(const Problem& problem, double millimetres) {
    return problem.length == measure::LengthUnit::millimetre
               ? number(millimetres) + " mm"
               : measure::print_length(millimetres, problem.length);
}

std::string name_of(const Problem& problem, std::size_t lot) {
    const Lot& one = problem.lots[lot];
    return one.name.empty() ? one.id : one.name;
}

std::string share_words(const Problem& problem, const Bound& bound, double value) {
    const ShareBound& share = problem.goal.bounds.shares[bound.index];
    std::string what = share.what;
    if (share.of == ShareOf::lot) {
        for (std::size_t j = 0; j < problem.lots.size(); ++j) {
            if (problem.lots[j].id == share.what) what = name_of(problem, j);
        }
    }
    return (bound.kind == BoundKind::share_least ? "at least " : "at most ") + number(value) + " % " + what;
}

std::string lot_words(const Problem& problem, const Bound& bound, double value) {
    const std::string lot = name_of(problem, bound.index);
    if (bound.kind == BoundKind::lot_least) return "at least " + weight(problem, value) + " of " + lot;
    if (bound.kind == BoundKind::lot_most) return "at most " + weight(problem, value) + " of " + lot;
    return weight(problem, value) + " of " + lot + " kept back";
}

void add_limits(std::vector<Bound>& bounds, const Goal& goal) {
    const auto add = [&](BoundKind kind, const std::optional<double>& value) {
        if (value) bounds.push_back({kind, 0, *value, {}});
    };
    add(BoundKind::total_least, goal.total.least_grams);
    add(BoundKind::total_most, goal.total.most_grams);
    add(BoundKind::batt_least, goal.batts.least_grams);
    add(BoundKind::batt_most, goal.batts.most_grams);
    for (std::size_t k = 0; k < goal.bounds.shares.size(); ++k) {
        const ShareBound& share = goal.bounds.shares[k];
        if (share.least_pct > 0.0) bounds.push_back({BoundKind::share_least, k, share.least_pct, {}});
        if (share.most_pct < 100.0) bounds.push_back({BoundKind::share_most, k, share.most_pct, {}});
    }
    add(BoundKind::cost, goal.bounds.most_cost);
    add(BoundKind::cost_per_100_g, goal.bounds.most_cost_per_100_g);
    add(BoundKind::staple_least, goal.bounds.least_staple_mm);
    add(BoundKind::staple_most, goal.bounds.most_staple_mm);
    add(BoundKind::staple_spread, goal.bounds.staple_spread);
    if (goal.bounds.most_lots) add(BoundKind::most_lots, double(*goal.bounds.most_lots));
    if (goal.bounds.least_used_grams > 0.0) add(BoundKind::least_used, goal.bounds.least_used_grams);
    if (goal.bounds.keep_back_pct > 0.0) add(BoundKind::keep_back, goal.bounds.keep_back_pct);
    if (goal.scale_step_grams > 0.0) add(BoundKind::scale_step, goal.scale_step_grams);
}

void set_share(ShareBound& share, BoundKind kind, std::optional<double> value) {
    if (kind == BoundKind::share_least) share.least_pct = std::min(value.value_or(0.0), share.most_pct);
    if (kind == BoundKind::share_most) share.most_pct = std::max(value.value_or(100.0), share.least_pct);
}

void set_lot(Lot& lot, BoundKind kind, std::optional<double> value) {
    if (kind == BoundKind::lot_least) lot.least_grams = value.value_or(0.0);
    if (kind == BoundKind::lot_most) lot.most_grams = value;
    if (kind == BoundKind::lot_keep_back) lot.keep_back_grams = value.value_or(0.0);
}

}  // namespace

bool looser_when_lower(BoundKind kind) {
    switch (kind) {
        case BoundKind::total_most:
        case BoundKind::batt_most:
        case BoundKind::share_most:
        case BoundKind::cost:
        case BoundKind::cost_per_100_g:
        case BoundKind::staple_most:
        case BoundKind::staple_spread:
        case BoundKind::most_lots:
        case BoundKind::lot_most:
            return false;
        case BoundKind::total_least:
        case BoundKind::batt_least:
        case BoundKind::share_least:
        case BoundKind::staple_least:
        case BoundKind::least_used:
        case BoundKind::lot_least:
        case BoundKind::lot_keep_back:
        case BoundKind::keep_back:
        case BoundKind::scale_step:
            break;
    }
    return true;
}

void set_bound(Problem& problem, const Bound& bound, std::optional<double> value) {
    Goal& goal = problem.goal;
    switch (bound.kind) {
        case BoundKind::total_least:
            goal.total.least_grams = value;
            return;
        case BoundKind::total_most:
            goal.total.most_grams = value;
            return;
        case BoundKind::batt_least:
            goal.batts.least_grams = value;
            return;
        case BoundKind::batt_most:
            goal.batts.most_grams = value;
            return;
        case BoundKind::share_least:
        case BoundKind::share_most:
            return set_share(goal.bounds.shares[bound.index], bound.kind, value);
        case BoundKind::cost:
            goal.bounds.most_cost = value;
            return;
        case BoundKind::cost_per_100_g:
            goal.bounds.most_cost_per_100_g = value;
            return;
        case BoundKind::staple_least:
            goal.bounds.least_staple_mm = value;
            return;
        case BoundKind::staple_most:
            goal.bounds.most_staple_mm = value;
            return;
        case BoundKind::staple_spread:
            goal.bounds.staple_spread = value;
            return;
        case BoundKind::most_lots:
            goal.bounds.most_lots.reset();
            if (value) goal.bounds.most_lots = std::size_t(std::llround(*value));
            return;
        case BoundKind::least_used:
            goal.bounds.least_used_grams = value.value_or(0.0);
            return;
        case BoundKind::keep_back:
            goal.bounds.keep_back_pct = value.value_or(0.0);
            return;
        case BoundKind::scale_step:
            goal.scale_step_grams = value.value_or(0.0);
            return;
        case BoundKind::lot_least:
        case BoundKind::lot_most:
        case BoundKind::lot_keep_back:
            return set_lot(problem.lots[bound.index], bound.kind, value);
    }
}

std::string words_for(const Problem& problem, const Bound& bound, double value) {
    switch (bound.kind) {
        case BoundKind::total_least:
            return "at least " + weight(problem, value) + " in all";
        case BoundKind::total_most:
            return "at most " + weight(problem, value) + " in all";
        case BoundKind::batt_least:
            return "at least " + weight(problem, value) + " a batt";
        case BoundKind::batt_most:
            return "at most " + weight(problem, value) + " a batt";
        case BoundKind::share_least:
        case BoundKind::share_most:
            return share_words(problem, bound, value);
        case BoundKind::cost:
            return "a cost of at most " + number(value);
        case BoundKind::cost_per_100_g:
            return "a cost of at most " + number(value) + " per " + weight(problem, 100.0);
        case BoundKind::staple_least:
            return "staple of at least " + staple(problem, value);
        case BoundKind::staple_most:
            return "staple of at most " + staple(problem, value);
        case BoundKind::staple_spread:
            return "the longest staple at most " + number(value) + " times the shortest";
        case BoundKind::most_lots:
            return "at most " + number(value) + (value == 1.0 ? " lot" : " lots");
        case BoundKind::least_used:
            return "at least " + weight(problem, value) + " of each lot used";
        case BoundKind::keep_back:
            return number(value) + " % of every lot kept back";
        case BoundKind::scale_step:
            return "weights in steps of " + weight(problem, value);
        case BoundKind::lot_least:
        case BoundKind::lot_most:
        case BoundKind::lot_keep_back:
            break;
    }
    return lot_words(problem, bound, value);
}

std::vector<Bound> bounds_of(const Problem& problem) {
    std::vector<Bound> bounds;
    add_limits(bounds, problem.goal);
    for (std::size_t j = 0; j < problem.lots.size(); ++j) {
        const Lot& lot = problem.lots[j];
        if (lot.least_grams > 0.0) bounds.push_back({BoundKind::lot_least, j, lot.least_grams, {}});
        if (lot.most_grams && *lot.most_grams < lot.on_hand_grams)
            bounds.push_back({BoundKind::lot_most, j, *lot.most_grams, {}});
        if (lot.keep_back_grams > 0.0)
            bounds.push_back({BoundKind::lot_keep_back, j, lot.keep_back_grams, {}});
    }
    for (Bound& bound : bounds) bound.words = words_for(problem, bound, bound.value);
    return bounds;
}

Problem without(const Problem& problem, const std::vector<Bound>& bounds) {
    Problem less = problem;
    for (const Bound& bound : bounds) set_bound(less, bound, std::nullopt);
    return less;
}

Problem changed(const Problem& problem, const Change& change) {
    Problem other = problem;
    set_bound(other, change.bound, change.drop ? std::nullopt : std::optional<double>(change.to));
    return other;
}

}  // namespace battwright::solve
