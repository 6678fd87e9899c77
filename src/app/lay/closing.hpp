// Inside this room: keeping a list of layings closed while it is being made.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/lay/laying_edits.hpp"
#include "recipe/layout.hpp"

namespace battwright::app {

// Every list of the recipe: the batt's, then each small blend's.
std::vector<std::vector<recipe::Laying>*> laying_lists(recipe::Recipe& recipe);

// What no laying takes becomes "the rest", first of all; a rest of which nothing is left goes. Where each of
// the layings is then; none: gone.
std::vector<std::optional<std::size_t>> close_up(recipe::Recipe& recipe);
// A fade or an overlap is no longer than what it runs along.
void keep_edges_in(recipe::Laying& laying, const recipe::Carder& carder);
// The sheet closed, and the layings it is about where they are now.
Laid closed(Sheet sheet, const Layings& which, std::string line = {});

// Grams of the whole making that each laying of the batt takes; empty while the weights do not close.
std::vector<double> grams_of_layings(const recipe::Recipe& recipe);
// What no stroke has placed of the thing a laying lays.
double left_for(const Sheet& sheet, const recipe::Laying& laying);
bool is_rest(const recipe::Laying& laying);
// All over, with nothing said of how: what no stroke has placed.
bool is_plain_rest(const recipe::Laying& laying);

// Cut off at the edges; none when all of it is off. `cut`: whether any was.
std::optional<recipe::Stretch> clipped(const recipe::Stretch& stretch, double whole_mm, bool* cut = nullptr);

}  // namespace battwright::app
