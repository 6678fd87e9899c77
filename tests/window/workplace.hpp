// A window with settings, state and stash in a folder of its own, driven by a script.
#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <optional>
#include <string>

#include "app/settings.hpp"
#include "display.hpp"
#include "folder.hpp"
#include "place.hpp"
#include "script.hpp"
#include "window/shell/window.hpp"

namespace workplace {

using namespace battwright;
namespace fs = std::filesystem;

inline constexpr const char* guide_seen = "guide_seen = true\n";

// The folder, with these settings in it.
struct Place : testing::Folder {
    explicit Place(const std::string& name, const std::string& settings = guide_seen) : Folder(name) {
        fs::create_directories(path / "config");
        if (!settings.empty()) std::ofstream(path / "config" / "window.toml") << settings;
    }
    fs::path stash() const { return path / "stash.db"; }
};

struct Look {
    int width = 1280, height = 800;
    std::optional<window::Shade> shade{};
    std::optional<fs::path> recipe{};
    double scale = 1.0;
};

inline fs::path example(const std::string& name) {
    return fs::path(battwright::testing::source_dir()) / "blends" / (name + ".toml");
}

inline window::Options options_in(const Place& place, script::Script& script, const Look& look = {}) {
    REQUIRE(display::ensure_display());
    window::Options options;
    options.catalogue = &fibre::Catalogue::builtin();
    options.width = look.width;
    options.height = look.height;
    options.scale = look.scale;
    options.shade = look.shade;
    options.config_folder = place.path / "config";
    options.state_folder = place.path / "state";
    options.stash = place.stash();
    options.driver = script.driver();
    options.recipe = look.recipe;
    return options;
}

inline script::Script::Step drop(const std::string& path) {
    return [=](const script::Probe&, script::Input& input, int phase) {
        if (phase == 0) input.dropped = {path};
        if (phase == 1) input.dropped.clear();
        return phase >= 3;
    };
}

// Every step of the script is gone through, or the test fails.
inline void run(const Place& place, script::Script& script, const Look& look = {}) {
    CHECK(window::run(options_in(place, script, look)) == 0);
    CHECK(script.finished());
}

// For a person to look at: kept where the variable names a folder.
inline void picture(script::Script& script, const char* variable, const std::string& name) {
    const char* folder = std::getenv(variable);
    if (folder == nullptr) return;
    script.step([path = (fs::path(folder) / (name + ".png")).string()](const script::Probe&,
                                                                       script::Input& input, int phase) {
        if (phase == 0) input.picture = path;
        return phase > 2 && fs::exists(path);
    });
}

}  // namespace workplace
