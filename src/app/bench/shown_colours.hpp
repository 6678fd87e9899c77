// The colours a component shows.
#pragma once

#include <vector>

#include "colour/spectrum.hpp"
#include "fibre/catalogue.hpp"
#include "recipe/recipe.hpp"

namespace battwright::app {

// With their shares in percent: its palette, or its kinds' natural colours; never none.
struct Shown {
    std::vector<colour::Srgb> colours;
    std::vector<double> shares;
};
Shown shown_colours(const recipe::Component& component, const fibre::Catalogue& catalogue);

}  // namespace battwright::app
