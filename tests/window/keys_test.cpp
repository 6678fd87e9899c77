// What the README tells to do, with the keys alone: no step points at anything.
#include <doctest/doctest.h>

#include "recipe/file.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Probe;
using script::Script;
using workplace::Place;

namespace {

recipe::Recipe keyed_recipe(const Probe& probe) {
    const auto recipe = recipe::read_text(probe.state.at("recipe"), "bench", fibre::Catalogue::builtin());
    return recipe ? *recipe : recipe::Recipe{};
}

// Tab opens a field with all of it chosen, so that typing replaces it.
Script& write_into(Script& script, const std::string& label, const std::string& text) {
    return script.tab_to(label).type(text).enter();
}

}  // namespace

TEST_CASE("Tab goes through every panel, there and back") {
    const Place place("tab-order");
    Script script;
    script.tab_to("Save").tab_to("weight 2").tab_to("feed").tab_to("comes out The yarn").tab_to("light Lamp");
    script.tab_to("weight 2", true).tab_to("batt name", true);
    const auto path = workplace::example("dawn-tide");
    // The first of all is the name of the batt; backwards from it comes the last of the strip: its edge,
    // which makes it higher or lower.
    script.key(GLFW_KEY_TAB, false, true).step([](const Probe& probe, script::Input&, int phase) {
        if (phase < 3) return false;
        CHECK(probe.state.at("focused") == "strip edge");
        return true;
    });
    workplace::run(place, script, {.recipe = path});
}

TEST_CASE("a batt from nothing, locked, saved, looked at as a card, without a mouse") {
    const Place place("keys-batt");
    Script script;
    script.control(GLFW_KEY_F).type("corriedale").enter();
    write_into(script, "weight 1", "30");
    script.control(GLFW_KEY_F).type("tussah").enter();
    write_into(script, "weight 2", "10");
    write_into(script, "batt name", "Slack Water");
    write_into(script, "total", "60");
    script.tab_to("lock 2").key(GLFW_KEY_SPACE).then([](const Probe& probe) {
        const auto recipe = keyed_recipe(probe);
        REQUIRE(recipe.components.size() == 2);
        CHECK(recipe.components[1].locked);
        CHECK(recipe.total->grams == 60.0);
    });
    script.control(GLFW_KEY_S).expect("files to save", "open");
    write_into(script, "folder", place.path.string());
    script.tab_to("files do").enter().expect("files to save", "shut").expect("unsaved", "no");
    script.then(
        [&place](const Probe& probe) { CHECK(probe.state.at("path").find(place.path.string()) == 0); });
    script.control(GLFW_KEY_P).expect("card", "open").tab_to("card done").enter().expect("card", "shut");
    script.control(GLFW_KEY_B).expect("find", "open").escape().expect("find", "shut");
    script.control(GLFW_KEY_R).expect("record", "open").escape().expect("record", "shut");
    script.control(GLFW_KEY_Z).then([](const Probe& probe) {
        CHECK_FALSE(keyed_recipe(probe).components[1].locked);
    });
    workplace::run(place, script);
}

TEST_CASE("a lot is put on the shelf and on the bench without a mouse") {
    const Place place("keys-shelf");
    Script script;
    script.tab_to("left The shelf").enter().tab_to("put on the shelf").enter();
    write_into(script, "new weight", "182");
    write_into(script, "lot name", "Kelp forest");
    script.tab_to("add kind").enter().type("corriedale").enter();
    script.tab_to("new lot do").enter().expect("lots", "1").expect("messages", "0");
    script.step([&script](const Probe& probe, script::Input&, int) {
        for (const auto& [label, box] : probe.boxes) {
            if (label.rfind("lot ", 0) != 0 || label.size() < 8) continue;
            script.tab_to(label).control(GLFW_KEY_ENTER).then([](const Probe& after) {
                const auto recipe = keyed_recipe(after);
                REQUIRE(recipe.components.size() == 1);
                CHECK(recipe.components[0].name == "Kelp forest");
            });
            return true;
        }
        FAIL_CHECK("no lot is drawn");
        return true;
    });
    workplace::run(place, script);
}

TEST_CASE("two that are held and disagree are named, and Enter takes the first way out") {
    const Place place("keys-disagree");
    Script script;
    write_into(script, "total", "60");
    script.tab_to("lock 2").key(GLFW_KEY_SPACE).tab_to("lock 3").key(GLFW_KEY_SPACE);
    write_into(script, "weight 1", "200");
    script.expect("disagreement", "yes").enter().expect("disagreement", "no");
    script.then([](const Probe& probe) {
        const auto recipe = keyed_recipe(probe);
        CHECK(std::get<measure::Mass>(recipe.components[0].amount).grams == 200.0);
        CHECK(recipe.total->grams > 200.0);
    });
    workplace::run(place, script, {.recipe = workplace::example("harbour-heather")});
}
