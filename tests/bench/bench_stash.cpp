// The stash as it grows, as ratios: `of_frame` is a row's time over one frame at 60 Hz. Ten movements a lot.
#include <benchmark/benchmark.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <random>

#include "colour/spaces.hpp"
#include "stash/stash.hpp"

namespace {

using namespace battwright;
namespace fs = std::filesystem;

constexpr double frame_seconds = 1.0 / 60.0;
constexpr int movements_a_lot = 10;

template <class Work>
void time_in_frames(benchmark::State& state, const Work& work) {
    const auto start = std::chrono::steady_clock::now();
    for (auto _ : state) work();
    const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - start;
    state.counters["of_frame"] = elapsed.count() / static_cast<double>(state.iterations()) / frame_seconds;
}

template <class T, class E>
T got(tl::expected<T, E> expected) {
    if (!expected) std::abort();
    if constexpr (!std::is_void_v<T>) return std::move(*expected);
}

stash::Lot any_lot(std::mt19937& random) {
    std::uniform_real_distribution<double> channel(0.0, 1.0);
    const auto colour = [&] { return colour::Srgb{channel(random), channel(random), channel(random)}; };
    stash::Lot lot;
    lot.name = "Harbour fog " + std::to_string(random() % 1000);
    lot.content = {{"merino-fine", 70.0}, {"tussah-silk", 30.0}};
    lot.palette = {{colour(), 50.0}, {colour(), 30.0}, {colour(), 20.0}};
    lot.form = static_cast<stash::Form>(random() % 12);
    lot.maker = "Saltmarsh Farm";
    lot.got_on = "20" + std::to_string(10 + random() % 15) + "-05-17";
    lot.place = "blue chest";
    lot.notes = "smells of kelp; second shearing; for the winter";
    return lot;
}

// Stashes of each size, made once and removed at the end.
class Stashes {
  public:
    Stashes() : folder_(fs::temp_directory_path() / ("battwright-bench-" + std::to_string(::getpid()))) {
        fs::create_directories(folder_);
    }
    ~Stashes() {
        std::error_code error;
        fs::remove_all(folder_, error);
    }
    Stashes(const Stashes&) = delete;
    Stashes& operator=(const Stashes&) = delete;

    fs::path of(int lots) {
        const fs::path path = folder_ / (std::to_string(lots) + ".db");
        if (!fs::exists(path)) fill(path, lots);
        return path;
    }

  private:
    static void fill(const fs::path& path, int lots) {
        stash::Stash stash = got(stash::Stash::open(path));
        std::mt19937 random(1);
        got(stash.all_or_nothing([&]() -> measure::Expected<void> {
            for (int i = 0; i < lots; ++i) {
                const std::string mark = got(stash.add(any_lot(random), 200.0)).mark;
                for (int m = 1; m < movements_a_lot; ++m)
                    got(stash.move({mark, stash::Reason::given, 1.0 + m, "2025-01-01", "", {}}));
            }
            return {};
        }));
    }
    fs::path folder_;
};

Stashes& stashes() {
    static Stashes all;
    return all;
}

int lots_of(const benchmark::State& state) {
    return static_cast<int>(state.range(0));
}

// To the first picture of the shelf, as the window does it.
void open_stash(benchmark::State& state) {
    const fs::path path = stashes().of(lots_of(state));
    time_in_frames(state, [&] {
        const stash::Stash stash = got(stash::Stash::open(path));
        benchmark::DoNotOptimize(got(stash.shelf()));
    });
}

void filter_by_colour(benchmark::State& state, bool any_tint) {
    const stash::Stash stash = got(stash::Stash::open(stashes().of(lots_of(state))));
    stash::Filter filter;
    filter.near = stash::NearColour{{45.0, -20.0, 8.0}, 20.0, any_tint};
    time_in_frames(state, [&] { benchmark::DoNotOptimize(got(stash.shelf(filter, stash::Order::nearest))); });
}
void filter_by_mean_colour(benchmark::State& state) {
    filter_by_colour(state, false);
}
void filter_by_any_tint(benchmark::State& state) {
    filter_by_colour(state, true);
}

void filter_by_text(benchmark::State& state) {
    const stash::Stash stash = got(stash::Stash::open(stashes().of(lots_of(state))));
    stash::Filter filter;
    filter.text = "kelp fog silk";
    time_in_frames(state, [&] { benchmark::DoNotOptimize(got(stash.shelf(filter, stash::Order::name))); });
}

stash::Carding twelve_lines(const stash::Shelf& shelf) {
    stash::Carding carding;
    carding.name = "bench";
    for (std::size_t i = 0; i < 12; ++i) carding.lines.push_back({shelf.lots[i * 7]->lot.mark, 0.001});
    return carding;
}

void card_and_take_back(benchmark::State& state) {
    stash::Stash stash = got(stash::Stash::open(stashes().of(lots_of(state))));
    const stash::Carding carding = twelve_lines(*got(stash.shelf()));
    time_in_frames(state, [&] { got(stash.take_back(got(stash.card_it(carding)).id)); });
}

// What the window waits for after a change: the whole shelf is read anew.
void shelf_after_a_change(benchmark::State& state) {
    stash::Stash stash = got(stash::Stash::open(stashes().of(lots_of(state))));
    const std::string mark = got(stash.shelf())->lots[0]->lot.mark;
    double grams = 10.0;
    time_in_frames(state, [&] {
        grams = 30.0 - grams;
        got(stash.weigh_again(mark, grams));
        benchmark::DoNotOptimize(got(stash.shelf()));
    });
}

void integrity(benchmark::State& state) {
    const stash::Stash stash = got(stash::Stash::open(stashes().of(lots_of(state))));
    time_in_frames(state, [&] { benchmark::DoNotOptimize(got(stash.integrity())); });
}

#define GROWING(name) BENCHMARK(name)->Arg(100)->Arg(1000)->Arg(10000)->Unit(benchmark::kMillisecond)
GROWING(open_stash);
GROWING(filter_by_mean_colour);
GROWING(filter_by_any_tint);
GROWING(filter_by_text);
GROWING(shelf_after_a_change);
GROWING(card_and_take_back);
GROWING(integrity);

}  // namespace

BENCHMARK_MAIN();
