#include "app/bench/sheet.hpp"

#include <algorithm>

namespace battwright::app {

Sheet sheet_of(recipe::Recipe recipe) {
    Sheet sheet{std::move(recipe), {}, false};
    sheet.total_held = sheet.recipe.total.has_value();
    for (std::size_t i = 0; i < sheet.recipe.components.size(); ++i) sheet.marks.push_back({i + 1, 0});
    return sheet;
}

std::uint64_t fresh_uid(const Sheet& sheet) {
    std::uint64_t highest = 0;
    for (const Mark& mark : sheet.marks) highest = std::max(highest, mark.uid);
    return highest + 1;
}

std::size_t index_of(const Sheet& sheet, std::uint64_t uid) {
    const auto found = std::find_if(sheet.marks.begin(), sheet.marks.end(),
                                    [uid](const Mark& mark) { return mark.uid == uid; });
    return static_cast<std::size_t>(found - sheet.marks.begin());
}

}  // namespace battwright::app
