// A sample first: the smallest weigh-out that mixes as the whole batt will.
#pragma once

#include <string>
#include <vector>

#include "forecast/batt.hpp"
#include "forecast/forecast.hpp"

namespace battwright::forecast {

// Carded on a strip of the same drum, fibre as thick on it as the whole batt's will be.
struct Sample {
    recipe::Recipe recipe;  // by weights, on a carder as wide as the strip
    double width_mm = 0.0;  // of the drum that is used
    double grams = 0.0;
    std::vector<double> component_grams;  // on the scale's step
    std::string set_by;                   // what keeps it from being smaller
    std::string set_by_with_quantities;   // the same for staple::words_in
    std::vector<carding::Step> steps;     // what to do at the carder
    double colour_off_de00 = 0.0;         // its colour from the whole's, by the scale's steps
    // Variation after each pass, of the batt and of the sample (CIEDE2000 from the mean).
    struct Pass {
        int number = 1;
        double whole_de00 = 0.0, sample_de00 = 0.0;
        carding::Look whole = carding::Look::striped, sample = carding::Look::striped;
    };
    std::vector<Pass> passes;
    std::string differs;  // how it mixes otherwise than the whole, in a sentence
};
// The narrowest strip, from 40 mm in steps of 5 mm, on which every component weighs at least three of the
// scale's steps, the colour is off by less than 0.5 CIEDE2000, and what is counted (neps, locks) comes at
// least a dozen times. The whole batt when nothing less does. Common practice, no source, but for the scale.
measure::Expected<Sample> sample_of(const Forecast& forecast, const Bench& bench);

// Its card as text: weights, steps, what to compare it with and lines to write down what came of it.
std::string sample_card(const Forecast& forecast, const Sample& sample,
                        measure::MassUnit mass = measure::MassUnit::gram,
                        measure::LengthUnit length = measure::LengthUnit::millimetre);

}  // namespace battwright::forecast
