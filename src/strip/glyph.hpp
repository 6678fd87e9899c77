// Inside this room: how a strand's fibres are drawn, and how much of a cell they cover when drawn so.
#pragma once

#include <vector>

#include "recipe/composition.hpp"

namespace battwright::strip {

struct Look {
    float half_width_px = 0.0f, half_length_px = 0.0f;
    float crimp_px = 0.0f, waves_per_px = 0.0f;
    float highlight = 0.0f;  // how many times brighter the brightest spot is, less one
    float streaks = 0.0f;    // of a lump: lines across it
    bool glints = false;
    bool operator==(const Look&) const = default;
};
Look look_of(const recipe::Strand& strand);

// Measured by drawing sample fibres with the picture function itself.
struct Drawn {
    double area = 1.0;            // mean cover of a cell, px^2
    double dimmed_rest = 1.0;     // mean over a cell of (1 - cover) times the shadow's dimming
    double across_squared = 0.0;  // mean of across^2, weighted by cover
    double highlight = 0.0;       // mean of the highlight, weighted by cover
};
Drawn drawn_of(const Look& look);
void append_rows(const Look& look, const Drawn& drawn, std::vector<float>& rows);

// Brightness the front layer needs so that the whole picture's mean is 1 though deeper layers are darker:
// layer l is seen with weight cover (1 - cover)^l, and its light is the front's times the dimming of each
// layer above.
double front_brightness(const std::vector<double>& chances, const std::vector<Drawn>& drawn);

}  // namespace battwright::strip
