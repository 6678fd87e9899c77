// What one skein, or one batt, has taught: the range of the next one without it and with it. No display.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stash/stash.hpp"

namespace battwright::app {

// Where four in five of the next ones fall, and how many the range rests on.
struct Reach {
    double low = 0.0, middle = 0.0, high = 0.0;
    int rests_on = 0;
    bool operator==(const Reach&) const = default;
};
// Metres for yarn, grams off the drum for batts.
struct Lesson {
    Reach before, after;             // of another just like this one
    std::optional<double> measured;  // of this one
    std::string passed_over;         // why nothing was learnt from it, when it was not
};

// Foretold for the skein's own weight, before calibration; 0 without a forecast.
double nominal_of(const stash::Skein& skein);

// `skeins`: by date, with or without this one; it is recognised by its id (0: not logged yet). Nothing
// without a forecast.
std::optional<Lesson> lesson_of(const stash::Skein& skein, const std::vector<stash::Skein>& skeins);
// The same of the loss in carding; nothing for a batt taken back.
std::optional<Lesson> lesson_of(const stash::Batt& batt, const std::vector<stash::Batt>& batts);

}  // namespace battwright::app
