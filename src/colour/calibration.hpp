// Fitting the optics to test samples that somebody has carded and measured.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "colour/optics.hpp"
#include "colour/spectrum.hpp"
#include "measure/complaint.hpp"

namespace battwright::colour {

// One carded swatch: what went in, and the colour that came out under D65.
struct Sample {
    std::vector<Portion> portions;
    Lab measured;
};

struct Calibration {
    double m = 0.0;               // Stearns & Noechel's constant, within smallest_m..largest_m
    double rms_ciede2000 = 0.0;   // what is left between forecast and samples with that m
    double rms_at_default = 0.0;  // the same with the default m, to see whether the fit was worth it
    bool at_bound = false;        // the samples asked for an m outside the range: mistrust it
};

inline constexpr double smallest_m = 0.01;
inline constexpr double largest_m = 1.0;

// The m of Stearns & Noechel that minimises the mean squared CIEDE2000 between blend and sample, to 1e-6 of
// itself. A complaint when there are no samples, when one holds no positive share or a value that is not
// finite, or when no sample mixes colours that differ, so that any m fits as well as any other.
measure::Expected<Calibration> calibrated_m(std::span<const Sample> samples);

}  // namespace battwright::colour
