// The jobs of the README and those a newcomer would try, each by mouse and by keys alone, in small and large
// windows, light and dark. BATTWRIGHT_JOB_PICTURES=FOLDER keeps a picture of each step,
// BATTWRIGHT_JOB_LOOKS=all goes through every combination and large text besides (on a display of 3840 x
// 2160).
#include <doctest/doctest.h>
#include <imgui.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>

#include "harbour.hpp"
#include "recipe/file.hpp"
#include "window/kit/letters.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Probe;
using script::Script;
using workplace::Place;
namespace fs = std::filesystem;

namespace {

struct JobLook {
    int width, height;
    window::Shade shade;
    bool keys;
    double scale = 1.0;
};

std::string name_of(const JobLook& look) {
    return std::to_string(look.width) + (look.scale > 1.0 ? "-large" : "") +
           (look.shade == window::Shade::dark ? "-dark" : "-light") + (look.keys ? "-keys" : "-mouse");
}

// Every size, theme and hand once; all of them together where they are asked for, and a large screen.
std::vector<JobLook> looks() {
    using enum window::Shade;
    std::vector<JobLook> chosen{
        {1280, 800, light, false}, {1024, 700, dark, true}, {1920, 1080, dark, false}};
    if (std::getenv("BATTWRIGHT_JOB_LOOKS") != nullptr) {
        chosen.clear();
        for (const auto& [width, height] : {std::pair{1024, 700}, {1280, 800}, {1920, 1080}})
            for (const auto shade : {light, dark})
                for (const bool keys : {false, true}) chosen.push_back({width, height, shade, keys});
        chosen.push_back({1280, 800, light, true, 1.6});
        chosen.push_back({3840, 2160, dark, true, 1.6});
    }
    return chosen;
}

// Does each thing by the mouse, or by Tab, Enter and typing alone.
struct JobHand {
    Script& script;
    JobLook look;
    std::string job;
    int step = 0;

    // What is scrolled away in a small window is brought into sight first, as the wheel would.
    bool by_tab() const { return look.keys || look.width < 1280 || look.scale > 1.0; }
    JobHand& press(const std::string& label) {
        if (by_tab()) script.tab_to(label);
        look.keys ? script.enter() : script.click(label);
        return *this;
    }
    JobHand& write(const std::string& label, const std::string& text) {
        if (!by_tab()) {
            script.fill(label, text);
            return *this;
        }
        // A field that has the keys already is left first: Tab opens it with all of it chosen.
        script.key(GLFW_KEY_TAB, false, true).tab_to(label).type(text).enter();
        return *this;
    }
    JobHand& add_fibre(const std::string& word) {
        look.keys ? script.control(GLFW_KEY_F) : script.click("add a fibre");
        script.type(word).enter();
        return *this;
    }
    JobHand& picture(const std::string& what) {
        workplace::picture(script, "BATTWRIGHT_JOB_PICTURES",
                           job + "-" + std::to_string(++step) + "-" + what + "-" + name_of(look));
        return *this;
    }
};

workplace::Look window_of(const JobLook& look, std::optional<fs::path> recipe = {}) {
    return {look.width, look.height, look.shade, std::move(recipe), look.scale};
}

recipe::Recipe job_recipe(const Probe& probe) {
    const auto recipe = recipe::read_text(probe.state.at("recipe"), "bench", fibre::Catalogue::builtin());
    return recipe ? *recipe : recipe::Recipe{};
}

// Waits until the state says so.
Script& until(Script& script, const std::string& what, const std::string& value = "yes") {
    return script.step([=](const Probe& probe, script::Input& input, int phase) {
        if (phase > 12000) {
            FAIL_CHECK(what << " never is " << value);
            input.quit = true;
        }
        const auto state = probe.state.find(what);
        return (phase > 5 && state != probe.state.end() && state->second == value) || Script::wait(input);
    });
}

// Nothing to press is narrower or lower than a finger, or hangs out of the window sideways.
void check_targets(const Probe& probe, const JobLook& look) {
    const auto unit = static_cast<float>(look.scale);
    for (const auto& [label, box] : probe.boxes) {
        CAPTURE(label);
        CHECK(box.right - box.left >= 11.9f * unit);
        CHECK(box.left >= -0.5f);
        CHECK(box.right <= static_cast<float>(look.width) + 0.5f);
    }
    for (const auto& [label, box] : probe.boxes) {
        const bool border = label.rfind("border ", 0) == 0;
        CAPTURE(label);
        if (border) CHECK(box.right - box.left >= 12.0f * unit - 0.5f);
    }
}

std::string mark_named(const Place& place, const std::string& name) {
    const auto shelf = stash::Stash::open(place.stash())->shelf().value();
    for (const auto& lot : shelf->lots)
        if (lot->lot.name == name) return lot->lot.mark;
    return {};
}

}  // namespace

TEST_CASE("job: a 60 g batt of four fibres with sparkle on the last pass, from nothing") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-batt");
        Script script;
        JobHand hand{script, look, "batt"};
        hand.picture("empty");
        if (look.keys)
            hand.add_fibre("corriedale");
        else
            script.click("Add the first fibre").type("corriedale").enter();
        hand.write("weight 1", "30 g").picture("first");
        hand.add_fibre("tussah silk").write("weight 2", "10 g");
        hand.add_fibre("polwarth").write("weight 3", "17 g");
        hand.add_fibre("sparkle").write("weight 4", "3 g");
        hand.write("batt name", "Dark Harbour").picture("four");
        script.then([&look](const Probe& probe) {
            const auto recipe = job_recipe(probe);
            REQUIRE(recipe.components.size() == 4);
            CHECK(recipe.components[3].add_on_pass == recipe::last_pass);
            CHECK(std::stod(probe.state.at("total grams")) == doctest::Approx(60.0));
            CHECK(probe.state.at("complaint").empty());
            check_targets(probe, look);
        });
        hand.press("lock 4").write("total", "80 g").picture("locked");
        script.then([](const Probe& probe) {
            const auto recipe = job_recipe(probe);
            CHECK(std::get<measure::Mass>(recipe.components[3].amount).grams == doctest::Approx(3.0));
        });
        script.control(GLFW_KEY_Z).expect("total grams", "60");
        workplace::run(place, script, window_of(look));
    }
}

TEST_CASE("job: bags on the shelf; two carded, weighed, spun, learnt from") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-shelf");
        harbour::fill(place.stash());
        const std::string wool = mark_named(place, "Low water"), silk = mark_named(place, "Brass lamp");
        // Fibre and colours are the bags' own.
        std::ofstream(place.path / "batt.toml")
            << "format = 1\nname = \"Slack Water\"\n[[component]]\nlot = \"" << wool
            << "\"\nweight = \"40 g\"\n[[component]]\nlot = \"" << silk << "\"\nweight = \"20 g\"\n";
        Script script;
        JobHand hand{script, look, "shelf"};
        double before = 0.0, after = 0.0;
        script.expect("complaint", "").expect("messages", "0").then([&](const Probe& probe) {
            before = std::stod(probe.state.at("yarn high over low"));
        });
        hand.press("left The shelf").picture("shelf").press("left This batt").picture("batt");
        hand.press("Card from the shelf");
        script.expect("card it", "open");
        hand.picture("card-it").press("card it take");
        script.expect("card it complaint", "");
        hand.picture("taken").press("card it done");
        look.keys ? script.control(GLFW_KEY_R) : script.click("Record");
        script.expect("record batts", "1");
        hand.write("off the drum", "much").picture("refused").write("off the drum", "56.5");
        hand.picture("weighed").press("batt skein");
        script.expect("record page", "Skeins");
        hand.write("skein weight", "54 bags").press("log skein");
        script.expect("record skeins", "0").then([](const Probe& probe) {
            // What is wrong stands under its own field.
            REQUIRE(probe.boxes.contains("trouble"));
            const auto& field = probe.boxes.at("skein weight");
            CHECK(probe.boxes.at("trouble").top >= field.bottom - 1.0f);
            CHECK(probe.boxes.at("trouble").top < field.bottom + 20.0f);
        });
        hand.picture("wrong").write("skein weight", "54");
        script.then([](const Probe& probe) { CHECK_FALSE(probe.boxes.contains("trouble")); });
        hand.write("skein length", "140 m").write("skein wraps", "12").press("log skein");
        script.expect("record skeins", "1");
        hand.picture("logged");
        script.escape().expect("record", "shut").expect("messages", "0").then([&](const Probe& probe) {
            after = std::stod(probe.state.at("yarn high over low"));
        });
        hand.picture("learnt");
        workplace::run(place, script, window_of(look, place.path / "batt.toml"));
        CHECK(stash::Stash::open(place.stash())->skeins().value().size() == 1);
        CHECK(after < before);
    }
}

TEST_CASE("job: a batt of scraps, and one of a colour") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-find");
        harbour::fill(place.stash());
        Script script;
        JobHand hand{script, look, "find"};
        look.keys ? script.control(GLFW_KEY_B) : script.click("Find");
        until(script.expect("find", "open"), "find settled");
        script.expect("find complaint", "");
        hand.picture("scraps").write("find total", "a lot");
        until(script, "find settled").then([](const Probe& probe) {
            REQUIRE(probe.boxes.contains("trouble"));
            CHECK(probe.boxes.at("trouble").top >= probe.boxes.at("find total").bottom - 1.0f);
            CHECK(probe.boxes.at("trouble").top < probe.boxes.at("find total").bottom + 20.0f);
        });
        hand.picture("refused").write("find total", "40-60 g");
        until(script, "find settled").then([](const Probe& probe) {
            CHECK_FALSE(probe.boxes.contains("trouble"));
            CHECK(std::stoi(probe.state.at("find blends")) >= 1);
        });
        hand.press("take blend 1");
        script.expect("find", "shut").expect("undo steps", "1");
        hand.picture("taken");
        look.keys ? script.control(GLFW_KEY_B) : script.click("Find");
        hand.press("use up nothing").press("find colour this one").press("find target");
        hand.write("hex", "#6f7a5a").picture("picker");
        script.escape();
        until(script.expect("find", "open"), "find settled").then([](const Probe& probe) {
            CHECK(std::stod(probe.state.at("find reach")) < 1.0);
        });
        hand.picture("match").press("take blend 1");
        script.expect("find", "shut").expect("undo steps", "2");
        hand.picture("matched");
        workplace::run(place, script, window_of(look));
    }
}

TEST_CASE("job: a card as PDF, picture and text, a tag, and the steps at the carder") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-card");
        Script script;
        JobHand hand{script, look, "card"};
        look.keys ? script.control(GLFW_KEY_P) : script.click("Recipe card");
        until(script.expect("card", "open"), "card settled");
        hand.picture("card").write("card folder", place.path.string());
        for (const char* as : {"card as PDF", "card as PNG", "card as text"}) {
            hand.press(as).press("card write");
            until(script, "card settled").expect("card written", "1").expect("card failed", "");
        }
        hand.picture("written");
        if (look.keys)
            script.escape();
        else
            hand.press("card done");
        script.expect("card", "shut").expect("messages", "0");
        hand.press("comes out The yarn").picture("yarn");
        workplace::run(place, script, window_of(look, workplace::example("harbour-heather")));
        std::size_t files = 0;
        for (const char* ending : {".pdf", ".png", ".txt"})
            files += fs::exists(place.path / ("harbour-heather-card" + std::string(ending))) ? 1 : 0;
        CHECK(files == 3);
    }
}

TEST_CASE("names in Chinese, Japanese and Korean are drawn where the machine has a font of them") {
    window::Letters letters;
    CHECK(letters.want("\u6f6e\u3057\u304a \ud56d\uad6c, Harbour \u0416 \U0001f411"));
    CHECK(letters.wanted() == std::vector<char16_t>{0x304a, 0x3057, 0x6f6e, 0xad6c, 0xd56d});
    CHECK_FALSE(letters.want("\u6f6e"));
    const std::vector<char16_t> han{0x6e2f, 0x6f6e};
    const auto fonts = window::fonts_for(han);
    std::size_t held = 0;
    for (const auto& font : fonts) {
        CHECK(fs::exists(font.path));
        held += font.letters.size();
    }
    if (fonts.empty()) {
        MESSAGE("no font of this machine holds them");
        return;
    }
    CHECK(held == han.size());
    const Place place("letters");
    bool drawn = false;
    Script script;
    script.fill("batt name", "\u6f6e\u306e\u6e2f").then([&](const Probe&) {
        drawn = ImGui::GetIO().FontDefault->FindGlyphNoFallback(0x6e2f) != nullptr;
    });
    workplace::picture(script, "BATTWRIGHT_JOB_PICTURES", "letters");
    workplace::run(place, script, {.recipe = workplace::example("harbour-heather")});
    CHECK(drawn);
}
