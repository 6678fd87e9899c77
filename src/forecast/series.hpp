// The batts of a series: what to weigh out for each, and how its colour steps.
#pragma once

#include <vector>

#include "forecast/forecast.hpp"

namespace battwright::forecast {

struct SeriesBatt {
    double towards = 0.0;       // 0 the recipe's own mixture .. 1 the last
    std::vector<double> grams;  // per component, on the scale's step
    colour::Lab lab;
    colour::Srgb srgb;
    double step_de00 = 0.0;  // CIEDE2000 from the batt before; 0 for the first
};
struct SeriesPlan {
    bool rolags = false;
    std::vector<SeriesBatt> batts;
    std::vector<double> grams;  // per component, all of them together
    double total_grams = 0.0;
};
// Weights step evenly, or so that the colour does: equal lengths along the way of colours, each taken by
// CIEDE2000 between near neighbours. A complaint when the recipe has no series, or one of its batts
// weighs less than the scale's step.
measure::Expected<SeriesPlan> series_of(const Forecast& forecast, double scale_step_grams);

}  // namespace battwright::forecast
