// Palettes made whole.
#pragma once

#include <vector>

#include "colour/palette.hpp"
#include "recipe/recipe.hpp"

namespace battwright::recipe {

// The palette with its shares scaled to sum 100, to a tenth, and its colours within what a screen shows.
std::vector<Tint> closed(std::vector<Tint> palette);
// The colours in even shares; of none, none.
std::vector<Tint> even_palette(const std::vector<colour::Srgb>& colours);
// As read from a photo, for a lot: closed, each colour once and whole in eight bits, largest share first.
std::vector<Tint> tints_of(const colour::Palette& palette);

}  // namespace battwright::recipe
