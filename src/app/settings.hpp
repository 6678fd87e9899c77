// What the window remembers from one evening to the next.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "measure/units.hpp"

namespace battwright::app {

enum class Shade { light, dark };

struct Settings {
    Shade shade = Shade::light;
    double scale = 1.0;  // on top of the monitor's own, 0.75..2
    measure::MassUnit mass = measure::MassUnit::gram;
    measure::LengthUnit length = measure::LengthUnit::millimetre;
    std::string currency;  // the user's own word for it, for new costs; may be empty
    bool guide_seen = false;
    double strip_share = 0.0;                    // of the window's height that the strip has; 0: as is usual
    std::string winder;                          // one turn of the winder, as typed: "1.5 m"
    std::vector<std::filesystem::path> recent;   // newest first
    std::vector<std::filesystem::path> folders;  // a file was chosen in, the latest first
    bool operator==(const Settings&) const = default;
};
// The example of the two that is in the user's own unit of weight, of length.
inline const char* example_of(measure::MassUnit unit, const char* grams, const char* ounces) {
    return unit == measure::MassUnit::gram ? grams : ounces;
}
inline const char* example_of(measure::LengthUnit unit, const char* metric, const char* inches) {
    return unit == measure::LengthUnit::inch ? inches : metric;
}
inline constexpr std::size_t most_recent = 12, most_visited = 8;
inline constexpr double least_strip_share = 0.12, most_strip_share = 0.7;

// The settings of `folder`/window.toml; what is missing or unreadable there is as by default.
Settings load_settings(const std::filesystem::path& folder);
measure::Expected<void> save_settings(const Settings& settings, const std::filesystem::path& folder);
// Puts the path first, once.
void remember(Settings& settings, const std::filesystem::path& path);
// The same of a folder.
void visit(Settings& settings, const std::filesystem::path& folder);

// Where they are kept (XDG Base Directory Specification 0.8): $XDG_CONFIG_HOME/battwright, else
// ~/.config/battwright; copies of unsaved work: $XDG_STATE_HOME/battwright, else ~/.local/state/battwright.
std::filesystem::path default_config_folder();
std::filesystem::path default_state_folder();
// The user's home, else the root.
std::filesystem::path home_folder();

// What a view may ask for; see action.hpp.
struct ChangeSettings {
    Settings settings;
};

}  // namespace battwright::app
