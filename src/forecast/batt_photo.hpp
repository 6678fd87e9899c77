// What a photo of this batt should show, and what one that was taken says of the spinner's own two figures:
// Stearns and Noechel's m, and how thoroughly her hands and her carder mix.
#pragma once

#include <optional>
#include <vector>

#include "colour/batt_photo.hpp"
#include "colour/sighting.hpp"
#include "forecast/forecast.hpp"

namespace battwright::forecast {

using colour::mixing_prior_log_sd, colour::photo_model, colour::Taken;

// What a photo's mean colour may be off by, in CIEDE2000: of photo_doubt_de00 what is left once the
// white's part, some 3, is told apart. Common practice, no source.
inline constexpr double camera_doubt_de00 = 4.0;
// The white's own part: how much light it throws back and how evenly the light falls; its tint, from cream to
// brightened paper (parts of X and Z). Common practice, no source.
inline constexpr double white_level_sd = 0.05, white_x_sd = 0.01, white_z_sd = 0.04;
// The variation: how one batt of a hand differs from the next (of its logarithm), and what folds and the
// fibre's own shadows add, in CIEDE2000. Common practice, no source.
inline constexpr double variation_log_sd = 0.25, texture_de00 = 0.6;

// As a photo by daylight with a perfect white would show it.
struct PhotoPoint {
    double log_factor = 0.0;  // of m over 0.15, or of mixing
    colour::Lab mean;
    double log_variation = 0.0;  // of the batt's own, without texture
};
struct PhotoForecast {
    Taken taken = Taken::face;
    colour::Lab mean;  // with the forecast's own m and mixing
    std::optional<double> variation_de00;
    std::vector<PhotoPoint> by_m, by_mixing;  // even steps; the other figure as for most
    std::vector<colour::Lab> errors;          // of the mean, one standard deviation each, but for the photo's
    double log_variation_sd = 0.0;            // but for what is m's and the photo's
};
// Some simulations on the coarse grid: tens of milliseconds. The optics are Stearns and Noechel's.
PhotoForecast photo_forecast(const Forecast& forecast, Taken taken);
// Between its points.
colour::Lab mean_at(const std::vector<PhotoPoint>& points, double log_factor);
double log_variation_at(const std::vector<PhotoPoint>& points, double log_factor);

// What is said of ln m (an infinite standard deviation: nothing), and ln(variation) as it goes with ln
// mixing, a curve: the better mixed, the less of what is seen is her doing, so photos are weighed where all
// of them together put her. None where the drum's part does not show.
struct PhotoLesson {
    colour::Sighting log_m;
    std::optional<colour::CurvedSighting> log_mixing;
};
PhotoLesson photo_lesson(const PhotoForecast& foretold, const colour::BattReading& reading);

// How the photo is cut in patches for this: millimetres in the picture, whose fibre is so high. `turned`: the
// way round the drum lies along the picture's rows.
colour::PhotoScale photo_scale(Taken taken, double mm_per_pixel, double fibre_high_mm, bool turned = false);

}  // namespace battwright::forecast
