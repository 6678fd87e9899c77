// The window: one recipe on the bench, what the drum will look like, what comes out of it.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "fibre/catalogue.hpp"
#include "window/kit/probe.hpp"
#include "window/kit/theme.hpp"

namespace battwright::window {

struct Options {
    std::optional<std::filesystem::path> recipe;  // opened at the start
    const fibre::Catalogue* catalogue = nullptr;  // must outlive run()
    std::optional<std::string> screenshot{};      // draw `frames` frames, save a PNG there and end
    int frames = 6;
    int width = 0, height = 0;      // window size in pixels; 0: what suits the monitor
    std::optional<Shade> shade{};   // else the user's setting
    std::optional<double> scale{};  // size of everything; else monitor times user's setting
    std::optional<std::filesystem::path> config_folder{};  // else $XDG_CONFIG_HOME/battwright
    std::optional<std::filesystem::path> state_folder{};   // else $XDG_STATE_HOME/battwright
    // Else the user's own; pictures and driven windows have none unless it is given.
    std::optional<std::filesystem::path> stash{};
    Arrivals arrivals{};  // besides those of the window system
    Driver driver{};      // a test or a script at the window's labels
};

// Opens the window and runs until it is closed. Returns the exit code: 0, or 2 with a line on stderr when
// there is no display, no OpenGL 3.3, or the screenshot cannot be written.
int run(const Options& options);

// True when a window could be opened here (an X or Wayland display is named in the environment).
bool display_available();

}  // namespace battwright::window
