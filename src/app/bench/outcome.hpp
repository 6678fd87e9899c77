// What the views draw: the forecast of the sheet, kept until the sheet or the light changes.
#pragma once

#include <optional>
#include <vector>

#include "app/bench/sheet.hpp"
#include "forecast/forecast.hpp"
#include "strip/picture.hpp"

namespace battwright::app {

// The staple diagram: share of fibres, by number, in each class of length.
struct Diagram {
    double longest_mm = 0.0;                     // right end of the axis
    double class_mm = 0.0;                       // width of a class
    double highest = 0.0;                        // of the mixture, percent of fibres per class
    std::vector<float> mixture;                  // percent of fibres per class
    std::vector<std::vector<float>> components;  // the same, each scaled by its share of the fibres
};

struct Outcome {
    std::optional<forecast::Forecast> forecast;   // the last one that could be made
    std::optional<measure::Complaint> complaint;  // why the present sheet has none; the one above is older
    Diagram diagram;
    unsigned long version = 0;  // counts up with every new forecast
};

// A new outcome, or the old forecast with a complaint when this recipe has none. An empty recipe has neither.
void update(Outcome& outcome, const recipe::Recipe& recipe, const forecast::Bench& bench);

Diagram diagram_of(const forecast::Forecast& forecast);

}  // namespace battwright::app
