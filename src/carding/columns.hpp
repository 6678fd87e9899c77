// Inside this room: columns that all weigh the same, in a batt that is not equally thick everywhere.
#pragma once

#include <span>
#include <vector>

#include "carding/field.hpp"
#include "carding/overlap.hpp"

namespace battwright::carding {

// The field counts its columns in mass. An accent laid on one edge over an even base makes that edge thicker:
// counted in mass it is wider. `full` is how thick the batt is in columns of equal area (mean 1). The map
// from mass to place goes by the round first and then, within each slice round, by the width (Knothe and
// Rosenblatt's rearrangement), so it is exact and never crosses itself. Each column of equal mass takes
// columns of equal area by these weights, which sum to its area over its mass.
std::vector<Tap> columns_by_mass(std::span<const double> full, const Grid& grid);
// Thicknesses (lay after lay, a value a column of equal area, together `full`) into shares of columns of
// equal mass. Each lay's mean is kept. Nothing is done to a batt that is even already.
void evened_columns(std::span<double> thickness, std::span<const double> full, const Grid& grid);

// Where the edges of columns of equal mass lie. Empty for a batt that is even.
Placing placing_of(std::span<const double> full, const Grid& grid);

}  // namespace battwright::carding
