// Kinds of fibre in any word one knows them by, as ids of the catalogue.
#pragma once

#include <vector>

#include "fibre/catalogue.hpp"
#include "recipe/recipe.hpp"

namespace battwright::recipe {

// Puts a kind's id for every word that means one kind (fibre::Catalogue::meant()); other words stay, for the
// checks to complain of.
void settle_kinds(std::vector<Content>& content, const fibre::Catalogue& catalogue);
// The same in components and thread, and where a laying or a series names a component by its fibre.
void settle_kinds(Recipe& recipe, const fibre::Catalogue& catalogue);

}  // namespace battwright::recipe
