// The card that looks for blends, under a display, driven by its own labels.
#include <doctest/doctest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "display.hpp"
#include "harbour.hpp"
#include "script.hpp"
#include "window/window.hpp"

using namespace battwright;
using script::Probe;
using script::Script;
namespace fs = std::filesystem;

namespace {

struct Folder {
    fs::path path;
    explicit Folder(const std::string& name)
        : path(fs::temp_directory_path() / ("battwright-" + name + "-" + std::to_string(::getpid()))) {
        fs::remove_all(path);
        fs::create_directories(path / "config");
        std::ofstream(path / "config" / "window.toml") << "guide_seen = true\n";
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { fs::remove_all(path); }
    fs::path stash() const { return path / "stash.db"; }
};

struct Look {
    int width = 1280, height = 800;
    window::Shade shade = window::Shade::light;
    std::string recipe;
};

void run(const Folder& folder, Script& script, const Look& look = {}) {
    REQUIRE(display::ensure_display());
    window::Options options;
    options.catalogue = &fibre::Catalogue::builtin();
    options.width = look.width;
    options.height = look.height;
    options.scale = 1.0;
    options.shade = look.shade;
    options.config_folder = folder.path / "config";
    options.state_folder = folder.path / "state";
    options.stash = folder.stash();
    options.driver = script.driver();
    if (!look.recipe.empty()) options.recipe = fs::path(BATTWRIGHT_SOURCE_DIR) / "blends" / look.recipe;
    CHECK(window::run(options) == 0);
    CHECK(script.finished());
}

// Waits until what is on show answers what is asked.
Script& found(Script& script) {
    return script.step([](const Probe& probe, script::Hands& hands, int phase) {
        if (phase > 60000) {
            FAIL_CHECK("the search does not settle");
            hands.quit = true;
        }
        const auto state = probe.state.find("find settled");
        return phase > 5 && state != probe.state.end() && state->second == "yes";
    });
}

// For a person to look at: kept where BATTWRIGHT_FIND_PICTURES names a folder.
void picture(Script& script, const std::string& name) {
    const char* folder = std::getenv("BATTWRIGHT_FIND_PICTURES");
    if (folder == nullptr) return;
    script.step([path = (fs::path(folder) / (name + ".png")).string()](const Probe&, script::Hands& hands,
                                                                       int phase) {
        if (phase == 0) hands.picture = path;
        return phase > 2 && fs::exists(path);
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
    const Folder folder("find-scraps");
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
    run(folder, script);
}

TEST_CASE("a colour is matched, bounds are added, a conflict is told and mended") {
    const Folder folder("find-match");
    harbour::fill(folder.stash());
    Script script;
    script.click("Find");
    found(script);
    picture(script, "find-1280-light-scraps");
    script.click("use up nothing").click("find colour this one").click("find target");
    script.fill("hex", "#ff00ff");  // no bag of the harbour is that loud
    picture(script, "find-1280-light-picker");
    script.escape().expect("find", "open");
    found(script).then([](const Probe& probe) { CHECK(std::stod(probe.state.at("find reach")) > 10.0); });
    picture(script, "find-1280-light-out-of-reach");
    script.click("find target").fill("hex", "#6f7a5a");
    script.escape().fill("find total", "100 g");
    found(script).expect("find complaint", "").then([](const Probe& probe) {
        CHECK(std::stoi(probe.state.at("find blends")) >= 1);
        CHECK(std::stod(probe.state.at("find reach")) < 0.5);
        check_inside(probe, 1280.0f, 800.0f);
    });
    picture(script, "find-1280-light-match");
    script.click("add bound").fill("bound 1 least", "80");
    script.click("add bound").fill("bound 2 least", "30");
    found(script).then([](const Probe& probe) {
        CHECK(probe.state.at("find blends") == "0");
        CHECK(probe.state.at("find conflict").find("cannot hold together") != std::string::npos);
    });
    picture(script, "find-1280-light-conflict");
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
    run(folder, script);
}

TEST_CASE("the batt's own fibres, and a gradient in the dark") {
    const Folder folder("find-batt");
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
    picture(script, "find-1280-dark-gradient");
    script.click("take blend 2").expect("total grams", "6").expect("undo steps", "1");
    Look look;
    look.shade = window::Shade::dark;
    look.recipe = "low-tide-scraps.toml";
    run(folder, script, look);
}

TEST_CASE("a long shelf is looked through before it is searched, prices and all") {
    const Folder folder("find-long");
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
        [](const Probe& probe, script::Hands&, int) { return probe.boxes.contains("use up nothing"); });
    script.click("use up nothing").click("find colour this one").fill("find total", "60 g");
    // All lots cost 0.09 a gram: what has no price would not be used at all.
    script.fill("find cost", "5.40");
    found(script).expect("find complaint", "").then([](const Probe& probe) {
        CHECK(std::stoi(probe.state.at("find blends")) >= 1);
    });
    script.fill("find cost", "5");
    found(script).then([](const Probe& probe) { CHECK_FALSE(probe.state.at("find conflict").empty()); });
    script.escape().expect("find", "shut");
    run(folder, script, {1920, 1080, window::Shade::light, ""});  // where nothing has to be scrolled to
}

TEST_CASE("on a large screen") {
    const Folder folder("find-large");
    harbour::fill(folder.stash());
    for (const auto shade : {window::Shade::light, window::Shade::dark}) {
        const std::string name = shade == window::Shade::light ? "light" : "dark";
        Script script;
        script.click("Find").click("find colour this one");
        found(script);
        picture(script, "find-1920-" + name);
        script.then([](const Probe& probe) { check_inside(probe, 1920.0f, 1080.0f); });
        script.click("find load").click("add bound").fill("bound 1 most", "60");
        found(script);
        picture(script, "find-1920-" + name + "-batts");
        script.escape().expect("find", "shut");
        run(folder, script, {1920, 1080, shade, "kelp-and-brass.toml"});
    }
}
