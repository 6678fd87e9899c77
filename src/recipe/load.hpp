// Inside this room: what a carder takes at once, as "40-80 g".
#pragma once

#include <string>
#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::recipe {

struct Load {
    double low_grams = 0.0;
    double high_grams = 0.0;
};
// "40-80 g", "1.5 oz - 3 oz", "40 to 80 g": the lighter end may leave its unit to the heavier.
measure::Expected<Load> parse_load(std::string_view text);
// Always in grams, since a carder keeps no unit.
std::string write_load(const Load& load);

}  // namespace battwright::recipe
