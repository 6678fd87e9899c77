// The yarn picture: its colours against the batt's own, its order against the way the batt is spun.
#include "strip/yarn_picture.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "colour/reflectance.hpp"
#include "examples.hpp"
#include "strip/simulated.hpp"

using namespace battwright;
using strip::YarnView;

namespace {

constexpr YarnView views[] = {YarnView::single, YarnView::plied, YarnView::swatch};
constexpr auto lengthwise = carding::Pull::torn_lengthwise;

strip::YarnScene scene_of(const examples::Made& made, YarnView view, const strip::YarnFrame& frame = {},
                          carding::Pull pull = lengthwise) {
    return strip::yarn_scene(made.forecast, made.batt, made.last(), pull, view, frame);
}

double apart(const colour::Srgb& first, const colour::Srgb& second) {
    return colour::ciede2000(colour::lab(first), colour::lab(second));
}

// Night water, slack water, first light: side by side across the drum, carded once, torn into eight.
recipe::Recipe gradient(recipe::Plying plying, int plies = 2) {
    recipe::Recipe recipe = examples::recipe_of(examples::folder() / "dawn-tide.toml");
    recipe.spinning.plying = plying;
    recipe.spinning.plies = plies;
    recipe.spinning.thread.reset();
    return recipe;
}
const colour::Srgb night = colour::parse_hex("#22324f").value();
const colour::Srgb light = colour::parse_hex("#e4a77a").value();

}  // namespace

TEST_CASE("the yarn picture's mean colour is that of the stretch it shows, within 1.5 CIEDE2000") {
    for (const auto& path : examples::all()) {
        const auto made = examples::made(examples::recipe_of(path));
        for (const YarnView view : views) {
            for (const double from : {0.0, 0.45}) {
                CAPTURE(path.filename().string());
                CAPTURE(strip::word_for(view));
                CAPTURE(from);
                const auto scene = scene_of(made, view, {from, 1.0});
                const auto mean = colour::encoded(strip::mean_colour(strip::draw(scene, 960, 160)));
                CHECK(apart(mean, colour::encoded(strip::on_show(scene, 960, 160).colour)) < 1.5);
            }
        }
    }
}

TEST_CASE("carded well, the whole of the yarn is on average the forecast's colour") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "harbour-heather.toml"));
    for (const auto pull : {carding::Pull::torn_lengthwise, carding::Pull::torn_across}) {
        const auto run = strip::run_of(scene_of(made, YarnView::single, {}, pull), 400);
        REQUIRE(run.size() == 1);
        colour::LinearRgb mean;
        for (const auto& colour : run.front()) {
            const auto seen = colour::linear(colour);
            mean = {mean.r + seen.r / 400.0, mean.g + seen.g / 400.0, mean.b + seen.b / 400.0};
        }
        CHECK(apart(colour::encoded(mean), made.forecast.colour.srgb) < 1.0);
    }
}

TEST_CASE("a step's colour is the blend of its section by the forecast's optics, under its light") {
    auto made = examples::made(examples::recipe_of(examples::folder() / "kelp-and-brass.toml"), true);
    made.forecast.optics.optics = colour::Optics::kubelka_munk;
    const auto scene = scene_of(made, YarnView::single);
    const auto field = strip::pulled_field(made.forecast, made.batt, made.last(), lengthwise);
    const auto strands = static_cast<std::size_t>(field.strands);
    REQUIRE(scene.blends.size() == static_cast<std::size_t>(field.columns));
    for (std::size_t step = 0; step < scene.blends.size(); step += 7) {
        std::vector<colour::Portion> portions;
        for (std::size_t i = 0; i < strands; ++i)
            portions.push_back(
                {field.shares[step * strands + i], colour::reflectance_of(made.forecast.strands[i].colour)});
        const auto seen = forecast::seen(colour::blend(portions, made.forecast.optics), made.forecast.light);
        CHECK(scene.blends[step].r == doctest::Approx(seen.r).epsilon(1e-6));
        CHECK(scene.blends[step].g == doctest::Approx(seen.g).epsilon(1e-6));
        CHECK(scene.blends[step].b == doctest::Approx(seen.b).epsilon(1e-6));
    }
}

TEST_CASE("the fibres of a step average to its blend, lumps and film with their own colours") {
    for (const char* name : {"gull-speckle", "phosphor-wake", "low-tide-scraps", "kelp-and-brass"}) {
        CAPTURE(name);
        const auto made =
            examples::made(examples::recipe_of(examples::folder() / (std::string(name) + ".toml")), true);
        const auto scene = scene_of(made, YarnView::single);
        const auto field = strip::pulled_field(made.forecast, made.batt, made.last(), lengthwise);
        const auto strands = static_cast<std::size_t>(field.strands);
        for (std::size_t step = 0; step < scene.blends.size(); step += 5) {
            colour::LinearRgb mean;
            for (std::size_t i = 0; i < strands; ++i) {
                const float* row = scene.fibres.data() + 4 * (step * strands + i);
                const double share = field.shares[step * strands + i];
                mean = {mean.r + share * row[0], mean.g + share * row[1], mean.b + share * row[2]};
            }
            CHECK(apart(colour::encoded(mean), colour::encoded(scene.blends[step])) < 0.3);
        }
    }
}

TEST_CASE("one ply keeps the order of the gradient; torn across it comes mixed") {
    const auto made = examples::made(gradient(recipe::Plying::plied, 1));
    const auto run = strip::run_of(scene_of(made, YarnView::plied), 100);
    REQUIRE(run.size() == 1);
    CHECK(apart(run[0].front(), night) < 8.0);
    CHECK(apart(run[0].back(), light) < 8.0);
    // Each of the strips of a batt torn across runs through all the colours.
    const auto across = strip::run_of(scene_of(made, YarnView::plied, {}, carding::Pull::torn_across), 400);
    int returns = 0;
    for (std::size_t i = 1; i < 400; ++i)
        returns += apart(across[0][i - 1], light) < 10.0 && apart(across[0][i], light) >= 10.0 ? 1 : 0;
    CHECK(returns >= made.forecast.recipe.carding.strips - 1);
}

TEST_CASE("two plies meet from the two ends of one ball") {
    const auto run =
        strip::run_of(scene_of(examples::made(gradient(recipe::Plying::plied, 2)), YarnView::plied), 100);
    REQUIRE(run.size() == 2);
    CHECK(apart(run[0].front(), night) < 8.0);
    CHECK(apart(run[1].front(), light) < 8.0);
    // At the end both stand in the middle of the ball, but for the step from one strip to the next.
    CHECK(apart(run[0].back(), run[1].back()) < 15.0);
    CHECK(apart(run[0].front(), run[1].front()) > 40.0);
}

TEST_CASE("three and more plies are equal lengths of the single, one after another") {
    for (const int plies : {3, 4, 12}) {
        CAPTURE(plies);
        const auto made = examples::made(gradient(recipe::Plying::plied, plies));
        const auto run = strip::run_of(scene_of(made, YarnView::plied), 50);
        const auto whole =
            strip::run_of(scene_of(made, YarnView::single), static_cast<std::size_t>(50 * plies));
        REQUIRE(run.size() == static_cast<std::size_t>(plies));
        for (std::size_t ply = 0; ply < run.size(); ++ply)
            for (std::size_t i = 0; i < 50; i += 7) CHECK(apart(run[ply][i], whole[0][ply * 50 + i]) < 0.5);
    }
}

TEST_CASE("a chain keeps the single's order, all three plies of one stretch") {
    const auto made = examples::made(gradient(recipe::Plying::chain));
    const auto run = strip::run_of(scene_of(made, YarnView::plied), 100);
    const auto single = strip::run_of(scene_of(made, YarnView::single), 100);
    REQUIRE(run.size() == 3);
    for (std::size_t i = 0; i < 100; ++i)
        for (const auto& ply : run) CHECK(apart(ply[i], single[0][i]) < 9.0);  // hands stray a little
    // Begun elsewhere, the same yarn.
    const auto later = strip::run_of(scene_of(made, YarnView::plied, {0.6, 1.0}), 100);
    for (std::size_t i = 0; i < 100; i += 9) CHECK(apart(later[0][i], run[0][i]) < 0.5);
}

TEST_CASE("a barber pole's two plies come from the two halves of the batt") {
    auto made = examples::made(gradient(recipe::Plying::barber_pole));
    // Left of the middle all of it one portion, right of it all another.
    carding::Pass pass = made.last();
    carding::Field& field = pass.field;
    const std::size_t plane = field.grid.round;
    for (std::size_t p = 0; p < field.portions; ++p) {
        auto block = field.block(p);
        for (std::size_t cell = 0; cell < block.size(); ++cell) {
            const bool left = cell / plane % field.grid.across < field.grid.across / 2;
            block[cell] = p == (left ? 0u : 2u) ? 1.0 : 0.0;
        }
    }
    for (const auto pull : {carding::Pull::long_strip, lengthwise, carding::Pull::torn_across}) {
        const auto scene = strip::yarn_scene(made.forecast, made.batt, pass, pull, YarnView::plied);
        const auto run = strip::run_of(scene, 60);
        REQUIRE(run.size() == 2);
        for (std::size_t i = 0; i < 60; ++i) {
            CHECK(apart(run[0][i], made.forecast.components[0].srgb) < 0.5);
            CHECK(apart(run[1][i], made.forecast.components[2].srgb) < 0.5);
        }
    }
}

TEST_CASE("a thread runs along in its own colour, undyed when none is told") {
    auto recipe = gradient(recipe::Plying::with_thread);
    const auto red = colour::parse_hex("#b02020").value();
    recipe.spinning.thread = recipe::Thread{40.0, 900.0, red};
    const auto run = strip::run_of(scene_of(examples::made(recipe), YarnView::plied), 40);
    REQUIRE(run.size() == 2);
    for (const auto& colour : run[1]) CHECK(apart(colour, red) < 0.1);
    CHECK(apart(run[0].front(), night) < 8.0);
    CHECK(apart(run[0].back(), light) < 8.0);
    recipe.spinning.thread->colour.reset();
    const auto undyed = strip::run_of(scene_of(examples::made(recipe), YarnView::plied), 4)[1][0];
    const auto lab = colour::lab(undyed);
    CHECK(lab.l > 85.0);
    CHECK(std::hypot(lab.a, lab.b) < 15.0);
}

TEST_CASE("the yarn picture does not depend on the number of threads, and is the same every time") {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "gull-speckle.toml"), true);
    for (const YarnView view : views) {
        const auto scene = scene_of(made, view), again = scene_of(made, view);
        const auto one = strip::draw(scene, 333, 71, 1);
        CHECK(one.rgb == strip::draw(again, 333, 71, 3).rgb);
        CHECK(one.rgb == strip::draw(again, 333, 71, 100).rgb);
    }
}

TEST_CASE("what cannot be spun, or is nothing, says so") {
    auto made = examples::made(examples::recipe_of(examples::folder() / "harbour-heather.toml"), true);
    made.forecast.yarn.spinnable = false;
    const auto fine = scene_of(made, YarnView::plied);
    CHECK(fine.ply_count == 2);
    CHECK(strip::caption(fine, 400, 100).find("too fine to spin") != std::string::npos);
    made.forecast.yarn = {};
    for (const YarnView view : views) {
        const auto none = scene_of(made, view);
        CHECK(none.ply_count == 0);
        CHECK(strip::draw(none, 100, 20).rgb.empty());
        CHECK(strip::on_show(none, 100, 20).metres == 0.0);
        CHECK(strip::run_of(none, 10).empty());
        CHECK(strip::caption(none, 100, 20).rfind("no yarn to show", 0) == 0);
    }
}

TEST_CASE("thick, fine, short and many-plied yarn is drawn in the colour of its stretch") {
    const auto base = examples::recipe_of(examples::folder() / "harbour-heather.toml");
    for (const double wpi : {2.0, 12.0, 120.0}) {
        for (const int plies : {1, 5, 12}) {
            recipe::Recipe recipe = base;
            recipe.components.resize(1);
            recipe.components[0].amount = measure::Mass{3.0};
            recipe.total.reset();
            recipe.spinning.thickness.value = wpi;
            recipe.spinning.plies = plies;
            const auto made = examples::made(recipe, true);
            for (const YarnView view : views) {
                CAPTURE(wpi);
                CAPTURE(plies);
                CAPTURE(strip::word_for(view));
                const auto scene = scene_of(made, view, {1.0, 2.0});
                const auto image = strip::draw(scene, 400, 120);
                REQUIRE(image.rgb.size() == 3u * 400u * 120u);
                CHECK(apart(colour::encoded(strip::mean_colour(image)), made.forecast.colour.srgb) < 1.5);
            }
        }
    }
}
