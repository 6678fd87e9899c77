// Draws the window at three sizes in both themes; the README shows two of the pictures.
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include "display.hpp"
#include "window/window.hpp"

namespace {

namespace fs = std::filesystem;
using battwright::window::Shade;

struct Picture {
    std::string name, recipe;
    int width = 0, height = 0;
    Shade shade = Shade::light;
    double scale = 1.0;
};

const std::vector<Picture>& pictures() {
    static const std::vector<Picture> all{
        {"bench-light", "kelp-and-brass", 1280, 800, Shade::light, 1.0},
        {"bench-dark", "low-tide-scraps", 1920, 1080, Shade::dark, 1.25},
        {"small-dark", "dawn-tide", 1280, 800, Shade::dark, 1.0},
        {"middle-light", "dawn-tide", 1920, 1080, Shade::light, 1.0},
        {"large-light", "mismatched-crew", 3840, 2160, Shade::light, 2.0},
        {"large-dark", "gull-speckle", 3840, 2160, Shade::dark, 2.0},
    };
    return all;
}

int draw(const Picture& picture, const fs::path& folder) {
    battwright::window::Options options;
    options.catalogue = &battwright::fibre::Catalogue::builtin();
    options.recipe = fs::path(BATTWRIGHT_SOURCE_DIR) / "blends" / (picture.recipe + ".toml");
    options.screenshot = (folder / (picture.name + ".png")).string();
    options.width = picture.width;
    options.height = picture.height;
    options.shade = picture.shade;
    options.scale = picture.scale;
    return battwright::window::run(options);
}

}  // namespace

// Usage: draw_screenshots FOLDER [NAME]
int main(int argc, char** argv) {
    if (argc < 2 || !display::ensure_display()) {
        std::fputs("usage: draw_screenshots FOLDER [NAME], with a display or Xvfb\n", stderr);
        return 2;
    }
    fs::create_directories(argv[1]);
    for (const Picture& picture : pictures()) {
        if (argc > 2 && picture.name != argv[2]) continue;
        if (const int code = draw(picture, argv[1]); code != 0) return code;
    }
    return 0;
}
