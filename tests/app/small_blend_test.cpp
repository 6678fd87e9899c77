// Small blends made on the canvas, held against the same recipe written by hand.
#include "app/lay/small_blend.hpp"

#include <doctest/doctest.h>

#include "colour/spaces.hpp"
#include "laid.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using measure::Mass;

namespace {

using laid::left_of;
using laid::recipe_of;
using laid::slip;
using laid::sound;
using laid::two_wools;

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

std::vector<app::BlendPart> dusk(double hull_grams, double rail_grams) {
    return {{"hull", {}, Mass{hull_grams}}, {"rail", colour::parse_hex("#a4502c").value(), Mass{rail_grams}}};
}

}  // namespace

TEST_CASE("a small blend is the one written by hand: what it takes is taken from its fibres") {
    const app::Laid made = app::make_blend(slip(), "dusk", dusk(6.0, 4.0), 3, 1);
    CHECK(made.line.empty());
    sound(made.sheet);
    const auto by_hand = recipe_of(std::string(two_wools) + blend_written);
    CHECK(made.sheet.recipe.carding.blends == by_hand.carding.blends);
    CHECK(made.sheet.recipe.carding.layings == by_hand.carding.layings);
    CHECK(recipe::write_text(made.sheet.recipe) == recipe::write_text(by_hand));
    CHECK(left_of(made.sheet, "dusk") == doctest::Approx(10.0));
    CHECK(left_of(made.sheet, "hull") == doctest::Approx(24.0));
    // Taken apart it is as it was before.
    const app::Laid apart = app::take_blend_apart(made.sheet, "dusk");
    CHECK(apart.sheet == slip());
}

TEST_CASE("weights of a small blend are of one batt of several") {
    const app::Laid made = app::make_blend(slip(), "dusk", dusk(3.0, 2.0), 3, 2);
    const auto by_hand = recipe_of(std::string(two_wools) + blend_written);
    CHECK(made.sheet.recipe.carding.blends == by_hand.carding.blends);
}

TEST_CASE("no more goes into a small blend than is left; of nothing none is made") {
    const app::Laid much = app::make_blend(slip(), "dusk", dusk(40.0, 4.0), 1, 1);
    CHECK(much.line.find("hull") != std::string::npos);
    sound(much.sheet);
    CHECK(std::get<Mass>(much.sheet.recipe.carding.blends.at(0).layings.at(0).amount).grams == 30.0);
    CHECK(left_of(much.sheet, "hull") == doctest::Approx(0.0));
    const app::Laid none = app::make_blend(much.sheet, "dawn", {{"hull", {}, Mass{2.0}}}, 1, 1);
    CHECK(none.sheet == much.sheet);
    CHECK_FALSE(none.line.empty());
}

TEST_CASE("a name is wanted for a small blend, and one of its own") {
    const app::Laid made = app::make_blend(slip(), "dusk", dusk(6.0, 4.0), 3, 1);
    for (const char* bad : {"", "  ", "dusk", "hull", "rail"}) {
        CAPTURE(bad);
        CHECK(app::bad_blend_name(made.sheet, bad).has_value());
    }
    CHECK_FALSE(app::bad_blend_name(made.sheet, "dawn").has_value());
}

TEST_CASE("a small blend of a small blend goes with it, and so do its strokes") {
    auto made = app::make_blend(slip(), "dusk", dusk(6.0, 4.0), 3, 1);
    made = app::make_blend(made.sheet, "late dusk", {{"dusk", {}, Mass{5.0}}}, 1, 1);
    sound(made.sheet);
    app::Brush brush;
    brush.what = "late dusk";
    brush.by_weight = true;
    brush.grams = 2.0;
    made = app::lay_stroke(made.sheet, brush, 1);
    CHECK(made.grams == doctest::Approx(2.0));
    const app::Laid apart = app::take_blend_apart(made.sheet, "dusk");
    sound(apart.sheet);
    CHECK(apart.sheet == slip());
}
