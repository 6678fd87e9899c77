// Laying by hand as pure functions: a stroke, what becomes of it, and that the list always closes. Weights
// and places are by plain geometry: grams = grams a cm2 times cm2.
#include "app/lay/laying_edits.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "app/bench/document.hpp"
#include "app/bench/edits.hpp"
#include "app/lay/canvas.hpp"
#include "forecast/batt.hpp"
#include "laid.hpp"
#include "place.hpp"
#include "recipe/file.hpp"
#include "recipe/layout.hpp"

using namespace battwright;
using measure::LengthUnit;
using measure::Mass;
using measure::MassUnit;
using recipe::Laying;
using recipe::Rest;
using recipe::Stretch;

namespace {

using laid::kinds;
using laid::left_of;
using laid::recipe_of;
using laid::slip;
using laid::sound;
using laid::two_wools;

app::Brush hull_brush(double left, double right, double from, double to) {
    app::Brush brush;
    brush.what = "hull";
    brush.across = {left, right, LengthUnit::millimetre};
    brush.round = {from, to, LengthUnit::millimetre};
    return brush;
}

double weight_of(const Laying& laying) {
    const auto* mass = std::get_if<Mass>(&laying.amount);
    return mass != nullptr ? mass->grams : -1.0;
}

}  // namespace

TEST_CASE("a recipe that is fed in a manner is its list, of which all is the rest") {
    const app::Sheet sheet = slip();
    REQUIRE(sound(sheet).size() == 3);
    CHECK(left_of(sheet, "hull") == doctest::Approx(30.0));
    CHECK(left_of(sheet, "rail") == doctest::Approx(20.0));
    CHECK(app::tiles_of(sheet).size() == 4);  // the two, and each colour of the second
    CHECK(app::as_list(sheet, kinds()) == sheet);
}

TEST_CASE("a stroke weighs its area times its thickness and takes that from the rest") {
    auto brush = hull_brush(20.0, 80.0, 100.0, 200.0);
    brush.grams_per_cm2 = 0.03;
    const auto laid = app::lay_stroke(slip(), brush, 1);
    CHECK(laid.line.empty());
    CHECK(laid.grams == doctest::Approx(6.0 * 10.0 * 0.03));
    const auto& layings = sound(laid.sheet);
    REQUIRE(laid.layings.size() == 1);
    const Laying& stroke = layings[laid.layings.front()];
    CHECK(weight_of(stroke) == doctest::Approx(1.8));
    CHECK(stroke.across == Stretch{20.0, 80.0, LengthUnit::millimetre});
    CHECK(stroke.round == Stretch{100.0, 200.0, LengthUnit::millimetre});
    CHECK(recipe::way_of(stroke) == recipe::Way::drum);
    CHECK(left_of(laid.sheet, "hull") == doctest::Approx(30.0 - 1.8));
}

TEST_CASE("through the tray a stroke lies all round; by weight it weighs what was said, for each batt") {
    auto brush = hull_brush(0.0, 50.0, 100.0, 200.0);
    brush.way = recipe::Way::tray;
    brush.grams_per_cm2 = 0.01;
    auto laid = app::lay_stroke(slip(), brush, 1);
    CHECK(laid.grams == doctest::Approx(5.0 * 56.0 * 0.01));
    CHECK(sound(laid.sheet)[laid.layings.front()].round.is_whole());
    brush.by_weight = true;
    brush.grams = 3.0;
    laid = app::lay_stroke(slip(), brush, 2);
    CHECK(laid.grams == doctest::Approx(3.0));
    CHECK(weight_of(sound(laid.sheet)[laid.layings.front()]) == doctest::Approx(6.0));
}

TEST_CASE("strokes alike join: at one place, or side by side and as thick; others do not") {
    const auto first = app::lay_stroke(slip(), hull_brush(0.0, 50.0, 0.0, 100.0), 1);
    const auto again = app::lay_stroke(first.sheet, hull_brush(0.0, 50.0, 0.0, 100.0), 1);
    CHECK(sound(again.sheet).size() == first.sheet.recipe.carding.layings.size());
    CHECK(weight_of(again.sheet.recipe.carding.layings.back()) == doctest::Approx(2.0));
    const auto beside = app::lay_stroke(first.sheet, hull_brush(50.0, 110.0, 0.0, 100.0), 1);
    REQUIRE(sound(beside.sheet).size() == first.sheet.recipe.carding.layings.size());
    CHECK(beside.sheet.recipe.carding.layings.back().across == Stretch{0.0, 110.0, LengthUnit::millimetre});
    CHECK(weight_of(beside.sheet.recipe.carding.layings.back()) == doctest::Approx(2.2));
    const auto on = app::lay_stroke(first.sheet, hull_brush(0.0, 50.0, 100.0, 560.0), 1);
    CHECK(sound(on.sheet).size() == first.sheet.recipe.carding.layings.size());
    CHECK(on.sheet.recipe.carding.layings.back().round.is_whole());
    CHECK(recipe::way_of(on.sheet.recipe.carding.layings.back()) == recipe::Way::drum);
    const auto apart = app::lay_stroke(first.sheet, hull_brush(60.0, 110.0, 0.0, 100.0), 1);
    CHECK(sound(apart.sheet).size() == first.sheet.recipe.carding.layings.size() + 1);
    auto thicker = hull_brush(50.0, 110.0, 0.0, 100.0);
    thicker.grams_per_cm2 *= 2.0;
    CHECK(sound(app::lay_stroke(first.sheet, thicker, 1).sheet).size() ==
          first.sheet.recipe.carding.layings.size() + 1);
    auto dabs = hull_brush(0.0, 50.0, 0.0, 100.0);
    dabs.how = recipe::Spreading::dabs;
    CHECK(sound(app::lay_stroke(first.sheet, dabs, 1).sheet).size() ==
          first.sheet.recipe.carding.layings.size() + 1);
}

TEST_CASE("layings that follow each other and are alike are joined when that is asked for") {
    app::Sheet sheet = app::lay_stroke(slip(), hull_brush(0.0, 50.0, 0.0, 100.0), 1).sheet;
    sheet = app::lay_stroke(sheet, hull_brush(100.0, 150.0, 0.0, 100.0), 1).sheet;
    // This one lies beside the one before it and is one with it; then both lie beside the first.
    sheet = app::lay_stroke(sheet, hull_brush(50.0, 100.0, 0.0, 100.0), 1).sheet;
    CHECK(sound(sheet).size() == app::rests_of(sheet).size() + 2);
    const auto joined = app::join_layings(sheet);
    CHECK(sound(joined.sheet).size() == app::rests_of(sheet).size() + 1);
    CHECK(joined.sheet.recipe.carding.layings.back().across == Stretch{0.0, 150.0, LengthUnit::millimetre});
    CHECK(app::join_layings(joined.sheet).sheet == joined.sheet);
}

TEST_CASE("off the drum a stroke is cut, beside it refused, and of more than is left it lays what is left") {
    auto laid = app::lay_stroke(slip(), hull_brush(150.0, 260.0, 0.0, 100.0), 1);
    CHECK(laid.line.find("200 mm wide") != std::string::npos);
    CHECK(sound(laid.sheet)[laid.layings.front()].across == Stretch{150.0, 200.0, LengthUnit::millimetre});
    CHECK(laid.grams == doctest::Approx(1.0));
    const app::Sheet before = slip();
    laid = app::lay_stroke(before, hull_brush(220.0, 260.0, 0.0, 100.0), 1);
    CHECK(laid.line.find("beside the drum") != std::string::npos);
    CHECK(laid.sheet == before);
    auto heavy = hull_brush(0.0, 100.0, 0.0, 100.0);
    heavy.by_weight = true;
    heavy.grams = 40.0;
    laid = app::lay_stroke(before, heavy, 1);
    CHECK(laid.grams == doctest::Approx(30.0));
    CHECK_FALSE(laid.line.empty());
    for (const Laying& laying : sound(laid.sheet))
        CHECK_FALSE((laying.what == "hull" && std::holds_alternative<Rest>(laying.amount)));
    const auto none = app::lay_stroke(laid.sheet, heavy, 1);
    CHECK(none.line.find("take some off") != std::string::npos);
    CHECK(none.sheet == laid.sheet);
}

TEST_CASE("one colour of a braid is laid by itself and the rest of it stays whole") {
    auto brush = hull_brush(0.0, 50.0, 0.0, 100.0);
    brush.what = "rail";
    brush.colour = slip().recipe.components[1].palette[0].colour;
    brush.by_weight = true;
    brush.grams = 4.0;
    const auto laid = app::lay_stroke(slip(), brush, 1);
    sound(laid.sheet);
    const auto tiles = app::tiles_of(laid.sheet);
    CHECK(tiles[2].left == doctest::Approx(6.0));
    CHECK(tiles[3].left == doctest::Approx(10.0));
    CHECK(tiles[1].left == doctest::Approx(12.0));  // both alike: twice what the scarcer one bears
    brush.grams = 6.0;
    const auto all = app::lay_stroke(laid.sheet, brush, 1);
    sound(all.sheet);
    CHECK(app::tiles_of(all.sheet)[1].left == doctest::Approx(0.0));
    CHECK(app::tiles_of(all.sheet)[3].left == doctest::Approx(10.0));
}

TEST_CASE("the limit is told and the strokes there are stay") {
    app::Sheet sheet = slip();
    auto brush = hull_brush(0.0, 10.0, 0.0, 10.0);
    brush.by_weight = true;
    brush.grams = 0.1;
    auto& layings = sheet.recipe.carding.layings;
    while (layings.size() < recipe::most_layings) {
        Laying tiny = layings.front();
        tiny.what = "hull";
        tiny.colour.reset();
        tiny.amount = Mass{0.05, MassUnit::gram};
        tiny.across = {0.0, 1.0 + static_cast<double>(layings.size() % 7), LengthUnit::millimetre};
        layings.push_back(tiny);
    }
    const auto laid = app::lay_stroke(sheet, brush, 1);
    CHECK(laid.line.find("400 layings") != std::string::npos);
    CHECK(laid.sheet == sheet);
    sound(laid.sheet);
}

TEST_CASE("taking off, doubling, mirroring, spreading, clearing") {
    const auto first = app::lay_stroke(slip(), hull_brush(0.0, 50.0, 0.0, 100.0), 1);
    const auto which = first.layings;
    const auto off = app::take_off(first.sheet, which);
    CHECK(left_of(off.sheet, "hull") == doctest::Approx(30.0));
    CHECK(sound(off.sheet) == sound(slip()));
    const auto twice = app::double_layings(first.sheet, which);
    sound(twice.sheet);
    CHECK(left_of(twice.sheet, "hull") == doctest::Approx(28.0));
    REQUIRE(twice.layings.size() == 1);
    CHECK(twice.layings.front() == which.front() + 1);
    const auto mirrored = app::mirror_layings(first.sheet, which);
    CHECK(sound(mirrored.sheet)[which.front()].across == Stretch{150.0, 200.0, LengthUnit::millimetre});
    CHECK(app::mirror_layings(mirrored.sheet, {}).sheet == first.sheet);
    const auto spread = app::spread_evenly(first.sheet, which);
    const Laying& even = sound(spread.sheet)[which.front()];
    CHECK(even.across.is_whole());
    CHECK(even.round.is_whole());
    CHECK(recipe::way_of(even) == recipe::Way::drum);
    const auto cleared = app::clear_layings(first.sheet);
    CHECK(sound(cleared.sheet).size() == 2);
    CHECK(left_of(cleared.sheet, "rail") == doctest::Approx(20.0));
    CHECK_FALSE(app::take_off(cleared.sheet, {0}).line.empty());
}

TEST_CASE("a step's weight, place, way, pass and order are changed where it is read") {
    const auto first = app::lay_stroke(slip(), hull_brush(0.0, 50.0, 0.0, 100.0), 1);
    const auto which = first.layings;
    auto changed = app::set_laid_grams(first.sheet, which, 4.5, MassUnit::gram, 1);
    CHECK(app::laid_grams(changed.sheet, which, 1) == doctest::Approx(4.5));
    CHECK(left_of(changed.sheet, "hull") == doctest::Approx(25.5));
    changed = app::set_laid_grams(first.sheet, which, 99.0, MassUnit::gram, 1);
    CHECK(changed.line.find("30") != std::string::npos);
    sound(changed.sheet);
    changed = app::set_laid_across(first.sheet, which, *recipe::parse_across("left third"));
    CHECK(recipe::write_across(sound(changed.sheet)[which.front()].across) == "left third");
    changed = app::set_laid_across(first.sheet, which, {150.0, 400.0, LengthUnit::millimetre});
    CHECK(changed.line.find("Cut off") != std::string::npos);
    CHECK(sound(changed.sheet)[which.front()].across.to == 200.0);
    changed = app::set_laid_round(first.sheet, which, {600.0, 700.0, LengthUnit::millimetre});
    CHECK(changed.sheet == first.sheet);
    changed = app::set_laid_way(first.sheet, which, recipe::Way::tray);
    CHECK(sound(changed.sheet)[which.front()].round.is_whole());
    changed = app::set_laid_round(changed.sheet, which, {0.0, 50.0, {}});
    CHECK(recipe::way_of(sound(changed.sheet)[which.front()]) == recipe::Way::drum);
    changed = app::set_laid_pass(first.sheet, which, 7);
    CHECK(sound(changed.sheet)[which.front()].pass == 2);
    changed = app::set_laid_how(first.sheet, which, recipe::Spreading::wisps,
                                measure::Length{15.0, LengthUnit::millimetre});
    CHECK(sound(changed.sheet)[which.front()].how == recipe::Spreading::wisps);
    changed = app::move_layings(first.sheet, which, 0);
    CHECK(changed.layings == app::Layings{0});
    CHECK(sound(changed.sheet).front() == first.sheet.recipe.carding.layings[which.front()]);
    changed = app::move_layings(changed.sheet, {0}, 99);
    CHECK(sound(changed.sheet) == first.sheet.recipe.carding.layings);
}

TEST_CASE("a step's edges run out and lie over, no further than what they run along") {
    const auto laid = app::lay_stroke(slip(), hull_brush(0.0, 60.0, 0.0, 300.0), 1);
    const auto edge = [&](const app::Sheet& sheet) { return sound(sheet)[laid.layings.front()]; };
    auto faded = app::set_laid_edge(laid.sheet, laid.layings, &Laying::fade,
                                    recipe::Extent{12.0, LengthUnit::millimetre});
    CHECK(edge(faded.sheet).fade == recipe::Extent{12.0, LengthUnit::millimetre});
    CHECK_FALSE(edge(faded.sheet).overlap);
    // Both ways are bounded: the shorter is the drum's width, 200 mm.
    faded = app::set_laid_edge(faded.sheet, laid.layings, &Laying::overlap,
                               recipe::Extent{350.0, LengthUnit::millimetre});
    CHECK(edge(faded.sheet).overlap == recipe::Extent{200.0, LengthUnit::millimetre});
    faded = app::set_laid_edge(faded.sheet, laid.layings, &Laying::overlap, recipe::Extent{130.0, {}});
    CHECK(edge(faded.sheet).overlap == recipe::Extent{100.0, {}});
    faded = app::set_laid_edge(faded.sheet, laid.layings, &Laying::overlap, {});
    CHECK_FALSE(edge(faded.sheet).overlap);
    // Full width, it runs out round the drum, 560 mm; across again, no further than the width.
    auto round = app::set_laid_across(laid.sheet, laid.layings, {});
    round = app::set_laid_edge(round.sheet, laid.layings, &Laying::fade,
                               recipe::Extent{400.0, LengthUnit::millimetre});
    CHECK(edge(round.sheet).fade == recipe::Extent{400.0, LengthUnit::millimetre});
    round = app::set_laid_across(round.sheet, laid.layings, {0.0, 60.0, LengthUnit::millimetre});
    CHECK(edge(round.sheet).fade == recipe::Extent{200.0, LengthUnit::millimetre});
}

TEST_CASE("a stroke keeps to thirds and quarters, is moved and grown by keys, and reads in words") {
    const app::Surface surface = app::surface_of(slip().recipe);
    app::Brush brush = hull_brush(0.0, 50.0, 0.0, 100.0);
    brush.snap = app::Snap::thirds;
    brush = app::placed(brush, {10.0, 60.0, 200.0, 350.0}, surface);
    CHECK(recipe::write_across(brush.across) == "left third");
    CHECK(recipe::write_round(brush.round) == "second third");
    brush.snap = app::Snap::quarters;
    brush = app::placed(brush, {160.0, 190.0, 300.0, 560.0}, surface);
    CHECK(recipe::write_across(brush.across) == "right quarter");
    CHECK(recipe::write_round(brush.round) == "second half");
    brush = app::moved(brush, -1, 0, surface);
    CHECK(recipe::write_across(brush.across) == "50 % to 75 %");
    brush = app::grown(brush, 1, 2, surface);
    CHECK(recipe::write_across(brush.across) == "right half");
    CHECK(recipe::write_round(brush.round) == "all");
    brush.snap = app::Snap::none;
    brush.length_unit = LengthUnit::inch;
    brush = app::placed(brush, {9.0, 52.0, 0.0, 26.0}, surface);
    CHECK(recipe::write_across(brush.across) == "0.375 in to 2 in");
    CHECK(recipe::parse_across(recipe::write_across(brush.across)) == brush.across);
    for (int i = 0; i < 200; ++i) brush = app::moved(brush, 1, -1, surface);
    const auto region = app::region_of(brush, surface);
    CHECK(region.across_to <= 200.0);
    CHECK(region.along_from == 0.0);
}

TEST_CASE("a component taken out takes its strokes with it, and one undo brings both back") {
    app::Document document(recipe_of(two_wools));
    document.change(
        app::lay_stroke(app::as_list(document.sheet(), kinds()), hull_brush(0.0, 50.0, 0.0, 100.0), 1).sheet,
        "lay a stroke");
    const auto before = document.sheet().recipe;
    document.change(app::remove(document.sheet(), 0).sheet, "remove it");
    for (const Laying& laying : sound(document.sheet())) CHECK(laying.what != "hull");
    CHECK(document.undo());
    CHECK(document.sheet().recipe == before);
}

TEST_CASE("on a narrower drum the lay is scaled or cut off, as is chosen; a wider one asks nothing") {
    app::Sheet sheet = app::lay_stroke(slip(), hull_brush(40.0, 160.0, 0.0, 100.0), 1).sheet;
    sheet = app::lay_stroke(sheet, hull_brush(170.0, 200.0, 200.0, 500.0), 1).sheet;
    CHECK_FALSE(app::choose_carder(sheet, *recipe::find_carder("table-wide")).disagreement);
    const auto change = app::choose_carder(sheet, *recipe::find_carder("table-small"));
    REQUIRE(change.disagreement);
    CHECK(change.disagreement->what.find("200 mm across") != std::string::npos);
    CHECK(change.sheet == sheet);
    REQUIRE(change.disagreement->ways.size() == 2);
    const app::Sheet& scaled = change.disagreement->ways[0].sheet;
    const app::Sheet& cut = change.disagreement->ways[1].sheet;
    const std::size_t n = sound(scaled).size();
    CHECK(scaled.recipe.carding.layings[n - 2].across == Stretch{20.0, 80.0, LengthUnit::millimetre});
    CHECK(scaled.recipe.carding.layings[n - 1].across == Stretch{85.0, 100.0, LengthUnit::millimetre});
    // Half of the first stroke is off, and all of the second: it is back in the rest.
    CHECK(sound(cut).back().across == Stretch{40.0, 100.0, LengthUnit::millimetre});
    CHECK(weight_of(cut.recipe.carding.layings.back()) == doctest::Approx(1.2));
    CHECK(left_of(cut, "hull") == doctest::Approx(30.0 - 1.2));
}

TEST_CASE("a board has no tray and no seam; on hand cards what is laid has a place across only") {
    app::Sheet board = app::as_list(
        app::set_carder(app::sheet_of(recipe_of(two_wools)), *recipe::find_carder("blending-board")),
        kinds());
    app::Surface surface = app::surface_of(board.recipe);
    CHECK(surface.name == "board");
    CHECK_FALSE(surface.has_tray);
    auto laid = app::lay_stroke(board, hull_brush(100.0, 250.0, 200.0, 320.0), 1);
    CHECK(laid.line.find("300 mm long") != std::string::npos);
    const Laying& stroke = sound(laid.sheet)[laid.layings.front()];
    CHECK_FALSE(stroke.way);
    CHECK(stroke.round == Stretch{200.0, 300.0, LengthUnit::millimetre});
    CHECK(laid.grams == doctest::Approx(15.0 * 10.0 * 0.02));
    sound(app::spread_evenly(laid.sheet, laid.layings).sheet);
    sound(app::set_laid_way(laid.sheet, laid.layings, recipe::Way::tray).sheet);

    app::Sheet cards = app::as_list(
        app::set_carder(app::sheet_of(recipe_of(two_wools)), *recipe::find_carder("hand-cards")), kinds());
    laid = app::lay_stroke(cards, hull_brush(0.0, 100.0, 20.0, 60.0), 1);
    CHECK(sound(laid.sheet)[laid.layings.front()].round.is_whole());
    CHECK(laid.grams == doctest::Approx(10.0 * 11.0 * 0.02));
    CHECK_FALSE(app::set_laid_round(laid.sheet, laid.layings, {0.0, 50.0, {}}).line.empty());
    // From the drum to the cards: places along are gone with the drum.
    const auto drum = app::lay_stroke(slip(), hull_brush(0.0, 60.0, 0.0, 300.0), 1).sheet;
    const auto change = app::choose_carder(drum, *recipe::find_carder("hand-cards"));
    CHECK_FALSE(change.disagreement);
    sound(change.sheet);
}

TEST_CASE("a list that no longer closes is made to fit") {
    app::Sheet sheet = slip();
    auto brush = hull_brush(0.0, 100.0, 0.0, 280.0);
    brush.by_weight = true;
    brush.grams = 20.0;
    sheet = app::lay_stroke(sheet, brush, 1).sheet;
    sheet = app::set_laid_pass(sheet, {sheet.recipe.carding.layings.size() - 1}, 2).sheet;
    sheet.recipe.components[0].amount = Mass{10.0, MassUnit::gram};
    sheet.recipe.carding.passes = 1;
    REQUIRE_FALSE(recipe::check(sheet.recipe, kinds()));
    const auto fitted = app::made_to_fit(sheet);
    sound(fitted.sheet);
    CHECK(weight_of(fitted.sheet.recipe.carding.layings.back()) == doctest::Approx(10.0));
}

TEST_CASE("forty strokes of a tenth of a gram are told to be more than hands do") {
    app::Sheet sheet = slip();
    for (int i = 0; i < 40; ++i) {
        auto brush = hull_brush(5.0 * (i % 40), 5.0 * (i % 40) + 4.0, 14.0 * i, 14.0 * i + 10.0);
        brush.by_weight = true;
        brush.grams = 0.1;
        sheet = app::lay_stroke(sheet, brush, 1).sheet;
    }
    sound(sheet);
    forecast::Bench bench;
    bench.catalogue = &kinds();
    const auto made = forecast::forecast(sheet.recipe, bench);
    REQUIRE(made);
    CHECK(std::ranges::any_of(made->findings, [](const auto& finding) { return finding.code == "fiddly"; }));
    // They differ in their places alone, so they are one step.
    const auto steps = std::ranges::count_if(
        made->plan.steps, [](const carding::Step& step) { return step.layings.size() == 40; });
    CHECK(steps == 1);
}

TEST_CASE("strokes that differ in their places alone are one step in words, with each place") {
    app::Sheet sheet = app::lay_stroke(slip(), hull_brush(0.0, 50.0, 0.0, 140.0), 1).sheet;
    sheet = app::lay_stroke(sheet, hull_brush(100.0, 150.0, 280.0, 420.0), 1).sheet;
    forecast::Bench bench;
    bench.catalogue = &kinds();
    const auto made = forecast::forecast(sheet.recipe, bench);
    REQUIRE(made);
    const auto step =
        std::ranges::find_if(made->plan.steps, [](const carding::Step& s) { return s.layings.size() == 2; });
    REQUIRE(step != made->plan.steps.end());
    CHECK(step->grams == doctest::Approx(2.8));
    CHECK(
        step->text ==
        "Lay 2.8 g of hull straight onto the drum at 2 places, 1.4 g at each: from 0 mm to 50 mm across the "
        "drum, between 0 % and 25 % of the way round; from 100 mm to 150 mm across the drum, between 50 % "
        "and 75 % of the way round, counted from the seam, by hand, the drum turning slowly");
}

TEST_CASE("what lies on the surface is seen as it was laid: last on top, bare where nothing lies") {
    app::Sheet sheet = app::clear_layings(slip()).sheet;
    auto brush = hull_brush(0.0, 100.0, 0.0, 280.0);
    brush.by_weight = true;
    brush.grams = 30.0;
    sheet = app::lay_stroke(sheet, brush, 1).sheet;
    brush.what = "rail";
    brush.grams = 20.0;
    brush.round = {280.0, 560.0, LengthUnit::millimetre};
    sheet = app::lay_stroke(sheet, brush, 1).sheet;
    sound(sheet);
    forecast::Bench bench;
    bench.catalogue = &kinds();
    const auto made = forecast::forecast(sheet.recipe, bench);
    REQUIRE(made);
    const auto picture = app::laid_picture(*made, 1, {});
    REQUIRE(picture.scene);
    const auto bare = [&](double across, double along) {
        const auto row = static_cast<std::size_t>(across * static_cast<double>(picture.rows));
        const auto column = static_cast<std::size_t>(along * static_cast<double>(picture.columns));
        return picture.bare[row * picture.columns + column];
    };
    CHECK(bare(0.25, 0.25) < 0.05f);
    CHECK(bare(0.25, 0.75) < 0.05f);
    CHECK(bare(0.9, 0.25) > 0.95f);
    const auto without = app::laid_picture(*made, 1, {sheet.recipe.carding.layings.front()});
    CHECK(without.bare[picture.columns * 2 + 2] > 0.95f);
    // Hiding is for looking: the batt is the same.
    CHECK(sheet.recipe == made->recipe);
}

TEST_CASE("whatever is done in whatever order, the list closes, on every kind of tool") {
    std::mt19937 random(7);
    const auto any = [&](int high) { return static_cast<int>(random() % static_cast<unsigned>(high)); };
    app::Sheet sheet = slip();
    for (int i = 0; i < 900; ++i) {
        CAPTURE(i);
        if (i == 400) sheet = app::set_carder(slip(), *recipe::find_carder("blending-board"));
        if (i == 650) sheet = app::set_carder(slip(), *recipe::find_carder("hand-cards"));
        auto brush = hull_brush(10.0 * any(20), 10.0 * any(20) + 30.0, 10.0 * any(50), 10.0 * any(50) + 90.0);
        brush.what = any(2) == 0 ? "hull" : "rail";
        if (brush.what == "rail" && any(2) == 0)
            brush.colour = sheet.recipe.components[1].palette[static_cast<std::size_t>(any(2))].colour;
        brush.pass = 1 + any(2);
        brush.way = any(2) == 0 ? recipe::Way::drum : recipe::Way::tray;
        const std::size_t count = sheet.recipe.carding.layings.size();
        const app::Layings which{static_cast<std::size_t>(any(static_cast<int>(count))),
                                 static_cast<std::size_t>(any(static_cast<int>(count)))};
        const auto step = [&]() -> app::Laid {
            switch (any(11)) {
                case 0:
                    return app::take_off(sheet, which);
                case 1:
                    return app::double_layings(sheet, {which.front()});
                case 2:
                    return app::mirror_layings(sheet, which);
                case 3:
                    return app::spread_evenly(sheet, which);
                case 4:
                    return app::move_layings(sheet, which, static_cast<std::size_t>(any(9)));
                case 5:
                    return app::set_laid_grams(sheet, which, 0.3 * any(60), MassUnit::gram, 1);
                case 6:
                    return app::set_laid_pass(sheet, which, 1 + any(2));
                case 7:
                    return app::set_laid_way(sheet, which, brush.way);
                case 8:
                    return any(9) == 0 ? app::clear_layings(sheet) : app::Laid{sheet, ""};
                default:
                    return app::lay_stroke(sheet, brush, 1);
            }
        }();
        sound(step.sheet);
        sheet = step.sheet;
        app::Layings all(sheet.recipe.carding.layings.size());
        for (std::size_t k = 0; k < all.size(); ++k) all[k] = k;
        // What is typed is in hundredths; each of the two fibres closes within the slack a recipe allows.
        CHECK(std::abs(app::laid_grams(sheet, all, 1) - 50.0) <= 2.0 * recipe::closing_slack(25.0) + 1e-9);
    }
}

TEST_CASE("the tile of a small blend shows what is in it, through the blends it is made of") {
    const auto sheet = app::sheet_of(recipe_of(std::string(two_wools) + R"(
[[carding.blend]]
name = "half tide"
lay = [ { what = "hull", weight = "6 g" }, { what = "rail", weight = "2 g" } ]
[[carding.blend]]
name = "slack"
lay = [ { what = "half tide", weight = "4 g" }, { what = "rail", weight = "1 g" } ]
[[carding.lay]]
what = "hull"
[[carding.lay]]
what = "rail"
[[carding.lay]]
what = "half tide"
[[carding.lay]]
what = "slack"
)"));
    const auto tiles = app::tiles_of(sheet);
    REQUIRE(tiles.size() == 6);
    CHECK(tiles[4].parts == std::vector{6.0, 2.0});
    CHECK(tiles[5].parts == std::vector{3.0, 2.0});
}
