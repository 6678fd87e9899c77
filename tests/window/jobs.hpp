// A person who does a job at the window: how large it is, in which theme, how large the text, by mouse or by
// keys alone. Every step may leave a picture, and nothing on show may be cut off, hidden or too small to
// press.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "workplace.hpp"

namespace jobs {

using namespace battwright;
using script::Probe;
using script::Script;
namespace fs = std::filesystem;

struct JobLook {
    int width, height;
    window::Shade shade;
    bool keys;
    double scale = 1.0;
};

// "1024x700-dark-keys", with "-160" after the size for large text.
inline std::string name_of(const JobLook& look) {
    const std::string percent =
        look.scale > 1.0 ? "-" + std::to_string(static_cast<int>(100.0 * look.scale + 0.5)) : "";
    return std::to_string(look.width) + "x" + std::to_string(look.height) + percent +
           (look.shade == window::Shade::dark ? "-dark" : "-light") + (look.keys ? "-keys" : "-mouse");
}

// Three sizes, both themes, both hands.
inline std::vector<JobLook> every_look() {
    std::vector<JobLook> all;
    for (const auto& [width, height] : {std::pair{1024, 700}, {1280, 800}, {1920, 1080}})
        for (const auto shade : {window::Shade::light, window::Shade::dark})
            for (const bool keys : {false, true}) all.push_back({width, height, shade, keys});
    return all;
}

// Larger text at those sizes and on a large screen, theme and hand by turns.
inline std::vector<JobLook> large_looks() {
    using enum window::Shade;
    return {{1024, 700, light, true, 1.3},   {1024, 700, dark, false, 1.6},  {1280, 800, dark, true, 1.3},
            {1280, 800, light, false, 1.6},  {1920, 1080, light, true, 1.3}, {1920, 1080, dark, false, 1.6},
            {3840, 2160, light, false, 1.0}, {3840, 2160, dark, true, 1.3},  {3840, 2160, dark, false, 1.6},
            {3840, 2160, light, true, 1.6}};
}

// Every size, theme and hand once, or the first of those; others where BATTWRIGHT_JOB_LOOKS names them (see
// jobs_test.cpp).
inline std::vector<JobLook> looks(std::size_t by_itself = 3) {
    using enum window::Shade;
    const char* wanted = std::getenv("BATTWRIGHT_JOB_LOOKS");
    if (wanted == nullptr) {
        std::vector<JobLook> few{
            {1280, 800, light, false}, {1024, 700, dark, true}, {1920, 1080, dark, false}};
        few.erase(few.begin() + static_cast<std::ptrdiff_t>(std::min(few.size(), by_itself)), few.end());
        return few;
    }
    std::vector<JobLook> chosen;
    std::istringstream words(wanted);
    for (std::string word; std::getline(words, word, ',');) {
        const auto all = every_look(), large = large_looks();
        for (const auto* list : {&all, &large})
            for (const JobLook& look : *list)
                if (word == (list == &all ? "all" : "large") || name_of(look) == word) chosen.push_back(look);
    }
    REQUIRE_MESSAGE(!chosen.empty(), "BATTWRIGHT_JOB_LOOKS names no look: ", wanted);
    return chosen;
}

// Nothing to press is narrower than a finger, hangs out of the window sideways, is cut off at a side or needs
// the window scrolled sideways.
inline void check_fit(const Probe& probe, const JobLook& look) {
    const auto unit = static_cast<float>(look.scale);
    for (const auto& [label, box] : probe.boxes) {
        CAPTURE(label);
        if (label != "no lot complaint") CHECK(box.right - box.left >= 11.9f * unit);
        CHECK(box.left >= -0.5f);
        CHECK(box.right <= static_cast<float>(look.width) + 0.5f);
    }
    for (const std::string& label : probe.cut) FAIL_CHECK("cut off: " << label);
    CHECK(probe.state.at("scrolls sideways") == "");
}

// What has no room beside each other in it has pages of its own.
inline float design_width(const JobLook& look) {
    return static_cast<float>(look.width) / static_cast<float>(look.scale);
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
    // What is typed into what has the keys, and Enter.
    JobHand& type(const std::string& text) {
        script.type(text).enter();
        return *this;
    }
    // A panel: by its key, or by its button on top.
    JobHand& open(int letter, const std::string& button) {
        if (look.keys) {
            script.control(letter);
            return *this;
        }
        return press(button);
    }
    JobHand& add_fibre(const std::string& word) { return open(GLFW_KEY_F, "add a fibre").type(word); }
    // A step is done: what is on show fits, and is kept as a picture where the variable names a folder.
    JobHand& picture(const std::string& what) {
        ++step;
        const std::string name = job + "-" + (step < 10 ? "0" : "") + std::to_string(step) + "-" + what;
        script.step([=, look = look](const Probe& probe, script::Input& input, int phase) {
            // A card that has just opened finds its size in a frame or two.
            if (phase < 4 || (probe.state.at("settled") != "yes" && phase < 6000)) return Script::wait(input);
            CAPTURE(name);
            check_fit(probe, look);
            return true;
        });
        workplace::picture(script, "BATTWRIGHT_JOB_PICTURES", name + "-" + name_of(look));
        return *this;
    }
};

inline workplace::Look window_of(const JobLook& look, std::optional<fs::path> recipe = {}) {
    return {look.width, look.height, look.shade, std::move(recipe), look.scale};
}

// Waits until the state says so.
inline Script& until(Script& script, const std::string& what, const std::string& value = "yes") {
    return script.step([=](const Probe& probe, script::Input& input, int phase) {
        if (phase > 12000) {
            FAIL_CHECK(what << " never is " << value);
            input.quit = true;
        }
        const auto state = probe.state.find(what);
        return (phase > 5 && state != probe.state.end() && state->second == value) || Script::wait(input);
    });
}

}  // namespace jobs
