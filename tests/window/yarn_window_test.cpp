// The yarn view in the real window, driven by its own labels.
#include <doctest/doctest.h>

#include <cmath>

#include "workplace.hpp"

using namespace battwright;
using script::Probe;
using script::Script;
using workplace::Place;

namespace {

void open_on(const Place& place, Script& script, const std::string& blend = "kelp-and-brass") {
    workplace::Look look;
    look.recipe = workplace::example(blend);
    workplace::run(place, script, look);
}

double figure_of(const Probe& probe, const std::string& what) {
    return std::stod(probe.state.at(what));
}

}  // namespace

TEST_CASE("dragging along the curve changes the thickness, and one undo brings it back") {
    const Place place("yarn-drag");
    Script script;
    double metres = 0.0;
    float handle = 0.0f;
    script.expect("comes out", "batt")
        .click("yarn")
        .expect("comes out", "yarn")
        .expect("thickness", "14 wpi")
        .then([&](const Probe& probe) {
            metres = figure_of(probe, "yarn metres");
            handle = probe.boxes.at("yarn handle").middle_x();
        })
        .drag("yarn handle", 60.0f, -20.0f)
        .expect("undo steps", "1")
        .then([&](const Probe& probe) {
            const std::string thickness = probe.state.at("thickness");
            const double wpi = std::stod(thickness);
            CHECK(thickness.find(" wpi") != std::string::npos);
            CHECK(wpi > 15.0);
            CHECK(wpi * 2.0 == static_cast<double>(static_cast<int>(wpi * 2.0)));
            // The handle is where the hand let go, to half a step of the scale (6 pixels at this end).
            CHECK(std::abs(probe.boxes.at("yarn handle").middle_x() - handle - 60.0f) < 6.0f);
            CHECK(figure_of(probe, "yarn metres") > metres);
        })
        .control(GLFW_KEY_Z)
        .expect("thickness", "14 wpi")
        .expect("undo steps", "0")
        .then([&](const Probe& probe) { CHECK(figure_of(probe, "yarn metres") == metres); });
    open_on(place, script);
}

TEST_CASE("a press in the plot plans for that place, the arrow keys go on from there, each key one step") {
    const Place place("yarn-press");
    Script script;
    double pressed = 0.0;
    script.click("comes out The yarn")
        .click("yarn curve")
        .expect("undo steps", "1")
        .then([&](const Probe& probe) { pressed = std::stod(probe.state.at("thickness")); })
        .key(GLFW_KEY_RIGHT)
        .then([&](const Probe& probe) {
            CHECK(std::stod(probe.state.at("thickness")) == pressed + 0.5);
            CHECK(probe.state.at("undo steps") == "2");
        })
        .key(GLFW_KEY_LEFT)
        .key(GLFW_KEY_LEFT)
        .then([&](const Probe& probe) {
            CHECK(std::stod(probe.state.at("thickness")) == pressed - 0.5);
            CHECK(probe.state.at("undo steps") == "4");
        })
        .click("comes out The batt")
        .expect("comes out", "batt");
    open_on(place, script);
}

TEST_CASE("plying, plies, twist and preparation by their buttons") {
    const Place place("yarn-plying");
    Script script;
    double plain = 0.0;
    script.click("comes out The yarn")
        .then([&](const Probe& probe) { plain = figure_of(probe, "yarn metres"); })
        .click("plying chain")
        .expect("plying", "chain")
        .then([&](const Probe& probe) { CHECK(figure_of(probe, "yarn metres") != plain); })
        .click("plying plied")
        .expect("plying", "plied")
        .click("plies more")
        .expect("plies", "3")
        .click("plying single")
        .expect("plies", "1")
        .click("preparation worsted")
        .then([](const Probe& probe) {
            CHECK(probe.state.at("recipe").find("preparation = \"worsted\"") != std::string::npos);
        })
        .tab_to("twist firm")
        .key(GLFW_KEY_SPACE)
        .then([](const Probe& probe) {
            CHECK(probe.state.at("recipe").find("twist = \"firm\"") != std::string::npos);
        })
        .expect("messages", "0")
        .expect("undo steps", "6");
    open_on(place, script);
}

TEST_CASE("a wheel ratio names the treadles; bad input is one line and changes nothing") {
    const Place place("yarn-wheel");
    Script script;
    script.click("comes out The yarn")
        .expect("treadles", "0")
        .write_by_tab("wheel ratio", "10:1")
        .expect("wheel", "10")
        .then([](const Probe& probe) { CHECK(figure_of(probe, "treadles") > 0.0); })
        .write_by_tab("wheel ratio", "quick")
        .then([](const Probe& probe) { CHECK_FALSE(probe.state.at("refused").empty()); })
        .expect("wheel", "10")
        .write_by_tab("wheel ratio", "500:1")
        .then([](const Probe& probe) { CHECK_FALSE(probe.state.at("refused").empty()); })
        .write_by_tab("thickness", "400 wpi")
        .then([](const Probe& probe) { CHECK_FALSE(probe.state.at("refused").empty()); })
        .write_by_tab("thickness", "wooly")
        .then([](const Probe& probe) { CHECK_FALSE(probe.state.at("refused").empty()); })
        .expect("thickness", "14 wpi")
        .expect("undo steps", "1")
        .write_by_tab("thickness", "fine")
        .expect("thickness", "fine")
        .write_by_tab("thickness", "300 tex")
        .expect("thickness", "300 tex")
        .expect("undo steps", "3")
        .expect("messages", "0");
    open_on(place, script);
}

TEST_CASE("a thread too short is found in the panel, and its remedies are the fields themselves") {
    const Place place("yarn-thread");
    Script script;
    script.click("comes out The yarn")
        .click("plying thread")
        .expect("plying", "with-thread")
        .expect("yarn findings", "0")
        .write_by_tab("thread length", "20 m")
        .expect("yarn findings", "1")
        .then([](const Probe& probe) { CHECK(probe.boxes.count("finding on the thread") == 1); })
        .write_by_tab("thread count", "2/28 Nm")
        .then([](const Probe& probe) {
            CHECK(probe.state.at("recipe").find("length = \"20 m\"") != std::string::npos);
            CHECK(probe.state.at("recipe").find("count = \"71.4") != std::string::npos);
        })
        .expect("messages", "0");
    open_on(place, script);
}

TEST_CASE("a yarn finer than the fibre spins is found, and the advice can be taken") {
    const Place place("yarn-finest");
    Script script;
    script.click("comes out The yarn")
        .fill("thickness", "44 wpi")
        .expect("yarn findings", "1")
        .tab_to("yarn remedy")
        .enter()
        .expect("yarn findings", "0")
        .control(GLFW_KEY_Z)
        .expect("thickness", "44 wpi");
    open_on(place, script);
}

TEST_CASE("the pages, and the table narrowed to one thing") {
    const Place place("yarn-pages");
    Script script;
    script.click("comes out The yarn")
        .click("yarn page In figures")
        .then([](const Probe& probe) {
            CHECK(probe.boxes.count("plying effect") == 1);
            CHECK(probe.boxes.count("Fibres across") == 1);
        })
        .click("yarn page Enough for")
        .then([](const Probe& probe) { CHECK(probe.boxes.count("blanket, bed") == 0); })
        .click("things")
        .click("things socks")
        .then([](const Probe& probe) {
            CHECK(probe.boxes.count("socks, adult") == 1);
            CHECK(probe.boxes.count("hat, adult") == 0);
        })
        .expect("undo steps", "0");
    open_on(place, script, "harbour-heather");
}

TEST_CASE("yarn that is spun already can be weighed in place of the fibre") {
    const Place place("yarn-weighed");
    Script script;
    double fibre_grams = 0.0;
    script.click("comes out The yarn").click("yarn page In figures").then([&](const Probe& probe) {
        fibre_grams = figure_of(probe, "yarn grams");
        CHECK_FALSE(probe.boxes.contains("yarn weight"));
    });
    script.click("weighed the yarn")
        .fill("yarn weight", "92 g")
        .expect("yarn grams", "92")
        .then([](const Probe& probe) { CHECK(figure_of(probe, "yarn metres") > 0.0); })
        .fill("yarn weight", "light")
        .expect("messages", "1")
        .click("dismiss 1")
        .expect("yarn grams", "92")
        .expect("undo steps", "0");
    workplace::picture(script, "BATTWRIGHT_PICTURES", "yarn-weighed");
    script.click("weighed the fibre").then([&](const Probe& probe) {
        CHECK(figure_of(probe, "yarn grams") == fibre_grams);
    });
    open_on(place, script);
}
