// Inside this room: the pieces of write_text().
#pragma once

#include <string>
#include <vector>

#include "recipe/recipe.hpp"

namespace battwright::recipe {

// "strips", or a list when there are several.
std::string refeeds_text(const std::vector<Refeed>& refeeds);
// [series], when there is one.
void write_series(std::string& out, const Recipe& recipe);
// [[carding.blend]] and [[carding.lay]] tables.
void write_layings(std::string& out, const Carding& carding);

}  // namespace battwright::recipe
