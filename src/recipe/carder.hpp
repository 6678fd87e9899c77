// The machine a batt is made on.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace battwright::recipe {

inline constexpr int most_passes = 20;  // through a carder, of one batt

// Common practice, no source: most drums turn four to six times as fast.
inline constexpr double usual_licker_in_ratio = 5.0;

// A drum carder. In a recipe: a preset's id, or { name (may be left out), drum_circumference = "560 mm",
// width = "200 mm", clothing = 72 (teeth per square inch), load = "40-80 g" (least and most, one text),
// licker_in = "5:1" (may be left out) }. Loads are in grams of clean fibre (common practice, no source).
struct Carder {
    std::string id;
    std::string name;
    double drum_circumference_mm = 0.0;
    double width_mm = 0.0;
    double teeth_per_square_inch = 0.0;
    double load_low_grams = 0.0;   // a thin, easy batt
    double load_high_grams = 0.0;  // fibre reaches the tips of the teeth
    // Turns of the drum for one of the licker-in, the small roller that takes the fibre in: the higher, the
    // more the fibre is opened and the slower it goes in.
    double licker_in_ratio = usual_licker_in_ratio;
    bool operator==(const Carder&) const = default;
};

// Four generic presets: "table-small", "table-standard", "table-wide", "fine-cloth".
const std::vector<Carder>& carder_presets();
const Carder* find_carder(std::string_view id);  // nullptr when unknown

}  // namespace battwright::recipe
