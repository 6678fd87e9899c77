// Hands at the real window that know nothing of it: clicks on anything, keys, words, sizes, files let fall,
// the window closed. Each run prints its seed; BATTWRIGHT_SEED and BATTWRIGHT_STEPS repeat or lengthen it.
#include <doctest/doctest.h>

#include <array>
#include <cstdlib>
#include <random>
#include <set>

#include "app/bench/recovery.hpp"
#include "harbour.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Input;
using script::Probe;
namespace fs = std::filesystem;

namespace {

unsigned window_setting(const char* name, unsigned otherwise) {
    const char* given = std::getenv(name);
    return given != nullptr ? static_cast<unsigned>(std::atoi(given)) : otherwise;
}

// What is saved under a bare name lands in this folder, whatever was typed.
class Within {
  public:
    explicit Within(const fs::path& folder) : before_(fs::current_path()) { fs::current_path(folder); }
    ~Within() { fs::current_path(before_); }
    Within(const Within&) = delete;
    Within& operator=(const Within&) = delete;

  private:
    fs::path before_;
};

constexpr std::array letters{GLFW_KEY_Z, GLFW_KEY_Y, GLFW_KEY_S, GLFW_KEY_N, GLFW_KEY_P, GLFW_KEY_R,
                             GLFW_KEY_B, GLFW_KEY_L, GLFW_KEY_F, GLFW_KEY_1, GLFW_KEY_2, GLFW_KEY_3};
constexpr std::array plain_keys{GLFW_KEY_TAB, GLFW_KEY_ENTER, GLFW_KEY_ESCAPE, GLFW_KEY_SPACE,
                                GLFW_KEY_UP,  GLFW_KEY_DOWN,  GLFW_KEY_LEFT,   GLFW_KEY_RIGHT,
                                GLFW_KEY_F1,  GLFW_KEY_HOME,  GLFW_KEY_END,    GLFW_KEY_DELETE};
constexpr std::array words{"12 g",    "0",      "-3 g",       "1e308 g", "12 wpi",  "worsted",
                           "50 %",    "##x",    "%s%n",       "nan",     "\u0663",  "2 parts",
                           "1:8.5",   "tussah", "",           "25,5 g",  "#2f5d50", "corri",
                           "10000 m", "\u05e9", "2024-02-30", "kelp.png"};

// One thing a hand does takes a few frames.
class BlindHands {
  public:
    BlindHands(unsigned seed, const fs::path& folder) : random_(seed), folder_(folder) {}

    void act(const Probe& probe, Input& input) {
        for (const auto& [label, box] : probe.boxes)
            if (label.rfind("lot ", 0) == 0 && label.size() == 4 + stash::mark_length &&
                label.find_first_of("abcdefghijklmnopqrstuvwxyz", 4) == std::string::npos)
                seen_.insert(label.substr(4));
        if (left_ == 0)
            begin(probe, input);
        else
            go_on(input);
    }
    int done() const { return done_; }
    const std::set<std::string>& lots_seen() const { return seen_; }

  private:
    std::size_t below(std::size_t most) { return random_() % most; }
    template <class All>
    auto any(const All& all) {
        return all[below(all.size())];
    }

    void begin(const Probe& probe, Input& input) {
        ++done_;
        left_ = 4;
        input.left_down = false;
        // The panels of files lead all over the disk: only out of them, or what stands there is taken.
        const bool files = probe.state.at("files") == "open" || probe.state.at("files to save") == "open";
        if (files) return press_key(input, below(3) == 0 ? GLFW_KEY_ENTER : GLFW_KEY_ESCAPE);
        const std::size_t what = below(100);
        if (what < 50) return point_at_something(probe, input);
        if (what < 58) return input.point(static_cast<float>(below(1300)), static_cast<float>(below(900)));
        if (what < 70) {
            input.text = any(words);
            next_key_ = any(std::array{GLFW_KEY_ENTER, GLFW_KEY_TAB, GLFW_KEY_ESCAPE});
            return;
        }
        if (what < 80) return press_key(input, any(plain_keys));
        if (what < 90) {
            control_ = true;
            return press_key(input, any(letters));
        }
        if (what < 93) return drop(input);
        if (what < 95) {
            input.width = static_cast<int>(300 + below(1500));
            input.height = static_cast<int>(200 + below(900));
            return;
        }
        if (what < 98) {
            input.wheel = below(2) == 0 ? 3.0f : -3.0f;
            return;
        }
        input.close = true;
    }
    void point_at_something(const Probe& probe, Input& input) {
        if (probe.boxes.empty()) return;
        const auto& box =
            std::next(probe.boxes.begin(), static_cast<std::ptrdiff_t>(below(probe.boxes.size())))->second;
        input.point(box.middle_x(), box.middle_y());
        press_ = true;
        drag_ = below(8) == 0 ? static_cast<float>(below(300)) - 150.0f : 0.0f;
    }
    void press_key(Input& input, int key) {
        key_ = key;
        shift_ = below(6) == 0;
        keys(input, true);
    }
    void keys(Input& input, bool down) {
        if (control_) input.keys.push_back({GLFW_KEY_LEFT_CONTROL, down});
        if (shift_) input.keys.push_back({GLFW_KEY_LEFT_SHIFT, down});
        input.keys.push_back({key_, down});
    }
    void drop(Input& input) {
        static constexpr std::array names{"kelp.png", "junk.png", "other.toml", "junk.toml", "none.jpg"};
        input.dropped = {(folder_ / any(names)).string()};
    }
    void go_on(Input& input) {
        --left_;
        if (press_) {
            input.left_down = left_ == 3 || left_ == 2;
            if (left_ == 2 && drag_ != 0.0f) input.point(input.x + drag_, input.y + 0.5f * drag_);
        }
        if (key_ != 0 && left_ == 2) {
            keys(input, false);
            key_ = 0;
            control_ = shift_ = false;
        }
        if (next_key_ != 0 && left_ == 3) {
            key_ = std::exchange(next_key_, 0);
            shift_ = false;
            keys(input, true);
        }
        if (left_ == 0) press_ = false;
    }

    std::mt19937 random_;
    fs::path folder_;
    int left_ = 0, done_ = 0;
    int key_ = 0, next_key_ = 0;
    bool control_ = false, shift_ = false, press_ = false;
    float drag_ = 0.0f;
    std::set<std::string> seen_;
};

// The marks in every stash there is in the folder: the stash itself, and what was kept of it.
std::set<std::string> marks_in(const fs::path& folder) {
    std::set<std::string> marks;
    for (const auto& entry : fs::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        if (!name.starts_with("stash.db") || name.ends_with("-wal") || name.ends_with("-shm")) continue;
        stash::OpenOptions how;
        how.create = false;
        const auto file = stash::Stash::open(entry.path(), how);
        REQUIRE(file);
        CHECK(file->integrity()->problems.empty());
        for (const auto& lot : file->shelf().value()->lots) marks.insert(lot->lot.mark);
    }
    return marks;
}

void fill_place(const workplace::Place& place) {
    harbour::fill(place.stash());
    const strip::Image image{40, 30, std::vector<std::uint8_t>(40 * 30 * 3, 77)};
    REQUIRE(strip::save_png(image, place.path / "kelp.png"));
    std::ofstream(place.path / "junk.png") << "no picture at all";
    std::ofstream(place.path / "junk.toml") << "format = ";
    fs::copy_file(workplace::example("kelp-and-brass"), place.path / "kelp.toml");
    fs::copy_file(workplace::example("kelp-and-brass"), place.path / "other.toml");
}

void check_readable(const fs::path& path) {
    CAPTURE(path);
    const auto read = recipe::read_file(path.string(), fibre::Catalogue::builtin());
    if (!read) FAIL_CHECK(measure::to_line(read.error()));
}

}  // namespace

TEST_CASE("random clicks, keys, words, sizes and closings: no crash, every file whole, no lot lost") {
    const unsigned first = window_setting("BATTWRIGHT_SEED", 1);
    const int steps = static_cast<int>(window_setting("BATTWRIGHT_STEPS", 60));
    for (unsigned seed = first; seed < first + 2; ++seed) {
        MESSAGE("seed ", seed, ", ", steps, " steps");
        CAPTURE(seed);
        const workplace::Place place("random-window");
        fill_place(place);
        const Within within(place.path);
        const auto before = marks_in(place.path);
        BlindHands hands(seed, place.path);
        script::Script nothing;
        workplace::Look look;
        look.recipe = place.path / "kelp.toml";
        // Closed by a random press, it is opened again: what it left must be found whole.
        while (hands.done() < steps) {
            auto options = workplace::options_in(place, nothing, look);
            options.driver = [&](const Probe& probe, Input& input) {
                if (probe.frame < 5) return;
                hands.act(probe, input);
                input.quit = hands.done() >= steps;
            };
            REQUIRE(window::run(options) == 0);
        }
        auto marks = marks_in(place.path);
        for (const auto& mark : before) CHECK(marks.contains(mark));
        for (const auto& mark : hands.lots_seen()) CHECK(marks.contains(mark));
        check_readable(place.path / "kelp.toml");
        check_readable(place.path / "other.toml");
        // As a crash would have left it.
        for (const auto& left : app::Recovery::left_behind(place.path / "state")) {
            const auto read = recipe::read_text(left.text, left.file.string(), fibre::Catalogue::builtin());
            if (!read) FAIL_CHECK(measure::to_line(read.error()));
        }
    }
}
