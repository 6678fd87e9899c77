// What a yarn is for: the things, the sizes each comes in, and what follows from them.
#pragma once

#include <array>
#include <string_view>

#include "recipe/recipe.hpp"

namespace battwright::recipe {

// Common practice, no source: firm is what is worn through by rubbing, soft what lies round the neck and
// drapes; close to the skin is worn what goes round the head or neck, and what a child wears.
struct PurposeRow {
    std::string_view thing;
    std::array<std::string_view, 4> sizes;  // as many as it comes in, then empty ones
    Twist twist = Twist::medium;
    bool worn_close = false;
};
inline constexpr std::array<PurposeRow, 9> purposes{{
    {"hat", {"child", "adult", "", ""}, Twist::medium, true},
    {"cowl", {"close", "long", "", ""}, Twist::soft, true},
    {"mitts", {"child", "adult", "", ""}, Twist::firm, false},
    {"socks", {"child", "adult", "large", ""}, Twist::firm, false},
    {"scarf", {"narrow", "wide", "", ""}, Twist::soft, true},
    {"shawl", {"small", "large", "", ""}, Twist::soft, true},
    {"child's jumper", {"2 years", "6 years", "10 years", ""}, Twist::medium, true},
    {"adult's jumper", {"small", "medium", "large", "extra large"}, Twist::medium, false},
    {"blanket", {"cradle", "lap", "bed", ""}, Twist::medium, false},
}};

// What a recipe has that does not say its twist: the thing's, else medium.
Twist usual_twist(const Purpose& purpose);

}  // namespace battwright::recipe
