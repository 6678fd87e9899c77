// What the bench promises to the eye: tips lie beside nothing that is being filled in, findings are counted
// and more than one is seen, what is to be pressed is large enough.
#include <doctest/doctest.h>
#include <imgui_internal.h>

#include <algorithm>
#include <optional>

#include "workplace.hpp"

using namespace battwright;
using script::Box;
using script::Probe;
using script::Script;
using workplace::Place;

namespace {

const ImGuiWindow* tip_on_show() {
    for (const ImGuiWindow* one : ImGui::GetCurrentContext()->Windows)
        if (one->WasActive && !one->Hidden && (one->Flags & ImGuiWindowFlags_Tooltip) != 0) return one;
    return nullptr;
}

bool lies_over(const ImGuiWindow& tip, const Box& box) {
    return tip.Pos.x < box.right && tip.Pos.x + tip.Size.x > box.left && tip.Pos.y < box.bottom &&
           tip.Pos.y + tip.Size.y > box.top;
}

// How opaque the darkest or lightest thing in it is, of 255.
int most_opaque(const ImGuiWindow& tip) {
    int most = 0;
    for (const ImDrawVert& corner : tip.DrawList->VtxBuffer)
        most = std::max(most, static_cast<int>(corner.col >> IM_COL32_A_SHIFT & 0xffu));
    return most;
}

}  // namespace

TEST_CASE("a tip lies over neither its own field nor those beside it, at every size") {
    for (const auto& [width, height] : {std::pair{1024, 700}, {1280, 800}, {1920, 1080}}) {
        CAPTURE(width);
        const Place place("promise-tips");
        Script script;
        for (const char* label : {"weight 1", "percent 1", "total", "batt name"}) {
            script.point(label).rest(0.05).then([label](const Probe& probe) {
                CAPTURE(label);
                const ImGuiWindow* tip = tip_on_show();
                REQUIRE(tip != nullptr);
                for (const char* field : {"batt name", "total", "weight 1", "percent 1", "parts 1", "lock 1"})
                    if (std::string(field) == label || probe.boxes.at(field).top == probe.boxes.at(label).top)
                        CHECK_FALSE(lies_over(*tip, probe.boxes.at(field)));
                CHECK(tip->Pos.x >= 0.0f);
                CHECK(tip->Pos.x + tip->Size.x <= static_cast<float>(ImGui::GetIO().DisplaySize.x));
            });
        }
        workplace::run(place, script, {width, height, {}, workplace::example("harbour-heather")});
    }
}

TEST_CASE("a tip over a button that cannot be pressed is as readable as any other") {
    const Place place("promise-disabled");
    Script script;
    std::optional<int> over_plain, over_disabled;
    script.point("New").rest(0.05).then([&](const Probe&) {
        if (const auto* tip = tip_on_show()) over_plain = most_opaque(*tip);
    });
    script.point("Undo").rest(0.05).then([&](const Probe&) {
        if (const auto* tip = tip_on_show()) over_disabled = most_opaque(*tip);
    });
    workplace::run(place, script, {.recipe = workplace::example("harbour-heather")});
    REQUIRE(over_plain.has_value());
    CHECK(over_disabled == over_plain);
    CHECK(over_plain == 255);
}

TEST_CASE("findings are counted, at least two of several are in sight, and what mends the first is pressed") {
    for (const auto& [width, height] : {std::pair{1280, 800}, {1920, 1080}}) {
        CAPTURE(width);
        const Place place("promise-findings");
        Script script;
        script.then([height = height](const Probe& probe) {
            CHECK(std::stoi(probe.state.at("findings")) >= 3);
            REQUIRE(probe.boxes.contains("findings"));
            const Box& strip = probe.boxes.at("strip picture");
            for (const char* label : {"finding 1", "finding 2"}) {
                CAPTURE(label);
                REQUIRE(probe.boxes.contains(label));
                CHECK(probe.boxes.at(label).bottom <= strip.top);
                CHECK(probe.boxes.at(label).bottom <= static_cast<float>(height));
            }
        });
        // The first that has a button: it is come to and does something.
        script.step([](const Probe& probe, script::Input& input, int phase) {
            static std::string label;
            if (phase == 0) {
                label.clear();
                for (int i = 9; i > 0; --i)
                    if (probe.boxes.contains("remedy " + std::to_string(i)))
                        label = "remedy " + std::to_string(i);
                REQUIRE_FALSE(label.empty());
            }
            const int beat = phase % 5;
            if (beat == 0 && probe.state.at("focused") == label) return true;
            if (phase > 5 * 200) {
                FAIL_CHECK("Tab does not come to " << label);
                return true;
            }
            if (beat == 0 || beat == 2) input.keys.push_back({GLFW_KEY_TAB, beat == 0});
            return false;
        });
        script.enter().expect("undo steps", "1");
        workplace::run(place, script, {width, height, {}, workplace::example("mismatched-crew")});
    }
}
