// A person at the window, as a list of steps: what to press by its label, what to type, what must then be so.
#pragma once

#include <GLFW/glfw3.h>
#include <doctest/doctest.h>

#include <deque>
#include <functional>
#include <string>

#include "window/shell/window.hpp"

namespace script {

using battwright::window::Box;
using battwright::window::Input;
using battwright::window::Probe;

class Script {
  public:
    // A step is called once a frame, with the number of times it was called before, until it returns true.
    using Step = std::function<bool(const Probe&, Input&, int)>;

    Script& step(Step step) {
        steps_.push_back(std::move(step));
        return *this;
    }
    // What is found on a thread, as the files of a folder, is there some frames later.
    Script& wait_for(const std::string& label) {
        return step([label](const Probe& probe, Input& input, int phase) {
            if (probe.boxes.contains(label)) return true;
            if (phase > 2000) return give_up(input, label + " does not come");
            return wait(input);
        });
    }
    Script& click(const std::string& label) {
        return step([label](const Probe& probe, Input& input, int phase) {
            if (phase == 0 && !point_at(probe, input, label))
                return give_up(input, "no " + label + " to press");
            if (phase == 1) point_at(probe, input, label);
            input.left_down = phase == 2;
            return phase >= 5;
        });
    }
    Script& point(const std::string& label) {
        return step([label](const Probe& probe, Input& input, int phase) {
            if (!point_at(probe, input, label)) return give_up(input, "no " + label + " to point at");
            return phase >= 2;
        });
    }
    Script& drag(const std::string& label, float by_x, float by_y) {
        return step([=](const Probe& probe, Input& input, int phase) {
            if (phase == 0 && !point_at(probe, input, label))
                return give_up(input, "no " + label + " to drag");
            input.left_down = phase >= 2 && phase < 14;
            if (phase >= 3 && phase < 13) input.point(input.x + by_x / 10.0f, input.y + by_y / 10.0f);
            return phase >= 16;
        });
    }
    Script& type(const std::string& text) {
        return step([text](const Probe&, Input& input, int phase) {
            if (phase == 0) input.text = text;
            return phase >= 2;
        });
    }
    Script& key(int key, bool control = false, bool shift = false) {
        return step([=](const Probe&, Input& input, int phase) {
            const bool down = phase < 2;
            if (phase == 0 || phase == 2) {
                if (control) input.keys.push_back({GLFW_KEY_LEFT_CONTROL, down});
                if (shift) input.keys.push_back({GLFW_KEY_LEFT_SHIFT, down});
                input.keys.push_back({key, down});
            }
            return phase >= 4;
        });
    }
    // Goes there by Tab alone, backwards with `back`.
    Script& tab_to(const std::string& label, bool back = false) {
        return step([=](const Probe& probe, Input& input, int phase) {
            const int beat = phase % 5;
            if (beat == 0 && probe.state.at("focused") == label) return true;
            if (phase > 5 * 400) return give_up(input, "Tab does not come to " + label);
            if (beat == 0 || beat == 2) {
                if (back) input.keys.push_back({GLFW_KEY_LEFT_SHIFT, beat == 0});
                input.keys.push_back({GLFW_KEY_TAB, beat == 0});
            }
            return false;
        });
    }
    Script& enter() { return key(GLFW_KEY_ENTER); }
    Script& escape() { return key(GLFW_KEY_ESCAPE); }
    Script& control(int letter, bool shift = false) { return key(letter, true, shift); }
    // Presses a field, replaces what is in it, and leaves it.
    Script& fill(const std::string& label, const std::string& text) {
        return click(label).type(text).enter();
    }
    // The same by Tab, which brings into sight what is scrolled away; a field that has the keys is left
    // first.
    Script& write_by_tab(const std::string& label, const std::string& text) {
        return tab_to("batt name").tab_to(label).type(text).enter();
    }
    // Checks once the batt is fully carded; without input until then.
    Script& then(std::function<void(const Probe&)> check) {
        return step([check = std::move(check)](const Probe& probe, Input& input, int phase) {
            if (phase > 6000) return give_up(input, "the batt is not carded to an end");
            if (probe.state.at("settled") != "yes") return wait(input);
            check(probe);
            return true;
        });
    }
    Script& expect(const std::string& what, const std::string& value) {
        return then([=](const Probe& probe) {
            CAPTURE(what);
            const auto found = probe.state.find(what);
            REQUIRE(found != probe.state.end());
            CHECK(found->second == value);
        });
    }
    // As the button of the window's own frame does.
    Script& close() {
        return step([](const Probe&, Input& input, int phase) {
            if (phase == 0) input.close = true;
            return phase >= 3;
        });
    }
    // The last step: the window has to end by itself.
    Script& ends() {
        return step([](const Probe&, Input& input, int phase) {
            return phase > 1000 && give_up(input, "the window does not end");
        });
    }
    Script& rest(double seconds) {
        return step([=](const Probe&, Input& input, int phase) {
            if (phase == 0) input.rest_seconds = seconds;
            return phase >= 1;
        });
    }

    // For steps that wait for work on other threads: leaves them the machine. False, as "not yet".
    static bool wait(Input& input) {
        input.rest_seconds = 0.01;
        return false;
    }

    // Runs the steps, then ends the program. The script must outlive the run.
    battwright::window::Driver driver() {
        return [this](const Probe& probe, Input& input) {
            if (probe.frame < 5) return;
            if (steps_.empty()) {
                input.quit = true;
                return;
            }
            if (steps_.front()(probe, input, phase_++)) {
                phase_ = 0;
                steps_.pop_front();
            }
        };
    }
    bool finished() const { return steps_.empty(); }

  private:
    static bool point_at(const Probe& probe, Input& input, const std::string& label) {
        const auto found = probe.boxes.find(label);
        if (found == probe.boxes.end()) return false;
        input.point(found->second.middle_x(), found->second.middle_y());
        return true;
    }
    static bool give_up(Input& input, const std::string& why) {
        FAIL_CHECK(why);
        input.quit = true;
        return true;
    }

    std::deque<Step> steps_;
    int phase_ = 0;
};

}  // namespace script
