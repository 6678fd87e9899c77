// Inside this room: where a laying stands, and what is wrong with one.
#pragma once

#include <string>

#include "recipe/fault.hpp"
#include "recipe/layout.hpp"

namespace battwright::recipe {

// "carding lay 2", or only "lay 2", from an index that counts from 0.
std::string laying_field(std::size_t index, bool of_batt = true);
// "carding blend 1", "carding blend 1 lay 2".
std::string blend_field(std::size_t index, const std::string& key = {});

// layout_of() with the fields still apart.
tl::expected<Layout, Fault> lay_out(const Recipe& recipe, const Masses& masses);
// Everything about the layings and small blends but how they divide the fibre.
Suspicion bad_layings(const Recipe& recipe);

}  // namespace battwright::recipe
