// What no standard tells: how the pictures look. Each was looked at and found right; its brightness, contrast
// and grain are kept here, so that nobody changes a look without seeing it. Batts, yarns and fields are made
// up by hand, so that only the drawing is under test. A look changed on purpose: look at the picture, then
// put down the figures that the test prints.
#include <doctest/doctest.h>

#include <cmath>
#include <cstdio>
#include <numbers>

#include "looks.hpp"
#include "on_table.hpp"
#include "strip/simulated.hpp"
#include "strip/table.hpp"
#include "strip/yarn_picture.hpp"

namespace look_test {

using namespace battwright;
using looks::check;

namespace {

using batts::batt_named, batts::every_form, batts::lengthwise, batts::OnTable;

}  // namespace

TEST_CASE("the look of blended strips") {
    for (const batts::Batt& batt : batts::all())
        check("strip, " + batt.name, strip::draw(strip::scene_of(batts::Carded(batt).forecast, 3), 300, 120));
    check("strip, all sorts",
          strip::draw(strip::scene_of(batts::Carded(every_form()).forecast, 3), 300, 120));
}

TEST_CASE("the look of single kinds of fibre") {
    const batts::Batt sorts = every_form();
    for (std::size_t i = 0; i < sorts.portions.size(); ++i) {
        batts::Batt two{"one sort", {sorts.portions[i], sorts.portions[i]}};
        two.portions[0].share = two.portions[1].share = 0.5;
        two.portions[0].hex = "#b0b0b0";
        two.portions[1].hex = "#505050";
        check("sort " + std::to_string(i),
              strip::draw(strip::scene_of(batts::Carded(two).forecast, 3), 300, 120));
        for (batts::Portion& portion : two.portions) portion.staple_mm = 18.0;
        check("short sort " + std::to_string(i),
              strip::draw(strip::scene_of(batts::Carded(two).forecast, 3), 300, 120));
    }
}

TEST_CASE("the look of one pass, two and many") {
    const batts::Carded carded(batt_named("low tide"));
    for (const int passes : {1, 2, 4, 5, 6, 7})
        check("passes " + std::to_string(passes),
              strip::draw(strip::scene_of(carded.forecast, passes), 960, 80));
    const batts::Carded flags(batt_named("signal flags"));
    for (const int passes : {1, 2})
        check("flags, passes " + std::to_string(passes),
              strip::draw(strip::scene_of(flags.forecast, passes), 960, 80));
}

TEST_CASE("the look of the carded batt, torn and flat") {
    const OnTable table(batt_named("signal flags"));
    for (const auto view : {strip::View::edge, strip::View::face}) {
        const auto field = strip::simulated_field(table.carded.forecast, table.batt, table.last(), view);
        check(view == strip::View::edge ? "torn edge" : "face",
              strip::draw(strip::scene_of(table.carded.forecast, field, 2), 640, 160));
    }
    for (const auto pull : {lengthwise, carding::Pull::torn_across, carding::Pull::long_strip}) {
        const auto field = strip::pulled_field(table.carded.forecast, table.batt, table.last(), pull);
        check("pulled " + std::to_string(static_cast<int>(pull)),
              strip::draw(strip::scene_of(table.carded.forecast, field, 2), 640, 60));
    }
}

TEST_CASE("the look of yarn, from near and far") {
    OnTable table(every_form());
    for (const auto view : {strip::YarnView::single, strip::YarnView::plied, strip::YarnView::swatch})
        for (const double zoom : {0.2, 0.6, 1.0, 2.0, 12.0})
            check("yarn " + std::string(strip::word_for(view)) + " x" + std::to_string(zoom).substr(0, 4),
                  strip::draw(table.scene(view, {0.3, zoom}), 320, 120));
    for (const double diameter : {0.3, 1.7, 5.0}) {
        table.carded.forecast.yarn.diameter_mm = diameter;
        for (const auto view : {strip::YarnView::plied, strip::YarnView::swatch})
            check(
                "yarn " + std::string(strip::word_for(view)) + " of " + std::to_string(diameter).substr(0, 3),
                strip::draw(table.scene(view), 320, 120));
    }
}

TEST_CASE("the look of yarn, plied each way and of each preparation") {
    using yarn::Plying;
    OnTable table(batt_named("signal flags"));
    for (const auto plying : {Plying::plied, Plying::chain, Plying::barber_pole, Plying::with_thread})
        for (const int plies : {2, 3}) {
            // A chain is of three, a thread or a pole of two.
            if (plying == Plying::chain ? plies != 3 : plies == 3 && plying != Plying::plied) continue;
            table.plan_yarn(plying, plies);
            table.carded.forecast.recipe.spinning.thread.reset();
            if (plying == Plying::with_thread)
                table.carded.forecast.recipe.spinning.thread = recipe::Thread{60.0, 900.0, {}};
            check("plying " + std::to_string(static_cast<int>(plying)) + " of " + std::to_string(plies),
                  strip::draw(table.scene(strip::YarnView::plied), 320, 120));
            check("run of " + std::to_string(static_cast<int>(plying)) + " of " + std::to_string(plies),
                  strip::draw_with_run(table.scene(strip::YarnView::plied, {0.2, 1.0}), 320, 160, {1, 1, 1},
                                       {0, 0, 0}));
        }
    for (const auto preparation :
         {recipe::Preparation::woollen, recipe::Preparation::semi_woollen, recipe::Preparation::worsted}) {
        table.plan_yarn(Plying::plied, 1, preparation);
        check("preparation " + std::to_string(static_cast<int>(preparation)),
              strip::draw(table.scene(strip::YarnView::single), 320, 120));
    }
    // Hands that spin unevenly, fibre so short that a wave of the draft is seen, and fibre coarse as bristle.
    for (const double cv : {9.0, 15.0, 40.0}) {
        table.carded.forecast.yarn.evenness_limit_pct = cv;
        check("uneven " + std::to_string(static_cast<int>(cv)),
              strip::draw(table.scene(strip::YarnView::single), 640, 60));
    }
    table.carded.forecast.length.number_mean_mm = 5.0;
    table.carded.forecast.diameter.mean_um = 3.0;
    check("short and fine", strip::draw(table.scene(strip::YarnView::single), 640, 60));
}

TEST_CASE("the look of all that lies on the table") {
    OnTable table(batt_named("signal flags"));
    for (const auto& row : strip::table_views) {
        strip::TableSettings ask;
        ask.view = row.value;
        check("table " + std::string(row.word), table.table(ask).image);
        ask.zoom = 5.0;
        ask.middle_x = 0.4;
        ask.middle_y = 0.6;
        check("table near " + std::string(row.word), table.table(ask).image);
    }
    strip::TableSettings ask;
    ask.view = strip::TableView::edge;
    carding::Pass third = table.last();
    third.number = 3;
    table.batt.passes.push_back(third);
    ask.passes = {2, 3};
    check("table side by side", table.table(ask).image);
    CHECK(table.table(ask).labels.size() == 2);
}

TEST_CASE("what is made of the batt is of the weights and turns that hands know") {
    // Common practice, no source: 40 g make four rolags, a roving for spinning is a pencil's thickness (5 to
    // 7 mm is a pencil; roving is drafted from one to three) and a skein winder turns a metre and a half.
    OnTable table(batt_named("low tide"));
    strip::TableSettings ask;
    ask.view = strip::TableView::rolags;
    CHECK(table.table(ask).caption.starts_with("4 rolags of about 10 g, each "));
    ask.view = strip::TableView::skein;
    const std::string skein = table.table(ask).caption;
    CHECK(skein.find("turns of 1.5 m") != std::string::npos);
    // 120 m by a metre and a half are 80 turns.
    CHECK(skein.find("80 turns") != std::string::npos);
    // A loop of a chain is as long as a hand draws it: a foot to a foot and a half.
    table.plan_yarn(yarn::Plying::chain, 3);
    const auto chain = table.scene(strip::YarnView::plied);
    CHECK(chain.loop_px / chain.pixels_per_mm > 300.0);
    CHECK(chain.loop_px / chain.pixels_per_mm < 550.0);
    // All of the batt goes into the roving, whatever a metre of it weighs.
    ask.view = strip::TableView::roving;
    const std::string roving = table.table(ask).caption;
    double metres = 0.0, grams = 0.0;
    REQUIRE(std::sscanf(roving.c_str(), "roving drawn off through a diz, about %lf m at %lf g", &metres,
                        &grams) == 2);
    CHECK(metres * grams == doctest::Approx(40.0).epsilon(0.02).scale(0.0));
    // 40 g over 600 by 200 mm lie a few centimetres thick, and thinner the tighter they are rolled.
    ask.view = strip::TableView::edge;
    double thick = 0.0;
    const std::string edge = table.table(ask).caption;
    REQUIRE(std::sscanf(edge.c_str(), "torn edge, 4 strips of 600 mm, about %lf mm", &thick) == 1);
    CHECK(thick > 15.0);
    // A batt torn into more strips than are seen at once is told as it is, each strip as narrow as it is.
    table.carded.forecast.recipe.carding.strips = 24;
    const auto many = table.table(ask);
    CHECK(many.caption.starts_with("torn edge, the first "));
    CHECK(many.caption.find(" of 24 strips of 600 mm") != std::string::npos);
    CHECK(thick < 25.0);
}

}  // namespace look_test
