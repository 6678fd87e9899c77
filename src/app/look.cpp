#include "app/look.hpp"

#include <algorithm>

namespace battwright::app {

strip::YarnView yarn_view(StripView view) {
    if (view == StripView::single) return strip::YarnView::single;
    return view == StripView::plied ? strip::YarnView::plied : strip::YarnView::swatch;
}

std::string_view word_for(StripView view) {
    if (is_yarn(view)) return strip::word_for(yarn_view(view));
    return view == StripView::edge ? "torn edge" : "batt face";
}

int pass_shown(const recipe::Recipe& recipe, const Look& look) {
    const int own = std::max(1, recipe.carding.passes);
    return std::clamp(look.passes.value_or(own), 1, std::max(usual_passes, own));
}

}  // namespace battwright::app
