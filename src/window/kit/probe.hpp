// What a test or a script can see of the window and do to it: widgets by their own labels, input by hand.
#pragma once

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace battwright::window {

// A rectangle in window pixels.
struct Box {
    float left = 0.0f, top = 0.0f, right = 0.0f, bottom = 0.0f;
    float middle_x() const { return 0.5f * (left + right); }
    float middle_y() const { return 0.5f * (top + bottom); }
};

// Where each labelled widget was drawn in the last frame, and how things stand. Filled only when asked for.
struct Probe {
    bool wanted = false;
    std::map<std::string, Box> boxes;
    std::map<std::string, Box> boxes_before;   // of the frame before the last: what stood there at rest
    std::map<std::string, std::string> state;  // "recipe", "path", "unsaved", "undo steps", ...
    std::set<std::string> cut;                 // what is cut off at a side, or narrower than its words
    long frame = 0;
    long painted = 0;  // frames that differed from the one before

    void mark(const std::string& label, const Box& box) {
        if (wanted) boxes[label] = box;
    }
    void mark_cut(const std::string& label) {
        if (wanted) cut.insert(label);
    }
};

// One thing the window system tells: the pointer moved or left, a button, the wheel, a key, a letter, focus.
struct InputEvent {
    enum class Kind { move, leave, button, wheel, key, letter, focus };
    Kind kind = Kind::move;
    float x = 0.0f, y = 0.0f;  // where the pointer is, or how far the wheel went
    int code = 0;              // button 0 (left) to 2, GLFW_KEY_..., or a Unicode letter
    bool down = false;         // pressed, or focused
};

// Input that the next frame is to see, as if a person had made it.
struct Input {
    struct Key {
        int key = 0;  // GLFW_KEY_...
        bool down = false;
    };
    float x = -1.0f, y = -1.0f;  // the pointer; stays where it was put
    bool moved = false;          // the pointer is ours and no longer the real one
    bool left_down = false;
    bool right_down = false;
    float wheel = 0.0f;
    std::vector<Key> keys;
    std::string text;                  // typed characters, UTF-8
    bool quit = false;                 // end the program at once, unsaved or not
    bool close = false;                // as the window's own button for closing it does
    std::string picture;               // save the window to this PNG after the frame
    bool repaint = false;              // paint all of it, also what is shown already
    std::vector<std::string> dropped;  // files let fall on the window
    int width = 0, height = 0;         // > 0: resize the window
    double rest_seconds = 0.0;         // leave the window alone that long, as an idle person does

    void point(float at_x, float at_y) {
        x = at_x;
        y = at_y;
        moved = true;
    }
};

// What the window system has to tell, asked for whenever it is: a test's stand-in for a hand.
using Arrivals = std::function<std::vector<InputEvent>()>;

// Called after every frame; what it writes into the input happens in the next one.
using Driver = std::function<void(const Probe&, Input&)>;

}  // namespace battwright::window
