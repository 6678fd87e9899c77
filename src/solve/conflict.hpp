// Why there is no answer, and the least that would give one.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "measure/complaint.hpp"
#include "solve/problem.hpp"

namespace battwright::solve {

enum class BoundKind {
    total_least,
    total_most,
    batt_least,
    batt_most,
    share_least,  // index: of bounds.shares
    share_most,   // index: of bounds.shares
    cost,
    cost_per_100_g,
    staple_least,
    staple_most,
    staple_spread,
    most_lots,
    least_used,
    lot_least,      // index: of lots
    lot_most,       // index: of lots
    lot_keep_back,  // index: of lots
    keep_back,
    scale_step
};

// One bound of a problem, as a person would say it: "at least 60 % wool".
struct Bound {
    BoundKind kind = BoundKind::total_least;
    std::size_t index = 0;
    double value = 0.0;  // as written: grams, percent, cost, millimetres, a count
    std::string words;
    bool operator==(const Bound& other) const { return kind == other.kind && index == other.index; }
};
struct Change {
    Bound bound;
    double to = 0.0;
    bool drop = false;  // no value will do: take the bound away
    std::string words;  // "wool: at least 52.4 % instead of 60 %"
};

// `bounds` cannot hold together with these lots, and without any one of them the others can (deletion
// filter). `smallest`: no smaller set of bounds conflicts; all were tried. What is on hand is not a bound but
// a fact. `least_change` makes the whole problem solvable. Where one bound is enough it is the one whose
// value moves least, as a share of itself, and no smaller move of it on the grid a person writes (0.1 %, a
// step of the scale) would do. Where it takes several, one of each conflict is loosened, each by the least
// that the others allow; another choice might move less. `proved`: no verdict behind this was cut short; if
// one was, a move may be larger than it need be; and where nothing was shown to conflict `bounds` is empty.
struct Conflict {
    std::vector<Bound> bounds;
    bool smallest = false;
    bool proved = true;
    std::vector<Change> least_change;
    std::string words;  // one or two sentences
};

// Every bound of the problem that could conflict.
std::vector<Bound> bounds_of(const Problem& problem);
// The problem without some of its bounds, and with a change made.
Problem without(const Problem& problem, const std::vector<Bound>& bounds);
Problem changed(const Problem& problem, const Change& change);

// Whether any weights keep every bound, those of lots, step and counts included. Decided by branch and bound
// over linear programs; a search cut short (after 20,000 of them) counts as no.
measure::Expected<bool> feasible(const Problem& problem, const Setting& setting);

}  // namespace battwright::solve
