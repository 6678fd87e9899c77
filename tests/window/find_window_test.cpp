// The card that looks for blends, under a display, driven by its own labels.
#include <doctest/doctest.h>

#include "harbour.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Probe;
using script::Script;
using workplace::Place;
namespace fs = std::filesystem;

namespace {

// Waits until what is on show answers what is asked.
Script& found(Script& script) {
    return script.step([](const Probe& probe, script::Input& input, int phase) {
        if (phase > 12000) {
            FAIL_CHECK("the search does not settle");
            input.quit = true;
        }
        const auto state = probe.state.find("find settled");
        const bool settled = phase > 5 && state != probe.state.end() && state->second == "yes";
        return settled || Script::wait(input);
    });
}

void add(stash::Stash& shelf, const char* name, const char* kind, double grams, const char* colour) {
    stash::Lot lot;
    lot.name = name;
    lot.content = {{kind, 100.0}};
    lot.palette = {{colour::parse_hex(colour).value(), 100.0}};
    shelf.add(lot, grams).value();
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

void check_inside(const Probe& probe, float width, float height) {
    for (const auto& [label, box] : probe.boxes) {
        if (label.starts_with("bound") || label.starts_with("find lot") || label.starts_with("take blend") ||
            label.starts_with("blend"))
            continue;  // these scroll
        CAPTURE(label);
        CHECK(box.left >= 0.0f);
        CHECK(box.right <= width);
        CHECK(box.bottom > box.top);
    }
    CHECK(probe.boxes.at("find done").bottom <= height - 20.0f);
}

}  // namespace

TEST_CASE("three scraps become a batt on the bench, and undo takes it off again") {
    const Place folder("find-scraps");
    {
        auto shelf = stash::Stash::open(folder.stash()).value();
        add(shelf, "Kelp end", "corriedale", 8.0, "#5d6a32");
        add(shelf, "Signal red", "merino-fine", 6.0, "#c1272d");
        add(shelf, "Gutter silk", "tussah-silk", 4.0, "#d7b26b");
    }
    Script script;
    script.expect("undo steps", "0").click("Find").expect("find", "open");
    found(script).expect("find lots", "3").expect("find complaint", "");
    script.then([](const Probe& probe) { check_inside(probe, 1280.0f, 800.0f); });
    script.click("take blend 1").expect("find", "shut").expect("total grams", "18").expect("undo steps", "1");
    script.then([](const Probe& probe) {
        const std::string& recipe = probe.state.at("recipe");
        CHECK(count_of(recipe, "[[component]]") == 3);
        CHECK(count_of(recipe, "lot = ") == 3);
        CHECK(recipe.find("Kelp end") != std::string::npos);
    });
    script.control(GLFW_KEY_Z).expect("undo steps", "0").then([](const Probe& probe) {
        CHECK(probe.state.at("recipe").find("Kelp end") == std::string::npos);
    });
    workplace::run(folder, script);
}

TEST_CASE("a colour is matched, bounds are added, a conflict is told and mended") {
    const Place folder("find-match");
    harbour::fill(folder.stash());
    Script script;
    script.click("Find");
    found(script);
    workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1280-light-scraps");
    script.click("use up nothing").click("find colour this one").click("find target");
    script.fill("hex", "#ff00ff");  // no bag of the harbour is that loud
    workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1280-light-picker");
    script.escape().expect("find", "open");
    found(script).then([](const Probe& probe) { CHECK(std::stod(probe.state.at("find reach")) > 10.0); });
    workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1280-light-out-of-reach");
    script.click("find target").fill("hex", "#6f7a5a");
    script.escape().fill("find total", "100 g");
    found(script).expect("find complaint", "").then([](const Probe& probe) {
        CHECK(std::stoi(probe.state.at("find blends")) >= 1);
        CHECK(std::stod(probe.state.at("find reach")) < 0.5);
        check_inside(probe, 1280.0f, 800.0f);
    });
    workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1280-light-match");
    script.click("add bound").fill("bound 1 least", "80");
    script.click("add bound").fill("bound 2 least", "30");
    found(script).then([](const Probe& probe) {
        CHECK(probe.state.at("find blends") == "0");
        CHECK(probe.state.at("find conflict").find("cannot hold together") != std::string::npos);
    });
    workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1280-light-conflict");
    script.click("least change");
    found(script).expect("find conflict", "").then([](const Probe& probe) {
        CHECK(std::stoi(probe.state.at("find blends")) >= 1);
    });
    script.fill("bound 2 least", "lots");
    found(script).then([](const Probe& probe) {
        CHECK(probe.state.at("find complaint").find("bound 2") != std::string::npos);
    });
    script.click("bound 2 drop").fill("find words", "silk");
    found(script).then([](const Probe& probe) { CHECK(probe.state.at("find complaint").empty()); });
    script.escape().expect("find", "shut").expect("undo steps", "0");
    workplace::run(folder, script);
}

TEST_CASE("the batt's own fibres, and a gradient in the dark") {
    const Place folder("find-batt");
    Script script;
    script.control(GLFW_KEY_B).expect("find", "open");
    found(script).then([](const Probe& probe) {
        // No shelf: the batt's own six lots are offered.
        CHECK(probe.boxes.contains("find lot 6"));
        CHECK(std::stoi(probe.state.at("find blends")) >= 1);
    });
    script.click("use up nothing").click("find colour from, to").click("find far end").click("take colour 2");
    script.escape().fill("find total", "6 g");
    found(script).then([](const Probe& probe) {
        const bool told = probe.state.at("find blends") == "4" || !probe.state.at("find conflict").empty();
        CHECK(told);
    });
    workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1280-dark-gradient");
    script.click("take blend 2").expect("undo steps", "1").then([](const Probe& probe) {
        CHECK(std::stod(probe.state.at("total grams")) == doctest::Approx(6.0));
    });
    workplace::Look look;
    look.shade = window::Shade::dark;
    look.recipe = workplace::example("low-tide-scraps");
    workplace::run(folder, script, look);
}

TEST_CASE("a long shelf is looked through before it is searched, prices and all") {
    const Place folder("find-long");
    {
        auto shelf = stash::Stash::open(folder.stash()).value();
        const auto filled = shelf.all_or_nothing([&]() -> stash::Expected<void> {
            for (std::size_t i = 0; i < 450; ++i) {
                const auto& bag = harbour::bags()[i % 30];
                if (auto added = shelf.add(harbour::lot_of(bag), bag.grams); !added)
                    return tl::make_unexpected(added.error());
            }
            return {};
        });
        REQUIRE(filled);
    }
    Script script;
    script.click("Find").step(
        [](const Probe& probe, script::Input&, int) { return probe.boxes.contains("use up nothing"); });
    script.click("use up nothing").click("find colour this one").fill("find total", "60 g");
    // All lots cost 0.09 a gram: what has no price would not be used at all.
    script.fill("find cost", "5.40");
    found(script).expect("find complaint", "").then([](const Probe& probe) {
        CHECK(std::stoi(probe.state.at("find blends")) >= 1);
    });
    script.fill("find cost", "5");
    found(script).then([](const Probe& probe) { CHECK_FALSE(probe.state.at("find conflict").empty()); });
    script.escape().expect("find", "shut");
    workplace::run(folder, script,
                   {1920, 1080, window::Shade::light, {}});  // where nothing has to be scrolled to
}

TEST_CASE("on a large screen") {
    const Place folder("find-large");
    harbour::fill(folder.stash());
    for (const auto shade : {window::Shade::light, window::Shade::dark}) {
        const std::string name = shade == window::Shade::light ? "light" : "dark";
        Script script;
        script.click("Find").click("find colour this one");
        found(script);
        workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1920-" + name);
        script.then([](const Probe& probe) { check_inside(probe, 1920.0f, 1080.0f); });
        script.click("find load").click("add bound").fill("bound 1 most", "60");
        found(script);
        workplace::picture(script, "BATTWRIGHT_FIND_PICTURES", "find-1920-" + name + "-batts");
        script.escape().expect("find", "shut");
        workplace::run(folder, script, {1920, 1080, shade, workplace::example("kelp-and-brass")});
    }
}
