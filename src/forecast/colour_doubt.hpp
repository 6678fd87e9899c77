// How far the batt's colour may lie from its forecast, when everything is blended.
#pragma once

#include <vector>

#include "forecast/forecast.hpp"

namespace battwright::forecast {

// All in CIEDE2000.
// With measured fibres: mean of 44 blends by the Stearns-Noechel function (Wei, Wan, Li 2017: 1.23).
inline constexpr double model_doubt_de00 = 1.23;
// A colour off a photo, a tag or the eye. A published trial of phone cameras: over 10 on average as the
// camera gives it, half of that against a chart; the tool asks for a white in the photo, so the half.
inline constexpr double given_colour_doubt_de00 = 5.0;
// An undyed fibre against the catalogue's colour for it: from memory (scoured merino is L* 85 to 88).
inline constexpr double natural_colour_doubt_de00 = 3.0;

struct ColourDoubt {
    std::vector<double> components_de00;  // of each component by itself
    double blend_de00 = 0.0;              // of the whole: the model's own and what the components bring
};

// Each component's reflectance is moved by its own doubt in three ways (level, slope and bow of the
// spectrum), and the blend made again; what it moves by is added up as independent errors are, root of the
// sum of squares.
ColourDoubt colour_doubt(const Forecast& f);

}  // namespace battwright::forecast
