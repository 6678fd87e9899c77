// The staple diagram of a batt: how many fibres there are of each length.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "forecast/forecast.hpp"

namespace battwright::forecast {

struct StapleDiagram {
    double longest_mm = 0.0;                     // right end of the axis
    double class_mm = 0.0;                       // width of a class
    double highest = 0.0;                        // of the mixture, percent of fibres per class
    std::vector<float> mixture;                  // percent of fibres per class, by number
    std::vector<std::vector<float>> components;  // the same, each scaled by its share of the fibres
    std::vector<float> at_least;                 // percent of fibres at least as long as a class begins
    // The component most fibres of a class are of; none where there are none.
    std::vector<std::optional<std::size_t>> foremost;
    std::size_t class_at(double mm) const;  // the nearest there is
};

// A hundred classes from 0 to the next 50 mm beyond the long tail (1.25 times the length that 5 % exceed), at
// least 100 mm and at most 600.
StapleDiagram staple_diagram(const Forecast& forecast);

}  // namespace battwright::forecast
