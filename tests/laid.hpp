// A batt of two wools to be laid by hand, and what holds whatever was done to it.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "app/bench/document.hpp"
#include "app/lay/canvas.hpp"
#include "recipe/file.hpp"

namespace laid {

using namespace battwright;

// On the standard drum: 200 mm wide, 560 mm round.
inline constexpr const char* two_wools = R"(format = 1
name = "Slip"
[[component]]
name = "hull"
fibre = "corriedale"
colour = "#59656d"
weight = "30 g"
[[component]]
name = "rail"
fibre = "corriedale"
colours = [ { colour = "#a4502c", share = "50 %" }, { colour = "#d9a441", share = "50 %" } ]
weight = "20 g"
[carding]
carder = "table-standard"
passes = 2
)";

inline const fibre::Catalogue& kinds() {
    return fibre::Catalogue::builtin();
}

inline recipe::Recipe recipe_of(const std::string& text) {
    auto recipe = recipe::read_text(text, "test", kinds());
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    return *recipe;
}

inline app::Sheet slip() {
    return app::as_list(app::sheet_of(recipe_of(two_wools)), kinds());
}

// Whatever was done: the recipe passes the check a file has to pass.
inline const std::vector<recipe::Laying>& sound(const app::Sheet& sheet) {
    const auto checked = recipe::check(sheet.recipe, kinds());
    if (!checked) FAIL_CHECK(measure::to_line(checked.error()));
    return sheet.recipe.carding.layings;
}

inline double left_of(const app::Sheet& sheet, const std::string& what) {
    for (const app::Tile& tile : app::tiles_of(sheet))
        if (tile.what == what && !tile.colour) return tile.left;
    FAIL("no such tile");
    return 0.0;
}

}  // namespace laid
