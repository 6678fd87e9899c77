// Where the window keeps what it remembers (XDG Base Directory Specification 0.8).
#pragma once

#include <filesystem>

namespace battwright::app {

// $XDG_CONFIG_HOME/battwright, else ~/.config/battwright.
std::filesystem::path default_config_folder();
// $XDG_STATE_HOME/battwright, else ~/.local/state/battwright.
std::filesystem::path default_state_folder();
// The user's home, else the root.
std::filesystem::path home_folder();

}  // namespace battwright::app
