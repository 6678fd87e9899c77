// Pointer and keys between two frames, handed to ImGui so that no press is lost: what came and went within
// one frame is spread over as many as it needs. No window system.
#pragma once

#include <deque>
#include <functional>

#include "window/kit/probe.hpp"

struct ImGuiIO;

namespace battwright::window {

class InputQueue {
  public:
    // What ImGui is told of keys and letters, by the window system's numbers.
    struct Keyboard {
        std::function<void(int key, bool down)> key;
        std::function<void(unsigned letter)> letter;
    };

    void push(const InputEvent& event) { waiting_.push_back(event); }
    bool empty() const { return waiting_.empty(); }
    // Takes what one frame can be told: up to the second change of a button or key, up to a movement after a
    // press, and so on. Keys and letters go to `keyboard`, wheel and focus to `io`.
    void take(ImGuiIO& io, const Keyboard& keyboard);
    // Where the pointer is and what is held, as of the last take().
    void show_pointer(ImGuiIO& io) const;

  private:
    static constexpr int buttons = 3;

    std::deque<InputEvent> waiting_;
    bool outside_ = true;
    float x_ = 0.0f, y_ = 0.0f;
    bool down_[buttons] = {};
};

}  // namespace battwright::window
