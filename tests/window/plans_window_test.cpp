// A sample first, a series in steps, and a drawn content label: jobs of the README, by keys alone and by
// mouse.
#include <doctest/doctest.h>

#include "forecast/sample.hpp"
#include "jobs.hpp"
#include "recipe/file.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Probe;
using script::Script;
using workplace::Place;
namespace fs = std::filesystem;

namespace {

recipe::Recipe planned_recipe(const Probe& probe) {
    const auto recipe = recipe::read_text(probe.state.at("recipe"), "bench", fibre::Catalogue::builtin());
    REQUIRE(recipe);
    return *recipe;
}

Script& plans_settle(Script& script) {
    return ::jobs::until(script, "plans settled");
}

void plans_picture(Script& script, const std::string& name) {
    workplace::picture(script, "BATTWRIGHT_JOB_PICTURES", name);
}

// Nothing hangs out of the window sideways.
void plans_fit(Script& script, float width) {
    script.then([width](const Probe& probe) {
        for (const auto& [label, box] : probe.boxes) {
            CAPTURE(label);
            CHECK(box.left >= -0.5f);
            CHECK(box.right <= width + 0.5f);
        }
    });
}

}  // namespace

TEST_CASE("a sample weighs what the command's does, and comes to the bench as a recipe of its own, by keys") {
    const auto path = workplace::example("kelp-and-brass");
    const auto recipe = recipe::read_file(path, fibre::Catalogue::builtin());
    REQUIRE(recipe);
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    const auto wanted = forecast::sample_of(*forecast::forecast(*recipe, bench), bench);
    REQUIRE(wanted);
    const Place place("plans-sample");
    Script script;
    script.expect("complaint", "").control(GLFW_KEY_M).expect("plans", "open");
    plans_settle(script).then([&](const Probe& probe) {
        CHECK(probe.state.at("sample grams") == measure::write_number(wanted->grams));
        CHECK(probe.state.at("series batts") == "none");
    });
    plans_picture(script, "plans-sample");
    plans_fit(script, 1280.0f);
    script.tab_to("sample bench")
        .enter()
        .expect("plans", "shut")
        .expect("path", "")
        .then([&](const Probe& probe) {
            const auto sample = planned_recipe(probe);
            CHECK(sample.name == wanted->recipe.name);
            CHECK(sample.components.size() == recipe->components.size());
            CHECK(probe.state.at("total grams") == measure::write_number(wanted->grams));
        });
    workplace::run(place, script, {.recipe = path});
}

TEST_CASE("a series is begun, set and weighed out by keys alone, and undone") {
    const Place place("plans-series", "guide_seen = true\nweights = \"oz\"\nlengths = \"in\"\n");
    Script script;
    script.expect("complaint", "").control(GLFW_KEY_M).expect("plans", "open");
    plans_settle(script);
    script.tab_to("plans page A series in steps").enter().tab_to("series begin").enter();
    plans_settle(script).expect("series batts", "6").then([](const Probe& probe) {
        const auto recipe = planned_recipe(probe);
        REQUIRE(recipe.series);
        CHECK(recipe.series->each.unit == measure::MassUnit::ounce);
        CHECK(recipe.series->each.grams == doctest::Approx(0.5 * 28.349523125));  // avoirdupois, exact
    });
    script.tab_to("series each").type("1").enter();
    script.tab_to("series share 1").type("25").enter();
    script.tab_to("series steps by eye").enter();
    plans_settle(script).then([](const Probe& probe) {
        const auto recipe = planned_recipe(probe);
        REQUIRE(recipe.series);
        CHECK(recipe.series->each.grams == doctest::Approx(28.349523125));
        CHECK(recipe.series->by_eye);
        REQUIRE(recipe.series->to.size() == 2);
        CHECK(recipe.series->to[0].share_pct == 25.0);
        CHECK(recipe.series->to[1].share_pct == 75.0);
        CHECK(probe.boxes.contains("series table"));
    });
    plans_picture(script, "plans-series");
    plans_fit(script, 1280.0f);
    script.tab_to("series count more").enter();
    plans_settle(script).expect("series batts", "7");
    script.escape().expect("plans", "shut").control(GLFW_KEY_Z).then([](const Probe& probe) {
        CHECK(planned_recipe(probe).series->count == 6);
    });
    workplace::run(place, script, {.recipe = workplace::example("kelp-and-brass")});
}

TEST_CASE("the same by mouse in a small dark window") {
    const Place place("plans-mouse");
    Script script;
    script.expect("complaint", "").click("plans").expect("plans", "open");
    plans_settle(script);
    plans_picture(script, "plans-sample-small");
    plans_fit(script, 1024.0f);
    script.click("plans page A series in steps").click("series begin");
    plans_settle(script).expect("series batts", "6");
    script.click("series of rolags");
    plans_settle(script);
    plans_picture(script, "plans-series-small");
    plans_fit(script, 1024.0f);
    script.click("series drop");
    plans_settle(script).expect("series batts", "none").click("plans done").expect("plans", "shut");
    workplace::run(place, script, {1024, 700, window::Shade::dark, workplace::example("dawn-tide")});
}

TEST_CASE("a content label is chosen, drawn and written by keys alone") {
    const Place place("plans-label");
    Script script;
    script.expect("complaint", "").control(GLFW_KEY_P).expect("card", "open");
    script.tab_to("card kind content label").enter();
    script.tab_to("card file").type((place.path / "label.pdf").string()).enter();
    ::jobs::until(script, "card settled");
    script.tab_to("card write").enter();
    ::jobs::until(script, "card settled");
    script.expect("card failed", "").escape().expect("card", "shut");
    workplace::run(place, script, {.recipe = workplace::example("kelp-and-brass")});
}
