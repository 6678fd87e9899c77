#include "solve/bounds.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "measure/choices.hpp"
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
        if (share.most_pct < ShareBound{}.most_pct)
            bounds.push_back({BoundKind::share_most, k, share.most_pct, {}});
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

using Value = std::optional<double>;

// `words`: {n} stands for the value as a number, {w} as a weight, {s} as a staple, {h} for 100 g, {of} for
// the share or the lot it is of, {lots} for one or more.
struct BoundRow {
    BoundKind value;
    bool looser_when_lower;
    std::string_view words;
    void (*set)(Problem& problem, std::size_t index, Value value);
};
constexpr auto bound_rows = std::to_array<BoundRow>({
    {BoundKind::total_least, true, "at least {w} in all",
     [](Problem& p, std::size_t, Value v) { p.goal.total.least_grams = v; }},
    {BoundKind::total_most, false, "at most {w} in all",
     [](Problem& p, std::size_t, Value v) { p.goal.total.most_grams = v; }},
    {BoundKind::batt_least, true, "at least {w} a batt",
     [](Problem& p, std::size_t, Value v) { p.goal.batts.least_grams = v; }},
    {BoundKind::batt_most, false, "at most {w} a batt",
     [](Problem& p, std::size_t, Value v) { p.goal.batts.most_grams = v; }},
    {BoundKind::share_least, true, "at least {n} % {of}",
     [](Problem& p, std::size_t i, Value v) {
         ShareBound& share = p.goal.bounds.shares[i];
         share.least_pct = std::min(v.value_or(0.0), share.most_pct);
     }},
    {BoundKind::share_most, false, "at most {n} % {of}",
     [](Problem& p, std::size_t i, Value v) {
         ShareBound& share = p.goal.bounds.shares[i];
         share.most_pct = std::max(v.value_or(ShareBound{}.most_pct), share.least_pct);
     }},
    {BoundKind::cost, false, "a cost of at most {n}",
     [](Problem& p, std::size_t, Value v) { p.goal.bounds.most_cost = v; }},
    {BoundKind::cost_per_100_g, false, "a cost of at most {n} per {h}",
     [](Problem& p, std::size_t, Value v) { p.goal.bounds.most_cost_per_100_g = v; }},
    {BoundKind::staple_least, true, "staple of at least {s}",
     [](Problem& p, std::size_t, Value v) { p.goal.bounds.least_staple_mm = v; }},
    {BoundKind::staple_most, false, "staple of at most {s}",
     [](Problem& p, std::size_t, Value v) { p.goal.bounds.most_staple_mm = v; }},
    {BoundKind::staple_spread, false, "the longest staple at most {n} times the shortest",
     [](Problem& p, std::size_t, Value v) { p.goal.bounds.staple_spread = v; }},
    {BoundKind::most_lots, false, "at most {n} {lots}",
     [](Problem& p, std::size_t, Value v) {
         p.goal.bounds.most_lots.reset();
         if (v) p.goal.bounds.most_lots = std::size_t(std::llround(*v));
     }},
    {BoundKind::least_used, true, "at least {w} of each lot used",
     [](Problem& p, std::size_t, Value v) { p.goal.bounds.least_used_grams = v.value_or(0.0); }},
    {BoundKind::lot_least, true, "at least {w} of {of}",
     [](Problem& p, std::size_t i, Value v) { p.lots[i].least_grams = v.value_or(0.0); }},
    {BoundKind::lot_most, false, "at most {w} of {of}",
     [](Problem& p, std::size_t i, Value v) { p.lots[i].most_grams = v; }},
    {BoundKind::lot_keep_back, true, "{w} of {of} kept back",
     [](Problem& p, std::size_t i, Value v) { p.lots[i].keep_back_grams = v.value_or(0.0); }},
    {BoundKind::keep_back, true, "{n} % of every lot kept back",
     [](Problem& p, std::size_t, Value v) { p.goal.bounds.keep_back_pct = v.value_or(0.0); }},
    {BoundKind::scale_step, true, "weights in steps of {w}",
     [](Problem& p, std::size_t, Value v) { p.goal.scale_step_grams = v.value_or(0.0); }},
});
static_assert(measure::one_row_each(bound_rows));

// The share or the lot a bound is of.
std::string of_what(const Problem& problem, const Bound& bound) {
    const bool of_share = bound.kind == BoundKind::share_least || bound.kind == BoundKind::share_most;
    if (!of_share) return name_of(problem, bound.index);
    const ShareBound& share = problem.goal.bounds.shares[bound.index];
    if (share.of == ShareOf::lot)
        for (std::size_t j = 0; j < problem.lots.size(); ++j)
            if (problem.lots[j].id == share.what) return name_of(problem, j);
    return share.what;
}

}  // namespace

bool looser_when_lower(BoundKind kind) {
    return measure::row_of(bound_rows, kind).looser_when_lower;
}

void set_bound(Problem& problem, const Bound& bound, std::optional<double> value) {
    measure::row_of(bound_rows, bound.kind).set(problem, bound.index, value);
}

std::string words_for(const Problem& problem, const Bound& bound, double value) {
    std::string text;
    for (std::string_view left = measure::row_of(bound_rows, bound.kind).words; !left.empty();) {
        const std::size_t open = std::min(left.find('{'), left.size());
        text += left.substr(0, open);
        left.remove_prefix(open);
        if (left.empty()) break;
        const std::size_t close = left.find('}');
        const std::string_view mark = left.substr(1, close - 1);
        text += mark == "n"    ? number(value)
                : mark == "w"  ? weight(problem, value)
                : mark == "s"  ? staple(problem, value)
                : mark == "h"  ? weight(problem, 100.0)
                : mark == "of" ? of_what(problem, bound)
                               : std::string(value == 1.0 ? "lot" : "lots");
        left.remove_prefix(close + 1);
    }
    return text;
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
