// Files at the real window: chosen with the mouse and the keys alone, let fall, pasted; colours off a photo
// for several fibres in one go; a card's photo opened.
#include <doctest/doctest.h>
#include <imgui.h>

#include <array>
#include <fstream>
#include <tuple>

#include "card/output.hpp"
#include "card/recipe_card.hpp"
#include "forecast/forecast.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "workplace.hpp"

namespace files_window_test {

using namespace battwright;
using script::Script;
using window::Probe;
using workplace::Place;
namespace fs = std::filesystem;

namespace {

// Squares of 60 pixels side by side.
void save_board(const fs::path& path, const std::vector<std::array<int, 3>>& squares) {
    const int wide = 60 * static_cast<int>(squares.size());
    strip::Image image{wide, 60, {}};
    for (int i = 0; i < wide * 60; ++i)
        for (const int channel : squares.at(static_cast<std::size_t>(i % wide / 60)))
            image.rgb.push_back(static_cast<std::uint8_t>(channel));
    REQUIRE(strip::save_png(image, path.string()));
}

// A place with photos and recipes in it; the folder was visited before.
struct Quay : Place {
    explicit Quay(const std::string& name) : Place(name, "") {
        fs::create_directories(path / "photos");
        fs::create_directories(path / "photos" / "boats");
        save_board(path / "photos" / "kelp.png", {{200, 200, 200}, {0x35, 0x58, 0x6b}, {0xc3, 0x9a, 0x4a}});
        for (const char* more : {"foam.png", "gull.png", "ebb.png"})
            save_board(path / "photos" / more, {{200, 210, 215}, {90, 100, 120}});
        std::ofstream(path / "photos" / "broken.jpg") << "\xff\xd8\xff nothing";
        for (const char* example : {"dawn-tide", "harbour-heather"})
            fs::copy(workplace::example(example), path / "photos" / (std::string(example) + ".toml"));
        std::ofstream(path / "config" / "window.toml")
            << "guide_seen = true\nfolders = [ \"" << (path / "photos").string() << "\" ]\n";
    }
    std::string photo(const char* name) const { return (path / "photos" / name).string(); }
};

// Presses there on the photo, in parts of its width and height.
Script::Step press_photo(float across, float down) {
    return [=](const Probe& probe, script::Input& input, int phase) {
        const auto found = probe.boxes.find("photo");
        if (found == probe.boxes.end()) return phase > 300;
        const auto& box = found->second;
        input.point(box.left + across * (box.right - box.left), box.top + down * (box.bottom - box.top));
        input.left_down = phase == 3;
        return phase >= 6;
    };
}

bool holds(const Probe& probe, const char* fact, const std::string& part) {
    return probe.state.at(fact).find(part) != std::string::npos;
}

void looked_at(Script& script, const std::string& name) {
    workplace::picture(script, "BATTWRIGHT_FILES_PICTURES", name);
}

}  // namespace

TEST_CASE("a recipe is opened by looking, with the mouse") {
    const Quay quay("files-mouse");
    Script script;
    script.control(GLFW_KEY_O).expect("files", "open").click("visited 1").then([](const Probe& probe) {
        CHECK(probe.boxes.contains("entry dawn-tide.toml"));
        CHECK(probe.boxes.contains("entry kelp.png"));
        CHECK(probe.state.at("small pictures") == "4");
    });
    looked_at(script, "open-a-recipe");
    script.wait_for("entry broken.jpg").click("entry broken.jpg").then([](const Probe& probe) {
        CHECK(holds(probe, "files line", "broken.jpg"));
        CHECK(holds(probe, "files line", "damaged picture"));
    });
    script.wait_for("entry dawn-tide.toml")
        .click("entry dawn-tide.toml")
        .click("files do")
        .expect("files", "shut");
    script.expect("path", quay.photo("dawn-tide.toml"));
    workplace::run(quay, script);
}

TEST_CASE("a recipe is opened without a mouse: places, tiles by arrows, Enter") {
    const Quay quay("files-keys");
    Script script;
    script.control(GLFW_KEY_O).expect("files", "open").tab_to("visited 1").enter().expect("files shown", "8");
    // The keys are on the first tile: a folder. One up again from within it.
    script.expect("focused", "entry boats").enter().expect("files shown", "0");
    script.tab_to("place up").enter().expect("files shown", "8").expect("focused", "entry boats");
    script.key(GLFW_KEY_RIGHT).expect("focused", "entry broken.jpg").key(GLFW_KEY_RIGHT);
    script.expect("focused", "entry dawn-tide.toml").enter().expect("files", "shut");
    script.expect("path", quay.photo("dawn-tide.toml"));
    script.control(GLFW_KEY_O).expect("files", "open").escape().expect("files", "shut");
    workplace::run(quay, script);
}

TEST_CASE("colours for two fibres off one photo in one go, with a white to point at, one step to undo") {
    const Quay quay("files-picks");
    Script script;
    script.click("colour 2").click("from a photo").expect("photo colours", "open");
    script.click("browse photo file").expect("files shown", "6");
    looked_at(script, "choose-a-photo");
    script.wait_for("entry kelp.png")
        .click("entry kelp.png")
        .click("files do")
        .expect("picks photo", "there");
    script.step(press_photo(0.5f, 0.5f)).step(press_photo(0.84f, 0.5f));
    script.then([](const Probe& probe) {
        CHECK(probe.state.at("picks") == "#35586b>1 #c39a4a>2");
        CHECK(probe.state.at("undo steps") == "0");
    });
    script.click("photo tool point at white").step(press_photo(0.15f, 0.5f)).then([](const Probe& probe) {
        // Paper of 90 % is lighter than 200 of 255, and so is all beside it.
        CHECK(probe.state.at("picks").find("#35586b") == std::string::npos);
        CHECK(probe.state.at("picks trouble").empty());
    });
    looked_at(script, "colours-picked");
    script.click("forget white").click("take picks").expect("photo colours", "shut");
    script.then([](const Probe& probe) {
        CHECK(holds(probe, "recipe", "#35586b"));
        CHECK(holds(probe, "recipe", "#c39a4a"));
        CHECK(probe.state.at("undo steps") == "1");
    });
    workplace::run(quay, script, {.recipe = workplace::example("dawn-tide")});
}

TEST_CASE("colours are picked off a photo without a mouse: the arrows and Enter, the white too") {
    const Quay quay("files-pick-keys");
    Script script;
    script.control(GLFW_KEY_G).expect("photo colours", "open");
    script.tab_to("photo file").type(quay.photo("kelp.png")).enter().expect("picks photo", "there");
    // The cross begins in the middle: the second of three squares. A fortieth of 180 pixels is 4.5.
    script.tab_to("photo").enter().then(
        [](const Probe& probe) { CHECK(probe.state.at("picks") == "#35586b>0"); });
    for (int i = 0; i < 12; ++i) script.key(GLFW_KEY_RIGHT);
    script.enter().then([](const Probe& probe) {
        CHECK(probe.state.at("picks") == "#35586b>0 #c39a4a>1");
        CHECK(probe.state.at("focused") == "photo");
    });
    script.tab_to("photo tool point at white").enter().tab_to("photo");
    for (int i = 0; i < 26; ++i) script.key(GLFW_KEY_LEFT);
    script.enter().then([](const Probe& probe) {
        CHECK(probe.state.at("picks").find("#35586b") == std::string::npos);
        CHECK(probe.state.at("picks trouble").empty());
    });
    script.tab_to("take picks").enter().expect("photo colours", "shut").expect("undo steps", "1");
    workplace::run(quay, script, {.recipe = workplace::example("dawn-tide")});
}

TEST_CASE("what falls on the window goes to the card that asks for it; else it is a card or has colours") {
    const Quay quay("files-drop");
    Script script;
    // Nothing asks, and it is no card: its colours may be wanted.
    script.step(workplace::drop(quay.photo("foam.png")))
        .expect("photo colours", "open")
        .expect("picks photo", "there");
    // That card asks for another.
    script.step(workplace::drop(quay.photo("kelp.png")))
        .expect("settled", "yes")
        .step(press_photo(0.5f, 0.5f));
    script.then([](const Probe& probe) { CHECK(holds(probe, "picks", "#35586b")); });
    script.step(workplace::drop(quay.photo("broken.jpg"))).then([](const Probe& probe) {
        CHECK(holds(probe, "picks trouble", "broken.jpg"));
        CHECK(probe.state.at("messages") == "0");
    });
    // What was picked is let go at the second press only.
    script.escape().expect("photo colours", "open").then([](const Probe& probe) {
        CHECK(probe.boxes.contains("picks asked"));
    });
    script.escape().expect("photo colours", "shut").expect("picks", "");
    // On the open browser.
    script.control(GLFW_KEY_O).expect("files", "open").step(workplace::drop(quay.photo("dawn-tide.toml")));
    script.expect("files", "shut").expect("path", quay.photo("dawn-tide.toml"));
    workplace::run(quay, script, {.recipe = workplace::example("dawn-tide")});
}

TEST_CASE("the path that was copied is taken, and what is no path is told") {
    const Quay quay("files-paste");
    Script script;
    script.control(GLFW_KEY_R).expect("record", "open").escape();
    const auto copy = [](std::string text) {
        return [text = std::move(text)](const Probe&, script::Input&, int) {
            ImGui::SetClipboardText(text.c_str());
            return true;
        };
    };
    script.step(copy("copy\nfile://" + quay.photo("dawn-tide.toml")));
    script.control(GLFW_KEY_V).expect("path", quay.photo("dawn-tide.toml"));
    script.step(copy("kelp and foam")).control(GLFW_KEY_V).then([](const Probe& probe) {
        CHECK(probe.state.at("messages") == "1");
        CHECK(holds(probe, "message", "save a copied picture as a file"));
    });
    script.click("dismiss 1").control(GLFW_KEY_G).expect("photo colours", "open");
    script.step(copy(quay.photo("kelp.png"))).control(GLFW_KEY_V).expect("picks photo", "there");
    workplace::run(quay, script);
}

TEST_CASE("the photo of a printed card opens its recipe, and asks before it takes the bench") {
    const Quay quay("files-card");
    const auto recipe = recipe::read_file(workplace::example("harbour-heather"), fibre::Catalogue::builtin());
    REQUIRE(recipe.has_value());
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    const auto made = forecast::forecast(*recipe, bench);
    REQUIRE(made.has_value());
    const auto files = card::write(card::recipe_card(*made, {}), card::Paper::a5, quay.photo("card.png"));
    REQUIRE(files.has_value());
    Script script;
    script.step(workplace::drop(files->back().string())).then([](const Probe& probe) {
        CHECK(holds(probe, "recipe", "Harbour Heather"));
        CHECK(probe.state.at("path").empty());
        CHECK(probe.state.at("unsaved") == "yes");
        CHECK(probe.state.at("photo colours") == "shut");
    });
    // A photo chosen as a recipe that is no card's is told.
    script.control(GLFW_KEY_O)
        .click("visited 1")
        .wait_for("entry gull.png")
        .click("entry gull.png")
        .click("files do")
        .then([](const Probe& probe) {
            CHECK(holds(probe, "message", "gull.png"));
            CHECK(holds(probe, "message", "shows no code"));
        });
    workplace::run(quay, script);
}

TEST_CASE("the cards fit the smallest window and a large one, light and dark") {
    for (const auto& [width, height, shade, name] :
         {std::tuple{1024, 700, window::Shade::light, "small"}, {1920, 1080, window::Shade::dark, "large"}}) {
        CAPTURE(name);
        const Quay quay(std::string("files-fit-") + name);
        // What is scrolled away in its own list may lie outside.
        const auto within = [width = width, height = height](const Probe& probe) {
            for (const char* label :
                 {"folder", "files order newest first", "place home", "files do", "files leave", "photo file",
                  "browse photo file", "take picks", "photo leave", "pick 2 to", "drop pick 2"}) {
                const auto found = probe.boxes.find(label);
                if (found == probe.boxes.end()) continue;
                CAPTURE(label);
                CHECK(found->second.left >= 0.0f);
                CHECK(found->second.top >= 0.0f);
                CHECK(found->second.right <= static_cast<float>(width));
                CHECK(found->second.bottom <= static_cast<float>(height));
                CHECK(found->second.bottom - found->second.top >= 32.0f);
            }
        };
        Script script;
        script.control(GLFW_KEY_O)
            .click("visited 1")
            .wait_for("entry gull.png")
            .click("entry gull.png")
            .then(within);
        looked_at(script, std::string("open-") + name);
        script.escape()
            .control(GLFW_KEY_G)
            .click("browse photo file")
            .expect("files shown", "6")
            .then(within);
        looked_at(script, std::string("photo-") + name);
        script.wait_for("entry kelp.png")
            .click("entry kelp.png")
            .click("files do")
            .expect("picks photo", "there");
        script.step(press_photo(0.5f, 0.5f)).step(press_photo(0.84f, 0.5f)).then(within);
        looked_at(script, std::string("picks-") + name);
        workplace::run(
            quay, script,
            {.width = width, .height = height, .shade = shade, .recipe = workplace::example("dawn-tide")});
    }
}

}  // namespace files_window_test
