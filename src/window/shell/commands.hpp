// Every key of the window, and what each command does: one row each.
#pragma once

#include <array>
#include <optional>

#include "window/kit/ui.hpp"

namespace battwright::window {

struct Shell;

struct Shortcut {
    const char* keys = nullptr;  // as the page of keys names it
    const char* does = nullptr;
    // The command it gives, with Ctrl held; without one the key is handled where it works.
    std::optional<Command> command{};
    int key = 0;  // GLFW_KEY_...
    bool shift = false;
};
inline constexpr std::size_t shortcut_count = 38;
// In the order in which they are shown.
const std::array<Shortcut, shortcut_count>& shortcuts_shown();

// Does it: an action on the state, or a panel that opens.
void do_command(Shell& shell, Command command);
// Applies an action, and does what is the window's own part of it.
void act(Shell& shell, const Action& action);

}  // namespace battwright::window
