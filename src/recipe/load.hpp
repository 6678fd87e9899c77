// Inside this room: what a carder takes at once, as "40-80 g", and how its licker-in turns, as "5:1".
#pragma once

#include <optional>
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
// The ends of "40-80 g", "1.5 oz - 3 oz", "40 to 80 g", the lighter with the unit of the heavier when it has
// none of its own; nothing when the text is no range.
struct Ends {
    std::string low, high;
};
std::optional<Ends> ends_of_range(std::string_view text);
// Always in grams, since a carder keeps no unit.
std::string write_load(const Load& load);

// Turns of the drum for one of the licker-in: "5:1", or the number alone.
measure::Expected<double> parse_licker_in(std::string_view text);
// Any such ratio; `noun` and `form` are for the complaint.
measure::Expected<double> parse_ratio(std::string_view text, const std::string& noun,
                                      const std::string& form);
std::string write_ratio(double ratio);

}  // namespace battwright::recipe
