// The batt on the table in the real window: opened by its key, moved, enlarged, seen pass by pass, kept.
#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>

#include "app/settings.hpp"
#include "strip/table.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Probe;
using script::Script;
using workplace::Place;
namespace fs = std::filesystem;

namespace {

struct TableFolder : Place {
    fs::path recipe = path / "dawn-tide.toml";
    TableFolder() : Place("table") {
        fs::copy_file(workplace::example("dawn-tide"), recipe, fs::copy_options::overwrite_existing);
    }
};

void run(Script& script, const TableFolder& place) {
    workplace::run(place, script, {1280, 800, std::nullopt, place.recipe});
}

// Waits for the picture of what is looked at, then checks.
void once_drawn(Script& script, std::function<void(const Probe&)> check) {
    script.step([check = std::move(check)](const Probe& probe, window::Input& input, int phase) {
        const auto state = probe.state.find("table settled");
        if (phase < 4 || probe.state.at("settled") != "yes" || state->second != "yes" ||
            !probe.state.contains("table caption")) {
            input.rest_seconds = 0.01;
            REQUIRE(phase < 3000);
            return false;
        }
        check(probe);
        return true;
    });
}

double zoom_of(const Probe& probe) {
    return std::stod(probe.state.at("table zoom"));
}

}  // namespace

TEST_CASE("by keys alone: the table opens, every view is there, it comes nearer, moves and closes") {
    const TableFolder place;
    Script script;
    script.then([](const Probe&) {}).control(GLFW_KEY_T).expect("on the table", "open");
    script.key(GLFW_KEY_2).expect("view", "batt face");
    once_drawn(script, [](const Probe& probe) {
        CHECK(probe.state.at("table caption").find("batt face, ") == 0);
        CHECK(zoom_of(probe) == 1.0);
        const auto& box = probe.boxes.at("table picture");
        // The hero: more than three fifths of the window.
        CHECK((box.right - box.left) * (box.bottom - box.top) > 0.6f * 1280.0f * 800.0f);
    });
    for (const auto& row : strip::table_views) {
        const int key = GLFW_KEY_1 + static_cast<int>(row.value);
        script.key(key).expect("view", std::string(row.name));
    }
    script.key(GLFW_KEY_3);
    once_drawn(script,
               [](const Probe& probe) { CHECK(probe.state.at("table caption").find("rolled batt, ") == 0); });
    std::string middle;
    script.key(GLFW_KEY_EQUAL).key(GLFW_KEY_EQUAL).key(GLFW_KEY_EQUAL);
    once_drawn(script, [&](const Probe& probe) {
        CHECK(zoom_of(probe) == doctest::Approx(std::pow(1.25, 3)));
        middle = probe.state.at("table middle");
    });
    script.key(GLFW_KEY_RIGHT, false, true);
    once_drawn(script, [&](const Probe& probe) { CHECK(probe.state.at("table middle") != middle); });
    script.key(GLFW_KEY_MINUS);
    once_drawn(script,
               [](const Probe& probe) { CHECK(zoom_of(probe) == doctest::Approx(std::pow(1.25, 2))); });
    script.key(GLFW_KEY_HOME);
    once_drawn(script, [](const Probe& probe) { CHECK(zoom_of(probe) == 1.0); });
    // The strip on the bench is the small version of the same view.
    script.key(GLFW_KEY_8).escape().expect("on the table", "shut").expect("view", "skein");
    script.then([](const Probe& probe) {
        CHECK(probe.state.at("caption").find(" in a skein of ") != std::string::npos);
    });
    script.expect("unsaved", "no");
    run(script, place);
}

TEST_CASE("by hand: a drag moves the table, the wheel enlarges it, a press on the run of a yarn goes there") {
    const TableFolder place;
    Script script;
    script.then([](const Probe&) {}).click("strip large").expect("on the table", "open").click("table plied");
    once_drawn(script, [](const Probe& probe) {
        CHECK(probe.state.at("table run") == "0 1");
        CHECK(probe.boxes.contains("table along"));
    });
    script.click("table along");
    double from = 0.0;
    once_drawn(script, [&](const Probe& probe) {
        CHECK(zoom_of(probe) == 4.0);
        const std::string run = probe.state.at("table run");
        from = std::stod(run);
        const double to = std::stod(run.substr(run.find(' ')));
        CHECK(from > 0.2);
        CHECK(from < 0.5);
        CHECK(to > 0.5);
        CHECK(to < 0.8);
    });
    // Pulled down, what was spun before comes into sight.
    script.drag("table picture", 0.0f, 120.0f);
    once_drawn(script, [&](const Probe& probe) { CHECK(std::stod(probe.state.at("table run")) < from); });
    script.point("table picture").step([](const Probe&, window::Input& input, int phase) {
        input.wheel = phase == 1 ? 1.0f : 0.0f;
        return phase >= 3;
    });
    once_drawn(script, [](const Probe& probe) { CHECK(zoom_of(probe) == doctest::Approx(4.8)); });
    script.click("table all");
    once_drawn(script, [](const Probe& probe) { CHECK(zoom_of(probe) == 1.0); });
    script.click("table done").expect("on the table", "shut");
    run(script, place);
}

TEST_CASE("each pass stands beside the next, and a picture of any size is kept") {
    const TableFolder place;
    const fs::path file = place.path / "kept.png";
    Script script;
    script.then([](const Probe&) {}).control(GLFW_KEY_T).click("table batt face");
    once_drawn(script, [](const Probe& probe) { CHECK(probe.state.at("table labels") == "0"); });
    script.click("table pass more").click("table pass more").click("table each pass");
    once_drawn(script, [](const Probe& probe) {
        // The recipe is carded once: one pass is alone and has no label.
        CHECK(probe.state.at("table labels") == "0");
        CHECK(probe.state.at("table caption").find("after pass 1") != std::string::npos);
    });
    script.fill("table size", "none")
        .expect("refused",
                "'none' is no size of a picture; write width and height in pixels, as in 3000 x 2000");
    script.fill("table size", "900 x 700").fill("table file", file.string()).click("table save");
    once_drawn(script, [&](const Probe& probe) {
        CHECK(probe.state.at("table said").find("Saved " + file.string() + ": 900 x 700 px") == 0);
        CHECK(fs::file_size(file) > 10000);
    });
    // There now: the first press asks.
    script.click("table save");
    once_drawn(script, [&](const Probe& probe) {
        CHECK(probe.state.at("table said").find("is there already") != std::string::npos);
    });
    script.click("table save");
    once_drawn(script, [&](const Probe& probe) { CHECK(probe.state.at("table said").find("Saved ") == 0); });
    script.fill("table file", (place.path / "kept.gif").string()).click("table save");
    once_drawn(script, [&](const Probe& probe) {
        CHECK(probe.state.at("table said").find("is no PNG file name") != std::string::npos);
        CHECK_FALSE(fs::exists(place.path / "kept.gif"));
    });
    run(script, place);
}

TEST_CASE("the strip is as high as its edge is dragged, and stays so") {
    const TableFolder place;
    float tall = 0.0f;
    Script script;
    script.then([&](const Probe& probe) {
        const auto& box = probe.boxes.at("strip picture");
        tall = box.bottom - box.top;
        CHECK(tall > 150.0f);  // of 800; it was 110
    });
    script.drag("strip edge", 0.0f, -80.0f).then([&](const Probe& probe) {
        const auto& box = probe.boxes.at("strip picture");
        CHECK(box.bottom - box.top == doctest::Approx(tall + 80.0f).epsilon(0.02));
    });
    run(script, place);
    CHECK(app::load_settings(place.path / "config").strip_share > 0.3);
    // By keys, too.
    Script again;
    again.then([&](const Probe& probe) {
        const auto& box = probe.boxes.at("strip picture");
        tall = box.bottom - box.top;
    });
    again.control(GLFW_KEY_DOWN).then([&](const Probe& probe) {
        const auto& box = probe.boxes.at("strip picture");
        CHECK(box.bottom - box.top < tall - 20.0f);
    });
    run(again, place);
}
