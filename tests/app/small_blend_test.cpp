// Small blends made on the canvas, held against the same recipe written by hand.
#include "app/lay/small_blend.hpp"

#include <doctest/doctest.h>

#include "app/bench/document.hpp"
#include "colour/spaces.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using measure::Mass;

namespace {

constexpr const char* blend_of_two = R"(format = 1
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

constexpr const char* blend_written = R"(
[[carding.blend]]
name = "dusk"
passes = 3
lay = [
    { what = "hull", weight = "6 g" },
    { what = "rail", colour = "#a4502c", weight = "4 g" },
]
[[carding.lay]]
what = "dusk"
[[carding.lay]]
what = "hull"
[[carding.lay]]
what = "rail"
colour = "#a4502c"
[[carding.lay]]
what = "rail"
colour = "#d9a441"
)";

recipe::Recipe blend_recipe(const std::string& text) {
    auto recipe = recipe::read_text(text, "test", fibre::Catalogue::builtin());
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    return *recipe;
}

app::Sheet blend_sheet() {
    return app::as_list(app::sheet_of(blend_recipe(blend_of_two)), fibre::Catalogue::builtin());
}

std::vector<app::BlendPart> dusk(double hull_grams, double rail_grams) {
    return {{"hull", {}, Mass{hull_grams}}, {"rail", colour::parse_hex("#a4502c").value(), Mass{rail_grams}}};
}

double blend_left(const app::Sheet& sheet, const std::string& what) {
    for (const app::Tile& tile : app::tiles_of(sheet))
        if (tile.what == what && !tile.colour) return tile.left;
    return -1.0;
}

void check_sound(const app::Sheet& sheet) {
    const auto checked = recipe::check(sheet.recipe, fibre::Catalogue::builtin());
    if (!checked) FAIL_CHECK(measure::to_line(checked.error()));
}

}  // namespace

TEST_CASE("a small blend is the one written by hand: what it takes is taken from its fibres") {
    const app::Laid made = app::make_blend(blend_sheet(), "dusk", dusk(6.0, 4.0), 3, 1);
    CHECK(made.line.empty());
    check_sound(made.sheet);
    const auto by_hand = blend_recipe(std::string(blend_of_two) + blend_written);
    CHECK(made.sheet.recipe.carding.blends == by_hand.carding.blends);
    CHECK(made.sheet.recipe.carding.layings == by_hand.carding.layings);
    CHECK(recipe::write_text(made.sheet.recipe) == recipe::write_text(by_hand));
    CHECK(blend_left(made.sheet, "dusk") == doctest::Approx(10.0));
    CHECK(blend_left(made.sheet, "hull") == doctest::Approx(24.0));
    // Taken apart it is as it was before.
    const app::Laid apart = app::take_blend_apart(made.sheet, "dusk");
    CHECK(apart.sheet == blend_sheet());
}

TEST_CASE("weights of a small blend are of one batt of several") {
    const app::Laid made = app::make_blend(blend_sheet(), "dusk", dusk(3.0, 2.0), 3, 2);
    const auto by_hand = blend_recipe(std::string(blend_of_two) + blend_written);
    CHECK(made.sheet.recipe.carding.blends == by_hand.carding.blends);
}

TEST_CASE("no more goes into a small blend than is left; of nothing none is made") {
    const app::Laid much = app::make_blend(blend_sheet(), "dusk", dusk(40.0, 4.0), 1, 1);
    CHECK(much.line.find("hull") != std::string::npos);
    check_sound(much.sheet);
    CHECK(std::get<Mass>(much.sheet.recipe.carding.blends.at(0).layings.at(0).amount).grams == 30.0);
    CHECK(blend_left(much.sheet, "hull") == doctest::Approx(0.0));
    const app::Laid none = app::make_blend(much.sheet, "dawn", {{"hull", {}, Mass{2.0}}}, 1, 1);
    CHECK(none.sheet == much.sheet);
    CHECK_FALSE(none.line.empty());
}

TEST_CASE("a name is wanted for a small blend, and one of its own") {
    const app::Laid made = app::make_blend(blend_sheet(), "dusk", dusk(6.0, 4.0), 3, 1);
    for (const char* bad : {"", "  ", "dusk", "hull", "rail"}) {
        CAPTURE(bad);
        CHECK(app::bad_blend_name(made.sheet, bad).has_value());
    }
    CHECK_FALSE(app::bad_blend_name(made.sheet, "dawn").has_value());
}

TEST_CASE("a small blend of a small blend goes with it, and so do its strokes") {
    auto made = app::make_blend(blend_sheet(), "dusk", dusk(6.0, 4.0), 3, 1);
    made = app::make_blend(made.sheet, "late dusk", {{"dusk", {}, Mass{5.0}}}, 1, 1);
    check_sound(made.sheet);
    app::Brush brush;
    brush.what = "late dusk";
    brush.by_weight = true;
    brush.grams = 2.0;
    made = app::lay_stroke(made.sheet, brush, 1);
    CHECK(made.grams == doctest::Approx(2.0));
    const app::Laid apart = app::take_blend_apart(made.sheet, "dusk");
    check_sound(apart.sheet);
    CHECK(apart.sheet == blend_sheet());
}
