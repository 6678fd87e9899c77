// Inside this room: how amounts lie in the file.
#pragma once

#include <cmath>
#include <cstdint>

namespace battwright::stash {

// Grams as micrograms, metres as micrometres, money as millionths: whole numbers, so that a sum is the same
// in any order, a lot that is used up is at nought, and an ounce comes back as the ounce that was written.
inline std::int64_t millionths(double value) {
    return std::llround(value * 1e6);
}
inline double from_millionths(std::int64_t count) {
    return static_cast<double>(count) / 1e6;
}
// Beyond this nobody weighs, measures or pays; far below what the whole numbers and doubles hold.
inline constexpr double most_amount = 1e8;

}  // namespace battwright::stash
