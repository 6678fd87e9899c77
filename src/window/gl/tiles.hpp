// What of a frame shows anything else than the one before, tile by tile.
#pragma once

#include <imgui.h>

#include <cstdint>
#include <vector>

#include "colour/spaces.hpp"

namespace battwright::window {

// Pixels from the frame's top left corner; right and bottom are the first outside.
struct PixelRect {
    int left = 0, top = 0, right = 0, bottom = 0;
    bool empty() const { return left >= right || top >= bottom; }
    bool operator==(const PixelRect&) const = default;
};
PixelRect overlap(const PixelRect& a, const PixelRect& b);
PixelRect around(const PixelRect& a, const PixelRect& b);

PixelRect pixels_of(const ImDrawData& frame);
// Where a command may draw: the scissors that ImGui's OpenGL backend sets for it, rounded as it rounds them.
PixelRect clip_of(const ImDrawCmd& command, const ImDrawData& frame);

constexpr int tile_px = 64;

// For each tile, row by row, a number that differs when what is painted there does: which triangles touch it,
// in which order, in what colour, from which texture. Of the textures themselves only their names count, so
// one whose picture changes must take another.
struct TilePrints {
    PixelRect frame;
    std::vector<std::uint64_t> prints;
    int across() const { return (frame.right + tile_px - 1) / tile_px; }
    bool operator==(const TilePrints&) const = default;
};
TilePrints tile_prints(const ImDrawData& frame, const colour::Srgb& ground);

// The tiles to be painted anew, kept over frames that are seen but not painted.
class StaleTiles {
  public:
    // True when the frame differs from the one seen before.
    bool see(TilePrints now);
    // Everything is to be painted anew.
    void forget() { seen_ = {}; }
    // Rectangles that cover the stale tiles and do not overlap; the whole frame in one where all is stale.
    // None is stale afterwards.
    std::vector<PixelRect> take();

  private:
    TilePrints seen_;
    std::vector<bool> stale_;
};

}  // namespace battwright::window
