// The twist of a yarn by what it is for.
#pragma once

#include "recipe/recipe.hpp"

namespace battwright::recipe {

// What a recipe has that does not say its twist: firm for what is worn through by rubbing (socks, mitts),
// soft for what lies round the neck and drapes (cowl, scarf, shawl), else medium. Common practice, no source.
Twist usual_twist(const Purpose& purpose);

}  // namespace battwright::recipe
