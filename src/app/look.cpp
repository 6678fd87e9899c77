#include "app/look.hpp"

#include <algorithm>

namespace battwright::app {

std::string_view word_for(StripView view) {
    return measure::row_of(strip::table_views, view).name;
}

int pass_shown(const recipe::Recipe& recipe, const Look& look) {
    const int own = std::max(1, recipe.carding.passes);
    return std::clamp(look.passes.value_or(own), 1, std::max(usual_passes, own));
}

}  // namespace battwright::app
