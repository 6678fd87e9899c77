// A palette edited by eye, as hex, as Lab and in shares, whoever it belongs to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "recipe/recipe.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

struct PaletteEdit {
    std::vector<recipe::Tint> palette;  // shares as left by the edit; see closed()
    const char* what = "";              // for undo
    bool dragging = false;              // one of many while the button is held
};
// Chips of the palette's colours, and all there is to say of the one that is chosen (`tint`).
std::optional<PaletteEdit> view_palette(const Ui& ui, const std::vector<recipe::Tint>& palette,
                                        std::size_t& tint);

struct ColourEdit {
    colour::Srgb colour;  // whole in eight bits a channel
    bool dragging = false;
};
// The colour chosen on a wheel, and the one typed as hex with or without its mark; what cannot be read is
// complained of. `label`: for tests.
std::optional<colour::Srgb> colour_wheel(const Ui& ui, const std::string& label, const colour::Srgb& colour,
                                         float width);
std::optional<colour::Srgb> hex_field(const Ui& ui, const std::string& label, const colour::Srgb& colour,
                                      float width);
// Wheel, hex and Lab of one colour.
std::optional<ColourEdit> view_one_colour(const Ui& ui, const colour::Srgb& colour);

}  // namespace battwright::window
