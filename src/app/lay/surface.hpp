// The tool's cloth as a surface to lay fibre on: how large it is and what its ways are called.
#pragma once

#include <string_view>

#include "recipe/recipe.hpp"

namespace battwright::app {

struct Surface {
    double across_mm = 200.0;  // its width, from the left edge
    double along_mm = 560.0;   // round the drum from the seam; from the near end of what does not turn
    bool turns = true;         // the end of the way along is its beginning
    bool has_tray = true;      // fibre can go in by a tray, and then lies all along
    bool keeps_along = true;   // a place along it; what lies along hand cards is drawn out over them
    std::string_view name = "drum";
    std::string_view along = "round";                 // "round 0-80 mm"
    std::string_view begins = "seam", ends = "seam";  // of the way along

    double area_cm2() const { return across_mm * along_mm / 100.0; }
};
Surface surface_of(const recipe::Recipe& recipe);

}  // namespace battwright::app
