// The fibre picture: one shader function drawn on the CPU and on the GPU.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "forecast/forecast.hpp"

namespace battwright::strip {

// The tables the picture function reads; the GPU uploads the same numbers as textures.
struct Scene {
    // Per strand: four RGBA rows. Row meanings are set out in shaders/fibre.glsl.
    std::vector<float> strands;
    int strand_count = 0;
    // Alias tables (Walker 1977) that pick a strand by share at each field cell: (threshold, alias) pairs,
    // `strand_count` a cell, cells row by row.
    std::vector<float> picks;
    // Blend colour (linear RGB) and the plain average of the strands' colours at each field cell, row by row.
    std::vector<float> cells;
    int field_columns = 1, field_rows = 1;
    float gain[3] = {1.0f, 1.0f, 1.0f};  // closes what is left between the picture's mean and the forecast colour
    std::uint32_t seed = 0;
    float contrast = 0.0f;  // 0 all fibres the blend's colour .. 1 each its own
};

// An ideal blend for passes >= 2; for 1 the feed layers in order along the strip. Same recipe, same scene.
Scene scene_of(const forecast::Forecast& forecast, int passes);

struct Image {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgb;  // 3 bytes a pixel, sRGB, row by row from the top
};
// Draws on the CPU with at most `threads` threads (0: as many as there are); the picture does not depend on it.
Image draw(const Scene& scene, int width, int height, int threads = 0);
// Mean of the picture in linear light, as the eye blends it from afar.
colour::LinearRgb mean_colour(const Image& image);
// Writes a PNG by way of a temporary file and a rename.
measure::Expected<void> save_png(const Image& image, const std::string& path);

}  // namespace battwright::strip
