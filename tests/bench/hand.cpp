#include "hand.hpp"

#include <sys/resource.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <thread>
#include <vector>

#include "window/gl/backend.hpp"
#include "window/shell/window.hpp"

namespace bench {
namespace {

using namespace battwright;
using window::InputEvent;
using Clock = std::chrono::steady_clock;
using Kind = InputEvent::Kind;

constexpr double warm_up_seconds = 3.0, work_seconds = 4.0;

double cpu_seconds() {
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    const auto seconds = [](const timeval& t) { return double(t.tv_sec) + 1e-6 * double(t.tv_usec); };
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

// Settings, state and stash of a window that is opened for the first time but for the guide.
class Home {
  public:
    Home() : path_(std::filesystem::temp_directory_path() / ("battwright-hand-" + std::to_string(getpid()))) {
        std::filesystem::create_directories(path_ / "config");
        std::ofstream(path_ / "config" / "window.toml") << "guide_seen = true\n";
    }
    ~Home() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Home(const Home&) = delete;
    Home& operator=(const Home&) = delete;
    window::Options options(const std::string& recipe) const {
        window::Options options;
        options.recipe = recipe;
        options.width = 1280;
        options.height = 800;
        options.scale = 1.0;
        options.config_folder = path_ / "config";
        options.state_folder = path_ / "state";
        options.stash = path_ / "stash.db";
        return options;
    }

  private:
    std::filesystem::path path_;
};

std::optional<window::Box> box_of(const Home& home, const std::string& recipe, const std::string& label) {
    std::optional<window::Box> found;
    auto options = home.options(recipe);
    options.driver = [&](const window::Probe& probe, window::Input& input) {
        if (probe.frame < 10) return;
        if (const auto at = probe.boxes.find(label); at != probe.boxes.end()) found = at->second;
        input.quit = true;
    };
    if (window::run(options) != 0) found.reset();
    return found;
}

// What arrives when: nothing while the window warms up, then the work, then the end of the program.
class Hand {
  public:
    Hand(std::string work, const window::Box& box, double moves_a_second)
        : work_(std::move(work)),
          box_(box),
          beat_(std::chrono::duration_cast<Clock::duration>(
              std::chrono::duration<double>(1.0 / moves_a_second))) {}

    std::vector<InputEvent> arrivals() {
        const std::chrono::duration<double> since = Clock::now() - begun_;
        const double t = since.count() - warm_up_seconds;
        std::vector<InputEvent> events;
        if (t < 0.0) return events;
        if (!started_) {
            started_ = cpu_seconds();
            if (work_ != "still") events.push_back({Kind::move, box_.middle_x(), box_.middle_y()});
            if (work_ == "border") events.push_back({Kind::button, 0.0f, 0.0f, 0, true});
        } else if (t >= work_seconds && !taken_) {
            // Said at once: the signal ends the program as it ends any.
            std::printf("%.4f\n", (cpu_seconds() - *started_) / t);
            std::fflush(stdout);
            taken_ = true;
            ::kill(::getpid(), SIGTERM);
        } else if (work_ != "still" && Clock::now() >= next_) {
            const auto reach = static_cast<float>(40.0 * std::sin(t));
            events.push_back({Kind::move, box_.middle_x() + reach, box_.middle_y()});
            next_ = Clock::now() + 9 * beat_ / 10;
        }
        return events;
    }
    bool taken() const { return taken_; }

  private:
    std::string work_;
    window::Box box_;
    Clock::duration beat_;
    Clock::time_point begun_ = Clock::now(), next_ = begun_;
    std::optional<double> started_;
    bool taken_ = false;
};

}  // namespace

int time_hand(const std::string& work, const std::string& recipe, double moves_a_second) {
    const Home home;
    // The ground between the top bar and the window's edge.
    window::Box box{300.0f, 2.0f, 302.0f, 4.0f};
    if (work == "border") {
        const auto border = box_of(home, recipe, "border 1");
        if (!border) {
            std::fputs("there is no border to drag\n", stderr);
            return 2;
        }
        box = *border;
    }
    Hand hand(work, box, moves_a_second);
    auto options = home.options(recipe);
    options.arrivals = [&hand] { return hand.arrivals(); };
    std::atomic<bool> done{false};
    std::thread waker([&done, &work, moves_a_second] {
        // A still hand wakes nobody but to end, another at its moves.
        const std::chrono::duration<double> pause(work == "still" ? 0.5 : 1.0 / moves_a_second);
        while (!done) {
            window::Backend::wake();
            std::this_thread::sleep_for(pause);
        }
    });
    const int code = window::run(options);
    done = true;
    waker.join();
    return code == 0 && hand.taken() ? 0 : 2;
}

}  // namespace bench
