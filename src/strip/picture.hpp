// The fibre picture: one shader function drawn on the CPU and on the GPU.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "forecast/forecast.hpp"
#include "measure/replace.hpp"

namespace battwright::strip {

// Scale of the picture: 4 px a millimetre, so 160 px are 40 mm of batt. Fibres are drawn too thick, else they
// could not be seen.
inline constexpr int usual_width_px = 1920, usual_height_px = 160;
inline constexpr double pixels_per_millimetre = 4.0;

// Where which strand lies: shares by mass at columns x rows of the strip, stretched over the whole picture.
struct Field {
    int columns = 1, rows = 1, strands = 0;
    std::vector<double> shares;  // row by row, column by column, strand by strand; each cell sums to 1
};
// Every strand everywhere by its share of the batt.
Field ideal_field(const forecast::Forecast& forecast);
// The components in the order they are fed, side by side along the strip with soft edges.
Field feed_field(const forecast::Forecast& forecast);
// Half blended: streaks of single components over the ideal blend; the same every time.
Field streaky_field(const forecast::Forecast& forecast);

// The tables the picture function reads; the GPU uploads the same numbers as buffer textures.
struct Scene {
    // Per strand: two RGBA rows. Row meanings are set out in shaders/fibre.glsl.
    std::vector<float> strands;
    int strand_count = 0;
    // Alias tables (Walker 1977) that pick a strand by share at each field cell: (threshold, alias) pairs,
    // `strand_count` a cell, cells row by row.
    std::vector<float> picks;
    // Per field cell and strand an RGBA row: the colour (linear RGB) of the strand's fibres there, and the
    // brightness of the front layer.
    std::vector<float> fibres;
    // Per field cell an RGBA row: the blend's colour (linear RGB), and the brightness of the front layer.
    std::vector<float> cells;
    int field_columns = 1, field_rows = 1;
    std::uint32_t seed = 0;
    float contrast = 0.0f;  // 0 all fibres the blend's colour .. 1 each its own; already in `fibres`
};

// A scene over any field; `passes` only sets how far single fibres keep their own colour, and the recipe's
// name where they lie. A scene without strands is a grey of nothing. Precondition: field.strands is the
// forecast's number of strands.
Scene scene_of(const forecast::Forecast& forecast, const Field& field, int passes);
// An ideal blend for three passes and more, streaks for two, for one the feed layers in order along the
// strip. Same recipe, same scene.
Scene scene_of(const forecast::Forecast& forecast, int passes);

struct Image {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb;  // 3 bytes a pixel, sRGB, row by row from the top
};
// Draws on the CPU with at most `threads` threads (0: as many as there are); the picture does not depend on
// it. Empty when a side is not positive.
Image draw(const Scene& scene, int width, int height, int threads = 0);
// Mean of the picture in linear light, as the eye blends it from afar.
colour::LinearRgb mean_colour(const Image& image);
// Every `times` x `times` pixels become one, averaged in linear light: so many times as far away.
// Precondition: times >= 1; what is left over at the right and below is cut off.
Image seen_from_afar(Image image, int times);
// Writes a PNG by way of a temporary file and a rename. `saving` says what may be replaced.
measure::Expected<void> save_png(const Image& image, const std::string& path,
                                 const measure::Saving& saving = {});

}  // namespace battwright::strip
