// Inside this room: the fibre picture drawn tile by tile, each tile row of fibres by row of fibres. The same
// functions as point by point, in the same order for each point, so with the same digits; but what is the
// same all along a fibre, or at one x of it, is worked out once, and the rest for several points side by
// side.
#pragma once

#include <cstddef>
#include <cstdint>

#include "strip/function.hpp"

namespace battwright::strip {

inline constexpr int tile_px = 64;  // of either side

// Draws the points from (left, top) on, at most tile_px either way, into `rgb`, the picture's bytes, whose
// rows are `stride` bytes apart.
void draw_tile(shader::Function& function, int left, int top, int width, int height, std::uint8_t* rgb,
               std::size_t stride);

}  // namespace battwright::strip
