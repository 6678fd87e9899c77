// A skein's colour as its photo shows it, and as its batts foretold it.
#pragma once

#include <optional>
#include <span>

#include "stash/making.hpp"

namespace battwright::stash {

// The mean of the light of its palette, D65; none without one.
std::optional<colour::Lab> seen_colour(const Skein& skein);
// The mean of the light of its batts by what each gave to it; none where no batt of it has a colour.
std::optional<colour::Lab> foretold_colour(const Skein& skein, std::span<const Batt> batts);

}  // namespace battwright::stash
