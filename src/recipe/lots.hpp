// What a recipe leaves to the bag of fibre it names.
#pragma once

#include <functional>
#include <optional>
#include <string_view>

#include "recipe/recipe.hpp"

namespace battwright::recipe {

// A lot by its mark, as the component all of it would be; nothing for a mark nobody knows.
using LotOf = std::function<std::optional<Component>(std::string_view mark)>;

// What components do not say themselves they have from the lot they name: its fibre; and where they are of
// the lot's own kinds its colours, staple and diameter.
void settle_lots(Recipe& recipe, const LotOf& lot_of);

}  // namespace battwright::recipe
