// What the README tells to do, with the keys alone: no step points at anything.
#include <doctest/doctest.h>

#include "recipe/file.hpp"
#include "window/shell/commands.hpp"
#include "window/shell/panels.hpp"
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

TEST_CASE("Tab comes to what is scrolled out of sight in a small window, and brings it into sight") {
    const Place place("tab-small");
    Script script;
    const auto in_sight = [](const Probe& probe) {
        const auto& box = probe.boxes.at(probe.state.at("focused"));
        CHECK(box.top >= 0.0f);
        CHECK(box.bottom <= 700.0f);
    };
    for (const char* label :
         {"refeed", "comes out The yarn", "yarn", "light Lamp", "strip large", "batt name"})
        script.tab_to(label).then(in_sight);
    for (const char* label : {"light Lamp", "comes out The batt", "weight 1"})
        script.tab_to(label, true).then(in_sight);
    workplace::run(place, script, {1024, 700, {}, workplace::example("dawn-tide"), 1.6});
}

TEST_CASE("every key of the page that opens a panel does, and Esc leaves it again") {
    const Place place("keys-panels");
    Script script;
    int opened = 0;
    for (const window::Shortcut& row : window::shortcuts_shown())
        for (const window::Panel& panel : window::panels()) {
            // How many variants there are goes by the same name as their panel.
            if (row.command != panel.command || panel.command == window::Command::variants) continue;
            script.key(row.key, true, row.shift).expect(panel.head.id, "open");
            script.escape().expect(panel.head.id, "shut");
            ++opened;
        }
    script.key(GLFW_KEY_F1).expect("help", "open").escape().expect("help", "shut");
    workplace::run(place, script, {.recipe = workplace::example("dawn-tide")});
    CHECK(opened >= 8);
}

TEST_CASE("a field that has the keys takes letters at once, and one that was refused is typed over") {
    const Place place("keys-letters");
    Script script;
    script.tab_to("weight 1").enter().then([](const Probe& probe) {
        CHECK(probe.state.at("focused") == "weight 1");
        CHECK(probe.state.at("typing") == "no");
    });
    script.type("25 g").enter().then([](const Probe& probe) {
        CHECK(std::get<measure::Mass>(keyed_recipe(probe).components[0].amount).grams == 25.0);
    });
    script.type("much").enter().then(
        [](const Probe& probe) { CHECK(probe.state.at("refused").find("much") != std::string::npos); });
    script.type("31 g").enter().then([](const Probe& probe) {
        CHECK(probe.state.at("refused").empty());
        CHECK(std::get<measure::Mass>(keyed_recipe(probe).components[0].amount).grams == 31.0);
    });
    workplace::run(place, script, {.recipe = workplace::example("dawn-tide")});
}

TEST_CASE("a border of the shares is moved with Left and Right, and the yarn's curve is come to by Tab") {
    const Place place("keys-border");
    const auto path = place.path / "two.toml";
    std::ofstream(path)
        << "format = 1\nname = \"Two\"\n[[component]]\nfibre = \"corriedale\"\nweight = \"30 g\"\n"
           "[[component]]\nfibre = \"polwarth\"\nweight = \"20 g\"\n";
    Script script;
    const auto first = [](const Probe& probe) {
        return std::get<measure::Mass>(keyed_recipe(probe).components[0].amount).grams;
    };
    double before = 0.0;
    script.tab_to("border 1").then([&](const Probe& probe) { before = first(probe); });
    script.key(GLFW_KEY_RIGHT).key(GLFW_KEY_RIGHT).key(GLFW_KEY_LEFT, false, true);
    script.then([&](const Probe& probe) {
        CHECK(first(probe) == doctest::Approx(before + 1.9));
        CHECK(probe.state.at("focused") == "border 1");
    });
    script.tab_to("comes out The yarn").enter().tab_to("yarn curve").key(GLFW_KEY_RIGHT);
    script.then([](const Probe& probe) { CHECK(probe.state.at("focused") == "yarn curve"); });
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
