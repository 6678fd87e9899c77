// The drum as a canvas, by hand and by keys: what is laid there equals the same recipe written by hand.
#include <doctest/doctest.h>

#include <algorithm>

#include "forecast/batt.hpp"
#include "recipe/file.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Box;
using script::Probe;
using script::Script;
using workplace::Place;

namespace {

// Two wools on the standard drum, 200 mm wide and 560 mm round.
constexpr const char* before_laying = R"(format = 1
name = "Slipway"

[[component]]
name = "hull"
fibre = "corriedale"
colour = "#59656d"
weight = "30 g"

[[component]]
name = "rail"
fibre = "corriedale"
colour = "#a4502c"
weight = "20 g"

[carding]
carder = "table-standard"
passes = 2
)";

// As much as one load of hand cards, for tools that do not turn.
std::string before_laying_on(const std::string& carder) {
    std::string text = before_laying;
    const auto replace = [&text](const std::string& from, const std::string& to) {
        text.replace(text.find(from), from.size(), to);
    };
    replace("30 g", "3 g");
    replace("20 g", "2 g");
    replace("table-standard", carder);
    return text;
}

// What the hand below does, as a person would write it.
constexpr const char* laid_in_words = R"(
[[carding.lay]]
what = "hull"

[[carding.lay]]
what = "rail"

[[carding.lay]]
what = "rail"
weight = "3 g"
across = "left third"
round = "first third"

[[carding.lay]]
what = "hull"
weight = "4.5 g"
across = "right third"
round = "last third"
how = "in wisps"

[[carding.lay]]
what = "rail"
weight = "2 g"
across = "20-80 mm"
pass = 2
lies = "over"
)";

recipe::Recipe written(const std::string& text) {
    auto recipe = recipe::read_text(text, "by hand", fibre::Catalogue::builtin());
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    return *recipe;
}

std::filesystem::path file_in(const Place& place, const std::string& text = before_laying) {
    auto path = place.path / "slipway.batt.toml";
    std::ofstream(path) << text;
    return path;
}

// From a place on the surface to another, both as shares of it: along, across.
Script& drag_over(Script& script, float from_x, float from_y, float to_x, float to_y) {
    return script.step([=](const Probe& probe, script::Input& input, int phase) {
        const auto found = probe.boxes.find("surface");
        REQUIRE(found != probe.boxes.end());
        const Box& box = found->second;
        const auto at = [&](float part) {
            const float x = from_x + part * (to_x - from_x), y = from_y + part * (to_y - from_y);
            input.point(box.left + x * (box.right - box.left), box.top + y * (box.bottom - box.top));
        };
        if (phase == 0) at(0.0f);
        input.left_down = phase >= 2 && phase < 14;
        if (phase >= 3 && phase < 13) at(static_cast<float>(phase - 2) / 10.0f);
        return phase >= 17;
    });
}

// The bench's recipe is the one written by hand, and both are the same batt, cell by cell.
void check_equal_to_written(const std::string& saved,
                            const std::string& words = std::string(before_laying) + laid_in_words) {
    const auto by_hand = written(words), laid = written(saved);
    CHECK(laid.components == by_hand.components);
    CHECK(laid.carding.layings == by_hand.carding.layings);
    CHECK(recipe::write_text(laid) == recipe::write_text(by_hand));
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    const auto first = forecast::forecast(laid, bench), second = forecast::forecast(by_hand, bench);
    REQUIRE(first);
    REQUIRE(second);
    const auto a = forecast::batt_of(*first, {0, true, 1}), b = forecast::batt_of(*second, {0, true, 1});
    REQUIRE(a.passes.size() == b.passes.size());
    for (std::size_t i = 0; i < a.passes.size(); ++i) {
        CHECK(a.passes[i].field.shares == b.passes[i].field.shares);
        CHECK(a.passes[i].field.unresolved == b.passes[i].field.unresolved);
    }
}

std::string read_whole(const std::filesystem::path& path) {
    std::ifstream file(path);
    return {std::istreambuf_iterator<char>(file), {}};
}

Script& remember_left(Script& script, std::vector<std::string>& left) {
    return script.then([&left](const Probe& probe) { left.push_back(probe.state.at("left 2")); });
}

}  // namespace

TEST_CASE("a lay made by a hand in the window equals the recipe written by hand, field for field") {
    const Place place("canvas-hand");
    const auto path = file_in(place);
    Script script;
    std::vector<std::string> left;
    script.control(GLFW_KEY_D).expect("lay by hand", "open").expect("unsaved", "no");
    script.click("lay snap thirds").click("lay by by weight").fill("lay grams", "3").click("lay tile 2");
    remember_left(script, left);
    drag_over(script, 0.03f, 0.04f, 0.30f, 0.30f).expect("undo steps", "1");
    remember_left(script, left);
    script.expect("canvas across", "left third").expect("canvas round", "first third");
    script.click("lay tile 1").click("lay how").click("lay how in wisps").fill("lay grams", "4.5");
    drag_over(script, 0.70f, 0.70f, 0.97f, 0.97f).expect("undo steps", "2");
    // The last one by its place in mm, through the tray, on the second pass; then the order by dragging.
    script.click("lay tile 2").click("lay how").click("lay how even").fill("lay grams", "2");
    script.click("lay way by the tray").click("lay pass more").click("lay snap free");
    script.fill("lay across", "20-80").click("Lay it").expect("undo steps", "3");
    script.expect("canvas faces", "2").expect("messages", "0");
    workplace::picture(script, "BATTWRIGHT_CANVAS", "hand");
    script.click("canvas done").expect("lay by hand", "shut").control(GLFW_KEY_S).expect("unsaved", "no");
    workplace::run(place, script, {.recipe = path});
    CHECK(left == std::vector<std::string>{"20 g", "17 g"});
    check_equal_to_written(read_whole(path));
}

TEST_CASE("the same lay with the keys alone") {
    const Place place("canvas-keys");
    const auto path = file_in(place);
    Script script;
    script.control(GLFW_KEY_D).expect("lay by hand", "open");
    script.tab_to("lay snap thirds").enter().tab_to("lay by by weight").enter();
    script.tab_to("lay grams").type("3").enter().tab_to("lay tile 2").enter();
    // The stroke begins at the seam and the left edge; from there with the arrows.
    script.tab_to("surface").enter().expect("undo steps", "1");
    script.tab_to("lay tile 1").enter().tab_to("lay how").enter().key(GLFW_KEY_DOWN).key(GLFW_KEY_DOWN);
    script.enter().tab_to("lay grams").type("4.5").enter().tab_to("surface");
    for (int i = 0; i < 2; ++i) script.key(GLFW_KEY_DOWN).key(GLFW_KEY_RIGHT);
    script.expect("canvas across", "right third").expect("canvas round", "last third");
    script.enter().expect("undo steps", "2");
    script.tab_to("lay tile 2").enter().tab_to("lay how").enter().enter();
    script.tab_to("lay grams").type("2").enter();
    script.tab_to("lay way by the tray").enter().tab_to("lay pass more").enter();
    script.tab_to("lay snap free").enter().tab_to("lay across").type("20-80").enter();
    script.tab_to("Lay it").enter().expect("undo steps", "3");
    script.tab_to("canvas done").enter().expect("lay by hand", "shut");
    script.control(GLFW_KEY_S).expect("unsaved", "no");
    workplace::run(place, script, {.recipe = path});
    check_equal_to_written(read_whole(path));
}

constexpr const char* laid_on_board = R"(
[[carding.lay]]
what = "hull"

[[carding.lay]]
what = "rail"

[[carding.lay]]
what = "rail"
weight = "0.5 g"
across = "left third"
along = "first third"

[[carding.lay]]
what = "hull"
weight = "0.8 g"
across = "right third"
along = "last third"
fade = "12 mm"
overlap = "5 %"
)";

TEST_CASE("a lay on a blending board by hand: no tray, places along it, edges that run out") {
    const Place place("canvas-board");
    const std::string before = before_laying_on("blending-board");
    const auto path = file_in(place, before);
    Script script;
    script.control(GLFW_KEY_D).expect("lay by hand", "open").then([](const Probe& probe) {
        CHECK_FALSE(probe.boxes.contains("lay way by the tray"));
        CHECK(probe.boxes.contains("lay round"));
        const Box& surface = probe.boxes.at("surface");
        // To scale: 300 mm by 300 mm.
        CHECK((surface.right - surface.left) / (surface.bottom - surface.top) ==
              doctest::Approx(1.0).epsilon(0.02));
    });
    script.click("lay snap thirds").click("lay by by weight").fill("lay grams", "0.5").click("lay tile 2");
    drag_over(script, 0.03f, 0.04f, 0.30f, 0.30f).expect("undo steps", "1");
    script.expect("canvas across", "left third").expect("canvas round", "first third");
    script.click("lay tile 1").fill("lay grams", "0.8");
    drag_over(script, 0.70f, 0.70f, 0.97f, 0.97f).expect("undo steps", "2");
    // What was just laid is chosen.
    script.fill("step fade", "12").fill("step overlap", "5 %");
    script.expect("undo steps", "4").expect("canvas faces", "2").expect("messages", "0");
    workplace::picture(script, "BATTWRIGHT_CANVAS", "board");
    // Pressed once more, the step is left, and its editor with it.
    script.click("laid step 4").expect("canvas chosen", "0");
    script.click("canvas done").expect("lay by hand", "shut").control(GLFW_KEY_S).expect("unsaved", "no");
    workplace::run(place, script, {.recipe = path});
    check_equal_to_written(read_whole(path), before + laid_on_board);
}

constexpr const char* laid_on_cards = R"(
[[carding.lay]]
what = "hull"

[[carding.lay]]
what = "rail"

[[carding.lay]]
what = "rail"
weight = "0.5 g"
across = "left third"

[[carding.lay]]
what = "hull"
weight = "0.8 g"
across = "right third"
)";

TEST_CASE("a lay on hand cards with the keys alone: a place across, and none along") {
    const Place place("canvas-cards");
    const std::string before = before_laying_on("hand-cards");
    const auto path = file_in(place, before);
    Script script;
    script.control(GLFW_KEY_D).expect("lay by hand", "open").then([](const Probe& probe) {
        CHECK_FALSE(probe.boxes.contains("lay way by the tray"));
        CHECK_FALSE(probe.boxes.contains("lay round"));
        CHECK(probe.boxes.contains("lay across"));
    });
    script.tab_to("lay by by weight").enter().tab_to("lay grams").type("0.5").enter();
    script.tab_to("lay snap thirds").enter().tab_to("lay tile 2").enter();
    script.tab_to("surface").enter().expect("undo steps", "1").expect("canvas round", "all");
    script.tab_to("lay tile 1").enter().tab_to("lay grams").type("0.8").enter().tab_to("surface");
    // Along there is nowhere to go.
    script.key(GLFW_KEY_DOWN).key(GLFW_KEY_RIGHT).key(GLFW_KEY_DOWN);
    script.expect("canvas across", "right third").expect("canvas round", "all");
    script.enter().expect("undo steps", "2");
    workplace::picture(script, "BATTWRIGHT_CANVAS", "cards");
    script.tab_to("canvas done").enter().expect("lay by hand", "shut");
    script.control(GLFW_KEY_S).expect("unsaved", "no");
    workplace::run(place, script, {.recipe = path});
    check_equal_to_written(read_whole(path), before + laid_on_cards);
}

constexpr const char* laid_blend = R"(
[[carding.blend]]
name = "dusk"
passes = 2
lay = [
    { what = "hull", weight = "6 g" },
    { what = "rail", weight = "4 g" },
]

[[carding.lay]]
what = "dusk"

[[carding.lay]]
what = "hull"

[[carding.lay]]
what = "rail"

[[carding.lay]]
what = "dusk"
weight = "3 g"
across = "left third"
round = "first third"
)";

TEST_CASE("a small blend is made on the canvas, laid, undone and taken apart, by mouse and by keys alone") {
    for (const bool keys : {false, true}) {
        CAPTURE(keys);
        const Place place("canvas-blend");
        const auto path = file_in(place);
        Script script;
        const auto press = [&](const std::string& label) {
            keys ? script.tab_to(label).enter() : script.click(label);
        };
        const auto write = [&](const std::string& label, const std::string& text) {
            keys ? script.tab_to(label).type(text).enter() : script.fill(label, text);
        };
        script.control(GLFW_KEY_D).expect("lay by hand", "open");
        press("make a blend");
        press("Blend it");
        script.then([](const Probe& probe) { CHECK(probe.boxes.contains("blend complaint")); });
        write("blend name", "dusk");
        write("blend part 1", "6");
        write("blend part 2", "4");
        press("blend passes fewer");
        workplace::picture(script, "BATTWRIGHT_CANVAS", keys ? "blend-keys" : "blend-mouse");
        press("Blend it");
        script.expect("undo steps", "1").then([](const Probe& probe) {
            CHECK(probe.state.at("left 3") == "10 g");
            CHECK(probe.state.at("left 1") == "24 g");
            CHECK_FALSE(probe.boxes.contains("blend name"));
        });
        // The blend is what the next stroke lays.
        press("lay snap thirds");
        press("lay by by weight");
        write("lay grams", "3");
        if (keys)
            script.tab_to("surface").enter();
        else
            drag_over(script, 0.03f, 0.04f, 0.30f, 0.30f);
        script.expect("undo steps", "2");
        workplace::picture(script, "BATTWRIGHT_CANVAS", keys ? "blend-laid-keys" : "blend-laid-mouse");
        press("blend apart");
        script.expect("undo steps", "3").then([](const Probe& probe) {
            CHECK(written(probe.state.at("recipe")).carding.blends.empty());
            CHECK(probe.state.at("left 1") == "30 g");
        });
        script.control(GLFW_KEY_Z).expect("undo steps", "2");
        press("canvas done");
        script.control(GLFW_KEY_S).expect("unsaved", "no");
        workplace::run(place, script, {.recipe = path});
        check_equal_to_written(read_whole(path), std::string(before_laying) + laid_blend);
    }
}

TEST_CASE("steps are changed where they are read, undone by one key, hidden for looking only") {
    const Place place("canvas-steps");
    const auto path = file_in(place);
    Script script;
    const auto layings = [](const Probe& probe) { return written(probe.state.at("recipe")).carding.layings; };
    script.control(GLFW_KEY_D).click("lay tile 2");
    drag_over(script, 0.1f, 0.1f, 0.4f, 0.6f);
    // Off the right edge: what is off is cut, and a line says so.
    drag_over(script, 0.5f, 0.5f, 0.7f, 1.3f).then([](const Probe& probe) {
        CHECK(probe.state.at("canvas line").find("ran off the drum") != std::string::npos);
    });
    script.expect("undo steps", "2").click("laid step 3").expect("canvas chosen", "2");
    script.fill("step weight", "5").fill("step across", "left half").fill("step round 2", "50-100 %");
    script.then([&](const Probe& probe) {
        const auto list = layings(probe);
        REQUIRE(list.size() == 4);
        CHECK(recipe::write_across(list[2].across) == "left half");
        CHECK(recipe::write_round(list[3].round) == "second half");
        CHECK(std::get<measure::Mass>(list[2].amount).grams + std::get<measure::Mass>(list[3].amount).grams ==
              doctest::Approx(5.0).epsilon(0.005));
    });
    script.expect("undo steps", "5").click("step mirror").click("step double").expect("undo steps", "7");
    script.key(GLFW_KEY_H).then([](const Probe& probe) { CHECK(probe.state.at("canvas hidden") != "0"); });
    script.expect("undo steps", "7");
    for (int i = 0; i < 7; ++i) script.control(GLFW_KEY_Z);
    script.expect("undo steps", "0").then([&](const Probe& probe) { CHECK(layings(probe).empty()); });
    script.control(GLFW_KEY_Z, true).expect("undo steps", "1").escape().expect("lay by hand", "shut");
    workplace::run(place, script, {.recipe = path});
}

TEST_CASE(
    "a step is dragged to another place in the order, and a narrower drum asks what becomes of the lay") {
    const Place place("canvas-order");
    const auto path = file_in(place);
    Script script;
    script.control(GLFW_KEY_D).click("lay tile 2");
    drag_over(script, 0.1f, 0.1f, 0.4f, 0.9f).click("lay tile 1");
    drag_over(script, 0.5f, 0.1f, 0.9f, 0.9f).expect("undo steps", "2");
    script.drag("laid step 4", 0.0f, -60.0f).expect("undo steps", "3").then([](const Probe& probe) {
        const auto list = written(probe.state.at("recipe")).carding.layings;
        REQUIRE(list.size() == 4);
        CHECK(list[3].what == "rail");
    });
    script.escape().click("carder").click("carder table-small").expect("disagreement", "yes");
    script.click("Cut it off at the edge").expect("disagreement", "no").then([](const Probe& probe) {
        const auto recipe = written(probe.state.at("recipe"));
        CHECK(recipe.carding.carder == "table-small");
        CHECK(recipe.carding.layings[3].across.to == 100.0);
    });
    workplace::run(place, script, {.recipe = path});
}

TEST_CASE("the canvas fits every window in both themes") {
    for (const auto shade : {window::Shade::light, window::Shade::dark})
        for (const auto& [width, height] : {std::pair{1024, 700}, {1280, 800}, {1920, 1080}}) {
            CAPTURE(width);
            const Place place("canvas-size");
            Script script;
            script.control(GLFW_KEY_D)
                .click("laid step 2")
                .then([width = width, height = height](const Probe& probe) {
                    for (const char* label : {"surface", "lay across", "pass picture 1", "canvas done",
                                              "laid step 1", "step weight", "step off"}) {
                        CAPTURE(label);
                        const auto found = probe.boxes.find(label);
                        REQUIRE(found != probe.boxes.end());
                        CHECK(found->second.left >= 0.0f);
                        CHECK(found->second.right <= static_cast<float>(width));
                        CHECK(found->second.bottom <= static_cast<float>(height));
                    }
                    const Box& surface = probe.boxes.at("surface");
                    // To scale: 560 mm round, 200 mm wide.
                    CHECK((surface.right - surface.left) / (surface.bottom - surface.top) ==
                          doctest::Approx(2.8).epsilon(0.02));
                });
            workplace::picture(script, "BATTWRIGHT_CANVAS",
                               std::to_string(width) + (shade == window::Shade::light ? "-light" : "-dark"));
            workplace::run(place, script, {width, height, shade, workplace::example("painted-quay")});
        }
}
