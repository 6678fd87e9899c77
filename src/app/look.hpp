// How the batt is looked at; none of it is part of the recipe.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "carding/pull.hpp"
#include "colour/spaces.hpp"
#include "recipe/recipe.hpp"
#include "strip/table.hpp"

namespace battwright::app {

// What the strip and the table show: the batt itself, what is made of it, or the yarn spun from it.
using StripView = strip::TableView;
using strip::is_yarn;
// "torn edge", "batt face", "rolled batt", "single", "plied yarn" ...
std::string_view word_for(StripView view);

struct Look {
    colour::Light light = colour::Light::d65;
    std::optional<int> passes;  // strip shown after this many; else the recipe's own
    int distance = 0;           // 0 in the hand, 1 at arm's length, 2 across the room
    StripView view = StripView::edge;
    carding::Pull pull = carding::Pull::torn_lengthwise;  // yarn: how the batt is taken to the wheel,
    double from = 0.0;                                    // 0..1, where along the yarn the picture begins,
    double zoom = 1.0;                                    // and how fine the screen is
    // What is seen whole in the strip: how large it is there, and on which ground.
    int strip_width = 0, strip_height = 0;  // px
    colour::Srgb ground{1.0, 1.0, 1.0};
    bool operator==(const Look&) const = default;
};

// Passes that can be looked at whatever the recipe says.
inline constexpr int usual_passes = 4;
// The pass on show: what was chosen, else the recipe's own, as far as the strip can show it.
int pass_shown(const recipe::Recipe& recipe, const Look& look);

// What a view may ask for; see action.hpp.
struct LookAt {
    Look look;
};

}  // namespace battwright::app
