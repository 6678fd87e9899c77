#include "window/gl/input_queue.hpp"

#include <imgui.h>

#include <algorithm>
#include <cfloat>
#include <iterator>
#include <set>

namespace battwright::window {
namespace {

// Keys above this write no letter (Enter, Tab, arrows, Control): GLFW numbers them so.
constexpr int last_letter_key = 255;

// What a frame has been told already.
struct FrameEvents {
    std::set<int> buttons, keys;
    bool wheel = false, letters = false, command_key = false;

    bool has_room_for(const InputEvent& event) const {
        switch (event.kind) {
            case InputEvent::Kind::move:
            case InputEvent::Kind::leave:
                return buttons.empty() && !wheel;
            case InputEvent::Kind::button:
                return buttons.count(event.code) == 0 && !wheel;
            case InputEvent::Kind::wheel:
                return buttons.empty();
            case InputEvent::Kind::key:
                return keys.count(event.code) == 0 && !(letters && event.code > last_letter_key);
            case InputEvent::Kind::letter:
                return !command_key;
            case InputEvent::Kind::focus:
                return true;
        }
        return true;
    }
    void add(const InputEvent& event) {
        if (event.kind == InputEvent::Kind::button) buttons.insert(event.code);
        if (event.kind == InputEvent::Kind::wheel) wheel = true;
        if (event.kind == InputEvent::Kind::letter) letters = true;
        if (event.kind != InputEvent::Kind::key) return;
        keys.insert(event.code);
        if (event.code > last_letter_key) command_key = true;
    }
};

}  // namespace

void InputQueue::take(ImGuiIO& io, const Keyboard& keyboard) {
    FrameEvents told;
    while (!waiting_.empty() && told.has_room_for(waiting_.front())) {
        const InputEvent event = waiting_.front();
        waiting_.pop_front();
        told.add(event);
        switch (event.kind) {
            case InputEvent::Kind::move:
                outside_ = false;
                x_ = event.x;
                y_ = event.y;
                break;
            case InputEvent::Kind::leave:
                outside_ = true;
                break;
            case InputEvent::Kind::button:
                if (event.code >= 0 && event.code < buttons) down_[event.code] = event.down;
                break;
            case InputEvent::Kind::wheel:
                io.MouseWheelH += event.x;
                io.MouseWheel += event.y;
                break;
            case InputEvent::Kind::key:
                keyboard.key(event.code, event.down);
                break;
            case InputEvent::Kind::letter:
                keyboard.letter(static_cast<unsigned>(event.code));
                break;
            case InputEvent::Kind::focus:
                // Whatever was held is let go elsewhere.
                if (!event.down) std::fill(std::begin(down_), std::end(down_), false);
                io.AddFocusEvent(event.down);
                break;
        }
    }
}

void InputQueue::show_pointer(ImGuiIO& io) const {
    // A button held keeps its pointer, as it does with the window system.
    const bool held = down_[0] || down_[1] || down_[2];
    io.MousePos = outside_ && !held ? ImVec2{-FLT_MAX, -FLT_MAX} : ImVec2{x_, y_};
    for (int button = 0; button < buttons; ++button) io.MouseDown[button] = down_[button];
}

}  // namespace battwright::window
