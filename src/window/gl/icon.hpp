#pragma once

struct GLFWwindow;

namespace battwright::window {

// Gives the window the program's icon. Where windows have none (Wayland) nothing happens.
void give_icon(GLFWwindow* window);

}  // namespace battwright::window
