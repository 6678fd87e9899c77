// Inside this room: Walker's alias tables.
#pragma once

#include <vector>

namespace battwright::strip {

// Appends (threshold, alias) pairs, one a chance: slot k drawn evenly, then k if a second number 0..1 is
// under its threshold, else its alias (Walker, "An efficient method for generating discrete random variables
// with general distributions", ACM TOMS 3, 1977; set up in linear time after Vose 1991). Chances are on any
// scale; all nought counts as all alike.
void append_alias_table(const std::vector<double>& chances, std::vector<float>& table);

}  // namespace battwright::strip
