// The batt on the bench held against the shelf: what carding it takes from which lot. No display.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.hpp"
#include "stash/making.hpp"
#include "stash/shelf.hpp"

namespace battwright::app {

// One component on the scale, all batts together. Weights are of clean fibre.
struct WeighLine {
    std::string component;  // what it is called
    std::string mark;       // of its lot; empty: it points at none
    std::string lot;        // the lot's name; empty when the shelf has no such mark
    double grams = 0.0;     // to the scale's step
    bool on_shelf = false;
    bool raw = false;
    double on_hand_grams = 0.0;  // less what the lines before this one take of the same lot
    double left_grams = 0.0;     // below zero: it falls short
};
// A line for each component that weighs anything.
std::vector<WeighLine> weigh_lines(const forecast::Forecast& forecast, const stash::Shelf& shelf);

// Why the batt cannot be taken from the shelf; empty when nothing speaks against it. Lots that fall short
// do not: that is for the stash to refuse, line by line.
std::string why_not_from_shelf(const std::vector<WeighLine>& lines);

// What is told to the stash; the colour is that under D65, whatever light is on show.
struct CardingWords {
    int batts = 1;
    std::string date;  // ISO
    std::string note;
};
stash::Carding carding_of(const forecast::Forecast& forecast, const std::vector<WeighLine>& lines,
                          const CardingWords& words);

// The weigh-out of the batt on the bench, carded at once or not at all.
struct TakeFromShelf {
    CardingWords words;
    std::uint64_t from = 0;  // as in StashRequest
};

}  // namespace battwright::app
