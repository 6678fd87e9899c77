// Inside this room: how the other components of a batt make room when one of them changes or comes in.
#pragma once

#include <optional>
#include <vector>

#include "app/bench/sheet.hpp"

namespace battwright::app {

// The weight of each component in grams, or nothing when the amounts do not close.
std::optional<std::vector<double>> grams_of(const recipe::Recipe& recipe);

// Who gives way when `changed` changes (the number of components: nobody did), as sets to try one after the
// other, none of which has a locked one in it: those in parts, which share what is left; those nobody has
// typed; all but what was typed last; all.
using Turns = std::vector<std::vector<bool>>;
Turns turns_of(const Sheet& sheet, std::size_t changed);
// The first two of them: what was typed stays as it is.
Turns untyped_turns(const Sheet& sheet, std::size_t changed);
// All that is not locked, at once.
Turns all_at_once(const Sheet& sheet);

// Scales one set of entries of `grams`, the first that can, so that all sum to `total_grams`. False, and
// `grams` unchanged, when none can.
bool give_way(std::vector<double>& grams, const Turns& turns, double total_grams);

// Writes the weights into the recipe, each in the way it was written (weight, percent or parts), with weights
// rounded to 0.01 g and percentages to 0.01 so that the sums hold. `exact` is left as it stands, and so is a
// locked weight or percentage.
void write_back(recipe::Recipe& recipe, const std::vector<double>& grams, double total_grams,
                std::size_t exact);

// Two components may not be alike: a newcomer that is, by `alike`, gets a name with a number.
void tell_apart(const recipe::Recipe& recipe, recipe::Component& newcomer,
                bool (*alike)(const recipe::Component& other, const recipe::Component& newcomer));

}  // namespace battwright::app
