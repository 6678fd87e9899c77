// The strip's views of the yarn in the real window, and as the worker makes them.
#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <memory>

#include "../strip/examples.hpp"
#include "app/bench/carding_worker.hpp"
#include "display.hpp"
#include "script.hpp"

using namespace battwright;
using app::StripView;
using script::Probe;
using script::Script;
namespace fs = std::filesystem;

namespace {

void run(Script& script, const fs::path& recipe) {
    REQUIRE(display::ensure_display());
    const fs::path folder =
        fs::temp_directory_path() / ("battwright-yarn-view-" + std::to_string(::getpid()));
    fs::create_directories(folder / "config");
    std::ofstream(folder / "config" / "window.toml") << "guide_seen = true\n";
    window::Options options;
    options.catalogue = &fibre::Catalogue::builtin();
    options.width = 1280;
    options.height = 800;
    options.scale = 1.0;
    options.config_folder = folder / "config";
    options.state_folder = folder / "state";
    options.recipe = recipe;
    options.driver = script.driver();
    CHECK(window::run(options) == 0);
    CHECK(script.finished());
    fs::remove_all(folder);
}

std::shared_ptr<const forecast::Forecast> dawn_tide() {
    const auto made = examples::made(examples::recipe_of(examples::folder() / "dawn-tide.toml"), true);
    return std::make_shared<const forecast::Forecast>(made.forecast);
}

}  // namespace

TEST_CASE("the worker's yarn is the direct call's, view by view and pull by pull") {
    const auto forecast = dawn_tide();
    const std::pair<StripView, strip::YarnView> views[] = {{StripView::single, strip::YarnView::single},
                                                           {StripView::plied, strip::YarnView::plied},
                                                           {StripView::swatch, strip::YarnView::swatch}};
    for (const auto& [view, yarn_view] : views) {
        for (const auto pull :
             {carding::Pull::long_strip, carding::Pull::torn_lengthwise, carding::Pull::torn_across}) {
            const strip::YarnFrame frame{0.25, 1.5};
            const auto made = app::carded({forecast, 1, 1, view, pull, frame}, false);
            const auto direct = strip::carded_yarn_scene(*forecast, 1, pull, yarn_view, frame);
            CHECK(made.view == view);
            CHECK(made.yarn.plies == direct.plies);
            CHECK(made.yarn.fibres == direct.fibres);
            CHECK(made.yarn.picks == direct.picks);
            CHECK(made.yarn.from_m == direct.from_m);
            CHECK(made.scene.strand_count == 0);
        }
    }
}

TEST_CASE("a wish for the batt is the same wish whichever way it is pulled off; for the yarn it is not") {
    app::CardingRequest first{nullptr, 3, 2, StripView::edge};
    app::CardingRequest second = first;
    second.pull = carding::Pull::torn_across;
    second.frame.from = 0.5;
    CHECK(first.same_as(second));
    first.view = second.view = StripView::swatch;
    CHECK_FALSE(first.same_as(second));
    second.pull = first.pull;
    CHECK_FALSE(first.same_as(second));
    second.frame = first.frame;
    CHECK(first.same_as(second));
}

TEST_CASE("in the window the yarn is seen by view, pull and place, and nothing is written") {
    Script script;
    std::string start;
    script.click("view single").expect("view", "single").then([&](const Probe& probe) {
        start = probe.state.at("caption");
        CHECK(start.find("single from the start of the batt") != std::string::npos);
        CHECK(probe.boxes.count("pull torn across") == 1);
        CHECK(probe.boxes.count("strip caption") == 1);
    });
    // A press in the middle of the run shows the yarn from its middle on.
    script.click("along the yarn").then([&](const Probe& probe) {
        CHECK(probe.state.at("caption").find("from 50 % of the way along") != std::string::npos);
    });
    script.click("view swatch").expect("view", "knitted swatch").then([&](const Probe& probe) {
        CHECK(probe.state.at("caption").find("stocking stitch") != std::string::npos);
    });
    script.click("seen across the room")
        .click("pull torn across")
        .click("view plied")
        .expect("view", "plied yarn")
        .then([&](const Probe& probe) {
            CHECK(probe.state.at("caption").find("plied yarn") != std::string::npos);
        });
    script.click("view torn edge").expect("view", "torn edge").expect("caption", "").expect("unsaved", "no");
    run(script, examples::folder() / "dawn-tide.toml");
}

TEST_CASE("a recipe of more passes than four can be seen after each of them") {
    recipe::Recipe recipe = examples::recipe_of(examples::folder() / "harbour-heather.toml");
    recipe.carding.passes = 6;
    const fs::path file =
        fs::temp_directory_path() / ("battwright-six-" + std::to_string(::getpid()) + ".toml");
    std::ofstream(file) << recipe::write_text(recipe);
    Script script;
    script.expect("pass shown", "6").click("after fewer").expect("pass shown", "5");
    script.click("after more").expect("pass shown", "6").expect("unsaved", "no");
    run(script, file);
    fs::remove(file);
}
