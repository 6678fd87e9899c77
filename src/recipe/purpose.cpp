#include <algorithm>
#include <array>
#include <string_view>

#include "recipe/recipe.hpp"

namespace battwright::recipe {

const std::vector<std::string>& purpose_things() {
    static const std::vector<std::string> things{
        "hat", "cowl", "mitts", "socks", "scarf", "shawl", "child's jumper", "adult's jumper", "blanket"};
    return things;
}

std::optional<bool> next_to_skin(const Purpose& purpose) {
    if (purpose.next_to_skin || purpose.thing.empty()) return purpose.next_to_skin;
    constexpr std::array<std::string_view, 5> worn_close{"hat", "cowl", "scarf", "shawl", "child's jumper"};
    return std::find(worn_close.begin(), worn_close.end(), purpose.thing) != worn_close.end();
}

}  // namespace battwright::recipe
