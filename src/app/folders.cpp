#include "app/folders.hpp"

#include <cstdlib>

namespace battwright::app {
namespace {

namespace fs = std::filesystem;

// The specification says to ignore a relative path in the variable.
fs::path from_environment(const char* variable, const fs::path& otherwise) {
    const char* value = std::getenv(variable);
    const fs::path base = value != nullptr && fs::path(value).is_absolute() ? fs::path(value) : otherwise;
    return base / "battwright";
}

}  // namespace

fs::path home_folder() {
    const char* home = std::getenv("HOME");
    return home != nullptr && *home != '\0' ? fs::path(home) : fs::path("/");
}

fs::path default_config_folder() {
    return from_environment("XDG_CONFIG_HOME", home_folder() / ".config");
}

fs::path default_state_folder() {
    return from_environment("XDG_STATE_HOME", home_folder() / ".local" / "state");
}

}  // namespace battwright::app
