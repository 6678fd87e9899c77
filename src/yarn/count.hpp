// How thick a compact yarn of a count is.
#pragma once

#include "measure/count.hpp"

namespace battwright::yarn {

using measure::count_from;
using measure::CountSystem;
using measure::metres_per_100_g;
using measure::parse_count;
using measure::PliedCount;
using measure::tex_from;
using measure::tex_of;
using measure::tex_yards_per_pound;
using measure::yards_per_pound;

// Ashenhurst's formula for a yarn wound hard, side by side: diameters per inch = k sqrt(yards per pound), k
// by firmness. It gives the compact thickness; wraps laid on by hand are another quantity (thickness.hpp).
inline constexpr double ashenhurst_soft_woollen = 0.85;
inline constexpr double ashenhurst_firm_worsted = 0.90;
inline constexpr double ashenhurst_very_firm = 0.91;
double compact_diameters_per_inch(double tex, double k);
// One of those diameters, in millimetres. 0 for a yarn of no mass.
double compact_diameter_mm(double tex, double k);

}  // namespace battwright::yarn
