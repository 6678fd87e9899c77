// Inside this room: how the other components of a batt make room when one of them changes.
#pragma once

#include <optional>
#include <vector>

#include "app/bench/sheet.hpp"

namespace battwright::app {

// The weight of each component in grams, or nothing when the amounts do not close.
std::optional<std::vector<double>> grams_of(const recipe::Recipe& recipe);

// Which components must keep their weight: the locked ones and `changed`.
std::vector<bool> held_marks(const Sheet& sheet, std::size_t changed);
// Which components are free and written in parts, so that they give way before all others.
std::vector<bool> parts_marks(const Sheet& sheet, std::size_t changed);

// Scales the free entries of `grams` so that all sum to `total_grams`: those marked in `first` alone when
// that leaves them something, else all that are not held. False, and `grams` unchanged, when it cannot be
// done.
bool give_way(std::vector<double>& grams, const std::vector<bool>& held, const std::vector<bool>& first,
              double total_grams);

// Writes the weights into the recipe, each in the way it was written (weight, percent or parts), with weights
// rounded to 0.01 g and percentages to 0.01 so that the sums hold. `exact` is left as it stands.
void write_back(recipe::Recipe& recipe, const std::vector<double>& grams, double total_grams,
                std::size_t exact);

}  // namespace battwright::app
