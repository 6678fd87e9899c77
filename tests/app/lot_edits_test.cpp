// From the shelf to the bench as pure functions.
#include "app/shelf/lot_edits.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "app/bench/edits.hpp"
#include "app/half_typed.hpp"
#include "colour/spaces.hpp"
#include "recipe/composition.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using measure::Mass;

namespace {

const fibre::Catalogue& lots_catalogue() {
    return fibre::Catalogue::builtin();
}

stash::Shelved lot(double grams, const std::string& mark = "KFR3XD") {
    stash::Shelved shelved;
    shelved.lot.mark = mark;
    shelved.lot.name = "Kelp forest";
    shelved.lot.content = {{"corriedale", 70.0}, {"tussah-silk", 30.0}};
    shelved.lot.palette = {{colour::parse_hex("#4a5a2c").value(), 60.0},
                           {colour::parse_hex("#77803a").value(), 40.0}};
    shelved.lot.staple_mm = 101.0;
    shelved.lot.diameter_um = 27.5;
    shelved.grams = grams;
    return shelved;
}

std::vector<stash::Movement> bought(double grams) {
    stash::Movement movement;
    movement.id = 1;
    movement.grams = grams;
    return {movement};
}

app::Sheet bench(std::vector<double> grams) {
    recipe::Recipe recipe;
    recipe.name = "Test Tide";
    for (const double weight : grams) {
        recipe::Component component;
        component.name = "part " + std::to_string(recipe.components.size() + 1);
        component.content = {{"corriedale", 100.0}};
        component.amount = Mass{weight, measure::MassUnit::gram};
        recipe.components.push_back(component);
    }
    return app::sheet_of(recipe);
}

app::Sheet placed(const app::Sheet& sheet, const stash::Shelved& shelved, double grams) {
    auto result = app::put_on_bench(sheet, shelved, {grams, {}}, {}, "kr", lots_catalogue());
    REQUIRE(result);
    REQUIRE_FALSE(result->disagreement);
    return result->sheet;
}

double sum(const std::vector<recipe::Content>& blend) {
    double all = 0.0;
    for (const auto& entry : blend) all += entry.share_pct;
    return all;
}

}  // namespace

TEST_CASE(
    "a lot on the bench keeps its mark, content, palette, tag figures and price, and the recipe reads") {
    auto shelved = lot(180.0);
    shelved.lot.cost = stash::Money{18.0, "kr"};
    const auto result =
        app::put_on_bench(bench({30.0}), shelved, {25.0, {}}, bought(200.0), "kr", lots_catalogue());
    REQUIRE(result);
    REQUIRE(result->sheet.recipe.components.size() == 2);
    const auto& component = result->sheet.recipe.components[1];
    CHECK(component.lot == "KFR3XD");
    CHECK(component.name == "Kelp forest");
    REQUIRE(component.content.size() == 2);
    CHECK(component.content[1].share_pct == 30.0);
    REQUIRE(component.palette.size() == 2);
    CHECK(component.palette[0].share_pct == 60.0);
    REQUIRE(component.staple);
    CHECK(component.staple->millimetres == 101.0);
    CHECK(component.diameter_um == 27.5);
    REQUIRE(component.price);
    CHECK(component.price->amount == doctest::Approx(9.0));  // 18 for 200 g
    CHECK(component.price->per.grams == 100.0);
    CHECK(std::get<Mass>(component.amount).grams == 25.0);
    const auto read =
        recipe::read_text(recipe::write_text(result->sheet.recipe), "on the bench", lots_catalogue());
    if (!read) FAIL(measure::to_line(read.error()));
    CHECK(*read == result->sheet.recipe);
}

TEST_CASE("another currency is no price") {
    auto shelved = lot(180.0);
    shelved.lot.cost = stash::Money{18.0, "EUR"};
    CHECK_FALSE(app::component_of(shelved, bought(200.0), "kr").price);
    CHECK(app::component_of(shelved, bought(200.0), "EUR").price);
}

TEST_CASE("of a raw lot only what scouring leaves goes on the drum") {
    auto shelved = lot(100.0);
    shelved.lot.raw = true;
    shelved.lot.yield_pct = 60.0;
    CHECK(app::suggested_grams(bench({80.0}), shelved, 15.0) == doctest::Approx(60.0));
}

TEST_CASE("how much is taken when nobody says") {
    CHECK(app::suggested_grams(bench({}), lot(180.0), 15.0) == doctest::Approx(25.0));
    CHECK(app::suggested_grams(bench({30.0, 50.0}), lot(180.0), 15.0) == doctest::Approx(40.0));
    CHECK(app::suggested_grams(bench({30.0, 50.0}), lot(22.0), 15.0) == doctest::Approx(22.0));
    CHECK(app::suggested_grams(bench({30.0, 50.0}), lot(9.0), 15.0) == doctest::Approx(9.0));
    // What the bench already wants of it is no longer there.
    const auto sheet = placed(bench({30.0}), lot(40.0), 25.0);
    CHECK(app::wanted_of(sheet, "KFR3XD").value() == doctest::Approx(25.0));
    CHECK(app::suggested_grams(sheet, lot(40.0), 15.0) == doctest::Approx(15.0));
}

TEST_CASE("the same lot twice is two components that a recipe tells apart") {
    auto sheet = bench({});
    for (int i = 0; i < 12; ++i) sheet = placed(sheet, lot(500.0), 10.0);
    CHECK(app::wanted_of(sheet, "KFR3XD").value() == doctest::Approx(120.0));
    const auto read = recipe::read_text(recipe::write_text(sheet.recipe), "twelve", lots_catalogue());
    if (!read) FAIL(measure::to_line(read.error()));
    CHECK(sheet.recipe.components[1].name == "Kelp forest 2");
}

TEST_CASE("in a batt with a total the others give way") {
    auto sheet = bench({30.0, 30.0});
    sheet.recipe.total = Mass{60.0, measure::MassUnit::gram};
    const auto after = placed(sheet, lot(500.0), 20.0);
    const auto masses = recipe::masses_of(after.recipe);
    REQUIRE(masses);
    CHECK(masses->grams[2] == doctest::Approx(20.0));
    double all = 0.0;
    for (const double grams : masses->grams) all += grams;
    CHECK(all == doctest::Approx(60.0).epsilon(1e-3));
}

TEST_CASE("names and figures no recipe would take are put right on the way") {
    auto shelved = lot(50.0);
    // 150 letters of two bytes: cut between letters. Right-to-left, an id's mark, a format.
    std::string name = "##%s%n ";
    for (int i = 0; i < 150; ++i) name += "\u05d0";
    shelved.lot.name = name;
    shelved.lot.content = {{"corriedale", 50.0}, {"corriedale", 50.0}};
    shelved.lot.palette = {{colour::parse_hex("#77803a").value(), 50.0},
                           {colour::parse_hex("#77803a").value(), 50.0}};
    shelved.lot.staple_mm = 5000.0;
    shelved.lot.diameter_um = 0.5;
    auto sheet = placed(bench({}), shelved, 10.0);
    sheet = placed(sheet, shelved, 10.0);
    const auto read = recipe::read_text(recipe::write_text(sheet.recipe), "strange", lots_catalogue());
    if (!read) FAIL(measure::to_line(read.error()));
    for (const auto& component : read->components) {
        CHECK(component.name.size() <= 200);
        CHECK(measure::first_not_utf8(component.name) == std::string::npos);
        CHECK(component.content.size() == 1);
        CHECK(component.palette.size() == 1);
        CHECK_FALSE(component.staple);
        CHECK_FALSE(component.diameter_um);
    }
}

TEST_CASE("what cannot go on the bench is refused") {
    CHECK_FALSE(app::put_on_bench(bench({}), lot(0.0), {10.0, {}}, {}, "", lots_catalogue()));
    auto strange = lot(50.0);
    strange.lot.content = {{"mermaid-hair", 100.0}};
    CHECK_FALSE(app::put_on_bench(bench({}), strange, {10.0, {}}, {}, "", lots_catalogue()));
    auto nothing = lot(50.0);
    nothing.lot.content.clear();
    CHECK_FALSE(app::put_on_bench(bench({}), nothing, {10.0, {}}, {}, "", lots_catalogue()));
}

TEST_CASE("a blend is changed kind by kind and always comes to a hundred") {
    std::vector<recipe::Content> blend{{"corriedale", 100.0}};
    blend = app::with_kind(blend, "corriedale");
    CHECK(blend.size() == 1);
    blend = app::with_kind(blend, "tussah-silk");
    REQUIRE(blend.size() == 2);
    CHECK(blend[0].share_pct == doctest::Approx(50.0));
    blend = app::with_kind(blend, "nylon");
    REQUIRE(blend.size() == 3);
    CHECK(sum(blend) == doctest::Approx(100.0).epsilon(1e-9));
    CHECK(blend[2].share_pct == doctest::Approx(33.3));
    blend = app::with_share(blend, 0, 80.0);
    CHECK(blend[0].share_pct == doctest::Approx(80.0));
    CHECK(sum(blend) == doctest::Approx(100.0).epsilon(1e-9));
    blend = app::without_kind(blend, 0);
    REQUIRE(blend.size() == 2);
    CHECK(sum(blend) == doctest::Approx(100.0).epsilon(1e-9));
    blend = app::without_kind(app::without_kind(blend, 0), 0);
    REQUIRE(blend.size() == 1);
    CHECK(blend[0].share_pct == doctest::Approx(100.0));
}

TEST_CASE("a lot is begun by any word, figure or weight, and not by an empty form") {
    stash::Lot lot;
    CHECK_FALSE(app::is_begun(lot, ""));
    CHECK_FALSE(app::is_begun(lot, "  "));
    CHECK(app::is_begun(lot, "182 g"));
    lot.notes = "from the ferry man";
    CHECK(app::is_begun(lot, ""));
    lot = {};
    lot.content = {{"corriedale", 100.0}};
    CHECK(app::is_begun(lot, ""));
    lot = {};
    lot.staple_mm = 90.0;
    CHECK(app::is_begun(lot, ""));
}

TEST_CASE("a form half filled is let go at the second press, and anything typed in between asks anew") {
    std::string asked;
    CHECK(app::may_let_go(asked, app::typed_in({"", " ", "\t"})));
    CHECK_FALSE(app::may_let_go(asked, app::typed_in({"12 g", ""})));
    // The same letters in another field are another text.
    CHECK_FALSE(app::may_let_go(asked, app::typed_in({"", "12 g"})));
    CHECK(app::may_let_go(asked, app::typed_in({"", "12 g"})));
    CHECK_FALSE(app::may_let_go(asked, app::typed_in({"", "12 g"})));  // asked afresh the next time

    stash::Lot lot;
    CHECK(app::typed_in(lot, "").empty());
    lot.staple_mm = 90.0;
    CHECK_FALSE(app::typed_in(lot, "").empty());
    const std::string before = app::typed_in(lot, "12 g");
    lot.name = "Kelp";
    CHECK(app::typed_in(lot, "12 g") != before);
}
