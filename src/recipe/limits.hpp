// How much a recipe may hold and how large it may be: what check() lets through.
#pragma once

#include <cstddef>

namespace battwright::recipe {

struct Range {
    double low = 0.0;
    double high = 0.0;
    bool holds(double value) const { return value >= low && value <= high; }
};

inline constexpr std::size_t most_components = 60;
inline constexpr std::size_t most_kinds = 12;  // of a blend
inline constexpr std::size_t most_tints = 16;  // of a palette
inline constexpr Range series_count{2.0, 60.0};
inline constexpr std::size_t longest_name = 200;  // bytes of UTF-8
// Wide enough for every fibre, narrow enough to catch a slipped decimal point.
inline constexpr Range staple_millimetres{1.0, 600.0};
inline constexpr Range diameter_micrometres{2.0, 500.0};

}  // namespace battwright::recipe
