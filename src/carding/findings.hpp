// What a practised hand would say about this way of feeding, before the drum turns.
#pragma once

#include <span>
#include <vector>

#include "carding/feed.hpp"
#include "recipe/carder.hpp"
#include "recipe/recipe.hpp"
#include "staple/findings.hpp"

namespace battwright::carding {

// "gradient-lost", "stripes-lost", "stripes-apart", "licker-in", "holds-less"; of a list of layings
// "places-lost", "fiddly": at most one of each. All common practice, and from the maps of how a batt goes
// back (refold.hpp) what a later pass does to a gradient.
std::vector<staple::Finding> feeding_findings(const recipe::Recipe& recipe,
                                              std::span<const recipe::Strand> strands,
                                              const recipe::Carder& carder, double batt_grams);

}  // namespace battwright::carding
