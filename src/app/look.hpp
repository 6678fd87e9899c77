// How the batt is looked at; none of it is part of the recipe.
#pragma once

#include <optional>
#include <string_view>

#include "carding/pull.hpp"
#include "colour/spaces.hpp"
#include "recipe/recipe.hpp"
#include "strip/yarn_picture.hpp"

namespace battwright::app {

// What the strip shows: the batt itself, or the yarn spun from it.
enum class StripView { edge, face, single, plied, swatch };
inline constexpr bool is_yarn(StripView view) {
    return view >= StripView::single;
}
// "torn edge", "batt face", "single", "plied yarn", "knitted swatch"
std::string_view word_for(StripView view);
// Precondition: is_yarn(view).
strip::YarnView yarn_view(StripView view);

struct Look {
    colour::Light light = colour::Light::d65;
    std::optional<int> passes;  // strip shown after this many; else the recipe's own
    int distance = 0;           // 0 in the hand, 1 at arm's length, 2 across the room
    StripView view = StripView::edge;
    carding::Pull pull = carding::Pull::torn_lengthwise;  // yarn: how the batt is taken to the wheel,
    double from = 0.0;                                    // 0..1, where along the yarn the picture begins,
    double zoom = 1.0;                                    // and how fine the screen is
    bool operator==(const Look&) const = default;
};

// Passes that can be looked at whatever the recipe says.
inline constexpr int usual_passes = 4;
// The pass on show: what was chosen, else the recipe's own, as far as the strip can show it.
int pass_shown(const recipe::Recipe& recipe, const Look& look);

}  // namespace battwright::app
