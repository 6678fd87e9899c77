// Draws the window at several sizes and sizes of text in both themes; the README shows some of the pictures.
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include "app/settings.hpp"
#include "colour/spaces.hpp"
#include "display.hpp"
#include "recipe/file.hpp"
#include "recipe/tints.hpp"
#include "stash/stash.hpp"
#include "window/shell/window.hpp"

namespace {

using namespace battwright;
namespace fs = std::filesystem;
using battwright::window::Shade;

struct Picture {
    std::string name, recipe;
    int width = 0, height = 0;
    Shade shade = Shade::light;
    double scale = 1.0;
    std::vector<std::string> press{};  // labels, one after the other, before the picture is taken
    bool day = false;                  // with the day's bags on the shelf, its batt and its skein
};

const std::vector<Picture>& pictures() {
    static const std::vector<Picture> all{
        {"bench-light", "kelp-and-brass", 1280, 800, Shade::light, 1.0},
        {"bench-dark", "low-tide-scraps", 1920, 1080, Shade::dark, 1.25},
        {"small-dark", "dawn-tide", 1280, 800, Shade::dark, 1.0},
        {"middle-light", "dawn-tide", 1920, 1080, Shade::light, 1.0},
        {"large-light", "mismatched-crew", 3840, 2160, Shade::light, 2.0},
        {"large-dark", "gull-speckle", 3840, 2160, Shade::dark, 2.0},
        {"yarn-light", "kelp-and-brass", 1280, 800, Shade::light, 1.0, {"comes out The yarn"}},
        {"day-batt", "low-tide-scraps", 1280, 800, Shade::light, 1.0},
        {"day-steps", "low-tide-scraps", 1280, 800, Shade::light, 1.0, {"drum page Steps"}},
        {"day-find", "low-tide-scraps", 1280, 800, Shade::light, 1.0, {"Find"}, true},
        {"day-card", "low-tide-scraps", 1280, 800, Shade::light, 1.0, {"Recipe card"}},
        {"day-shelf", "low-tide-scraps", 1280, 800, Shade::light, 1.0, {"left The shelf"}, true},
        {"day-sample", "low-tide-scraps", 1280, 800, Shade::light, 1.0, {"plans"}},
        {"day-skein",
         "low-tide-scraps",
         1280,
         800,
         Shade::light,
         1.0,
         {"Record", "record page Skeins", "record skein 1"},
         true},
        {"day-tag", "low-tide-scraps", 1280, 800, Shade::light, 1.0, {"Recipe card", "card kind tag"}},
        {"table-light",
         "kelp-locks-sandwich",
         1280,
         800,
         Shade::light,
         1.0,
         {"strip large", "table batt face", "table each pass"}},
        {"table-skein", "dawn-tide", 1920, 1080, Shade::dark, 1.0, {"strip large", "table skein"}},
        {"table-small", "sunrise-steps", 1280, 800, Shade::dark, 1.0, {"strip large", "table plied"}},
        {"text-130-small", "dawn-tide", 1024, 700, Shade::light, 1.3},
        {"text-160-small", "dawn-tide", 1024, 700, Shade::dark, 1.6},
        {"text-100-small", "dawn-tide", 1024, 700, Shade::light, 1.0},
        {"text-130", "mismatched-crew", 1280, 800, Shade::light, 1.3},
        {"text-160", "mismatched-crew", 1280, 800, Shade::dark, 1.6},
        {"text-160-middle", "gull-speckle", 1920, 1080, Shade::light, 1.6},
        {"text-160-large", "gull-speckle", 3840, 2160, Shade::dark, 3.2},
        {"yarn-figures",
         "dawn-tide",
         1280,
         800,
         Shade::dark,
         1.0,
         {"comes out The yarn", "yarn page In figures"}},
        {"yarn-thread", "phosphor-wake", 1280, 800, Shade::dark, 1.0, {"comes out The yarn"}},
        {"yarn-enough",
         "harbour-heather",
         1920,
         1080,
         Shade::dark,
         1.0,
         {"comes out The yarn", "yarn page Enough for"}},
    };
    return all;
}

// Presses the labels; each takes the frames a hand would.
constexpr int frames_per_press = 8;
// Until what is worked out beside the window stands in it.
constexpr int frames_at_rest = 300;
battwright::window::Driver hand(const std::vector<std::string>& labels) {
    return [labels](const battwright::window::Probe& probe, battwright::window::Input& input) {
        const auto at = static_cast<std::size_t>(probe.frame / frames_per_press);
        const long phase = probe.frame % frames_per_press;
        if (at < 1 || at > labels.size()) return;
        const auto found = probe.boxes.find(labels[at - 1]);
        if (found != probe.boxes.end() && phase == 0)
            input.point(found->second.middle_x(), found->second.middle_y());
        input.left_down = phase == 2 || phase == 3;
        if (at == labels.size() && phase > 5) input.point(2.0f, 2.0f);
    };
}

// Copied, since some pictures show the folder.
fs::path example(const std::string& name) {
    const fs::path folder = fs::temp_directory_path() / "batts";
    fs::create_directories(folder);
    const fs::path copy = folder / (name + ".toml");
    fs::copy_file(fs::path(BATTWRIGHT_SOURCE_DIR) / "blends" / (name + ".toml"), copy,
                  fs::copy_options::overwrite_existing);
    return copy;
}

// The six bits of the day on a shelf, somewhat more of each; one batt carded, its skein logged. Empty when it
// cannot be made.
fs::path stash_of_the_day() {
    const fs::path path = fs::temp_directory_path() / "batts" / "day.db";
    for (const char* ending : {"", "-wal", "-shm"}) fs::remove(path.string() + ending);
    fs::create_directories(path.parent_path());
    auto stash = stash::Stash::open(path);
    if (!stash) return {};
    struct Bit {
        const char *name, *kind, *colour;
        double grams;
    };
    stash::Carding carding;
    carding.name = "Low Tide Scraps";
    for (const Bit& bit : {Bit{"Green ends", "merino-medium", "#3c6e57", 11},
                           {"Sand top", "corriedale", "#c9b48c", 9},
                           {"No tag, soft", "unknown-wool", "#5b4a6b", 14},
                           {"Bought wool and silk", "polwarth", "#d9cfbd", 6},
                           {"Grey fleece", "shetland", "#77736e", 8},
                           {"No tag at all", "unknown-fibre", "#8a3f34", 4}}) {
        stash::Lot lot;
        lot.name = bit.name;
        lot.content = {{bit.kind, 100.0}};
        lot.palette = {{*colour::parse_hex(bit.colour), 100.0}};
        const auto added = stash->add(lot, 2.0 * bit.grams);
        if (!added) return {};
        carding.lines.push_back({added->mark, bit.grams});
    }
    const auto recipe = recipe::read_file(example("low-tide-scraps"), fibre::Catalogue::builtin());
    if (recipe) carding.recipe = recipe::write_text(*recipe);
    carding.colour = colour::Lab{46.0, 3.0, 6.0};
    const auto batt = stash->card_it(carding);
    if (!batt || !stash->off_the_drum(batt->id, 49.5)) return {};
    stash::Skein skein;
    skein.name = carding.name;
    skein.from = {{batt->id, 100.0}};
    skein.grams = 46.0;
    skein.metres = 68.0;
    skein.wpi = 9.0;
    skein.plies = 3;
    skein.palette = recipe::even_palette({*colour::parse_hex("#5f6d5c"), *colour::parse_hex("#8a6f62")});
    return stash->log(skein) ? path : fs::path();
}

int draw(const Picture& picture, const fs::path& folder) {
    battwright::window::Options options;
    options.catalogue = &battwright::fibre::Catalogue::builtin();
    options.recipe = example(picture.recipe);
    options.screenshot = (folder / (picture.name + ".png")).string();
    options.width = picture.width;
    options.height = picture.height;
    options.shade = picture.shade;
    options.scale = picture.scale;
    if (picture.day) {
        options.stash = stash_of_the_day();
        if (options.stash->empty()) return 1;
    }
    if (!picture.press.empty()) {
        options.driver = hand(picture.press);
        options.frames = frames_per_press * static_cast<int>(picture.press.size() + 2) + frames_at_rest;
    }
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
