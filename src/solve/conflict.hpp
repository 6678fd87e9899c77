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

// `bounds` cannot hold together on this shelf, and without any one of them the others can. `smallest`: no
// smaller set of bounds conflicts (all were tried). `least_change` makes the whole problem solvable: one
// bound where one is enough (the one whose value moves least, as a share of itself), else the least sum of
// such moves; values are rounded outward to what a person can write. What is on hand is not a bound but a
// fact. `proved`: every verdict behind this was proved; false when the search for weights on the scale's step
// was cut short.
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
// over linear programs; a search cut short (20,000 nodes) counts as no.
measure::Expected<bool> feasible(const Problem& problem, const Setting& setting);

}  // namespace battwright::solve
