// Every press counts and is drawn at once, however short it is and whenever it comes.
#include <doctest/doctest.h>
#include <imgui.h>

#include <atomic>
#include <chrono>
#include <thread>
#include <utility>

#include "window/gl/backend.hpp"
#include "window/gl/input_queue.hpp"
#include "workplace.hpp"

using namespace battwright;
using battwright::window::InputEvent;
using script::Input;
using script::Probe;
using script::Script;
using Kind = InputEvent::Kind;

namespace {

InputEvent left(bool down) {
    return {Kind::button, 0.0f, 0.0f, 0, down};
}

std::vector<InputEvent> tap_at(const window::Box& box) {
    return {{Kind::move, box.middle_x(), box.middle_y()}, left(true), left(false)};
}

std::vector<InputEvent> tap_of(int key) {
    return {{Kind::key, 0.0f, 0.0f, key, true}, {Kind::key, 0.0f, 0.0f, key, false}};
}

// What each frame would be told: the left button, and keys and letters in their order.
struct Frames {
    window::InputQueue queue;
    ImGuiIO io;
    std::string told;

    explicit Frames(const std::vector<InputEvent>& events) {
        for (const auto& event : events) queue.push(event);
    }
    std::string next() {
        told.clear();
        queue.take(io,
                   {[this](int key, bool down) { told += (down ? "+" : "-") + std::to_string(key) + " "; },
                    [this](unsigned letter) { told += static_cast<char>(letter); }});
        queue.show_pointer(io);
        return told;
    }
};

// Hands events over at the nth time it is asked after armed.
struct Hand {
    std::atomic<int> countdown{-1};
    std::vector<InputEvent> events;

    std::vector<InputEvent> arrivals() {
        if (countdown < 0 || countdown-- > 0) return {};
        return events;
    }
};

}  // namespace

TEST_CASE("a tap shorter than a frame is down in one frame and up in the next") {
    Frames frames(tap_at({10, 10, 30, 30}));
    frames.next();
    CHECK(frames.io.MouseDown[0]);
    CHECK(frames.io.MousePos.x == 20.0f);
    CHECK_FALSE(frames.queue.empty());
    frames.next();
    CHECK_FALSE(frames.io.MouseDown[0]);
    CHECK(frames.queue.empty());
}

TEST_CASE("two taps in a frame are two, and a pointer that moves on does not take the press along") {
    Frames frames({{Kind::move, 5.0f, 5.0f},
                   left(true),
                   left(false),
                   left(true),
                   left(false),
                   {Kind::move, 90.0f, 5.0f}});
    std::string downs;
    std::string places;
    for (int i = 0; i < 5; ++i) {
        frames.next();
        downs += frames.io.MouseDown[0] ? '1' : '0';
        places += frames.io.MousePos.x == 5.0f ? '1' : '0';
    }
    CHECK(downs == "10100");
    CHECK(places == "11110");
    CHECK(frames.queue.empty());
}

TEST_CASE("letters stay before the Enter that follows them, and a key is down for a frame") {
    const InputEvent a{Kind::letter, 0.0f, 0.0f, 'a'};
    Frames frames({a,
                   {Kind::key, 0.0f, 0.0f, GLFW_KEY_ENTER, true},
                   {Kind::key, 0.0f, 0.0f, GLFW_KEY_ENTER, false},
                   a});
    CHECK(frames.next() == "a");
    CHECK(frames.next() == "+257 ");
    CHECK(frames.next() == "-257 ");
    CHECK(frames.next() == "a");
    // Control+S pressed as one is one.
    Frames chord(
        {{Kind::key, 0.0f, 0.0f, GLFW_KEY_LEFT_CONTROL, true}, {Kind::key, 0.0f, 0.0f, GLFW_KEY_S, true}});
    CHECK(chord.next() == "+341 +83 ");
}

TEST_CASE("a press is answered and drawn whenever it comes while frames settle, with no further movement") {
    const workplace::Place place("press-phases");
    Hand hand;
    Script script;
    const auto rest_with = [&hand](int phase, std::vector<InputEvent> events, Input& input) {
        hand.events = std::move(events);
        hand.countdown = phase;
        input.rest_seconds = 1.0;
    };
    for (int phase = 0; phase < 6; ++phase) {
        script.step([&, phase](const Probe& probe, Input& input, int call) {
            if (call == 0) {
                rest_with(phase, tap_at(probe.boxes.at("add a fibre")), input);
                return false;
            }
            CAPTURE(phase);
            CHECK(probe.boxes_before.count("search the catalogue") == 1);
            return true;
        });
        script.step([&, phase](const Probe& probe, Input& input, int call) {
            if (call == 0) {
                rest_with(phase, tap_of(GLFW_KEY_ESCAPE), input);
                return false;
            }
            CAPTURE(phase);
            CHECK(probe.boxes_before.count("search the catalogue") == 0);
            return true;
        });
    }
    auto options = workplace::options_in(place, script, {.recipe = workplace::example("dawn-tide")});
    options.arrivals = [&hand] { return hand.arrivals(); };
    std::atomic<bool> done{false};
    std::thread waker([&done] {
        while (!done) {
            window::Backend::wake();
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
        }
    });
    CHECK(window::run(options) == 0);
    done = true;
    waker.join();
    CHECK(script.finished());
}

TEST_CASE("a pointer over empty ground has nothing painted anew, over a button it has") {
    const workplace::Place place("pointer-paints");
    Script script;
    long painted = 0;
    const auto calm = [&painted](const Probe& probe, Input& input, int phase) {
        if (phase == 0) input.point(2.0f, 2.0f);
        if (phase % 8 == 0 && std::exchange(painted, probe.painted) == probe.painted && phase > 0)
            return true;
        return false;
    };
    script.expect("settled", "yes").step(calm);
    script.step([&painted](const Probe& probe, Input& input, int phase) {
        if (phase < 12) input.point(2.0f + static_cast<float>(phase), 2.0f);
        if (phase < 16) return false;
        CHECK(probe.painted == painted);
        return true;
    });
    script.point("add a fibre").then([&painted](const Probe& probe) { CHECK(probe.painted > painted); });
    CHECK(window::run(workplace::options_in(place, script, {.recipe = workplace::example("dawn-tide")})) ==
          0);
    CHECK(script.finished());
}
