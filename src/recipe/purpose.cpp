#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "recipe/usual_twist.hpp"

namespace battwright::recipe {

const std::vector<std::string>& purpose_things() {
    static const std::vector<std::string> things{
        "hat", "cowl", "mitts", "socks", "scarf", "shawl", "child's jumper", "adult's jumper", "blanket"};
    return things;
}

const std::vector<std::string>& purpose_sizes(std::string_view thing) {
    static const std::vector<std::pair<std::string_view, std::vector<std::string>>> sizes{
        {"hat", {"child", "adult"}},
        {"cowl", {"close", "long"}},
        {"mitts", {"child", "adult"}},
        {"socks", {"child", "adult", "large"}},
        {"scarf", {"narrow", "wide"}},
        {"shawl", {"small", "large"}},
        {"child's jumper", {"2 years", "6 years", "10 years"}},
        {"adult's jumper", {"small", "medium", "large", "extra large"}},
        {"blanket", {"cradle", "lap", "bed"}}};
    static const std::vector<std::string> none;
    const auto found =
        std::find_if(sizes.begin(), sizes.end(), [thing](const auto& row) { return row.first == thing; });
    return found == sizes.end() ? none : found->second;
}

std::optional<bool> next_to_skin(const Purpose& purpose) {
    if (purpose.next_to_skin || purpose.thing.empty()) return purpose.next_to_skin;
    constexpr std::array<std::string_view, 5> worn_close{"hat", "cowl", "scarf", "shawl", "child's jumper"};
    return std::find(worn_close.begin(), worn_close.end(), purpose.thing) != worn_close.end();
}

Twist usual_twist(const Purpose& purpose) {
    static const std::vector<std::pair<std::string_view, Twist>> twists{{"socks", Twist::firm},
                                                                        {"mitts", Twist::firm},
                                                                        {"cowl", Twist::soft},
                                                                        {"scarf", Twist::soft},
                                                                        {"shawl", Twist::soft}};
    const auto found = std::find_if(twists.begin(), twists.end(),
                                    [&](const auto& row) { return row.first == purpose.thing; });
    return found == twists.end() ? Twist::medium : found->second;
}

}  // namespace battwright::recipe
