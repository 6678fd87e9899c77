// Speed, as ratios: each row's `of_frame` is its time over one frame at 60 Hz. Not a test: machines differ.
#include <benchmark/benchmark.h>

#include <chrono>
#include <string>

#include "colour/reflectance.hpp"
#include "forecast/forecast.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "strip/table.hpp"

namespace {

using namespace battwright;

constexpr double frame_seconds = 1.0 / 60.0;

// Runs `work` for the benchmark and reports its mean time over a frame's.
template <class Work>
void time_in_frames(benchmark::State& state, const Work& work) {
    const auto start = std::chrono::steady_clock::now();
    for (auto _ : state) work();
    const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - start;
    state.counters["of_frame"] = elapsed.count() / static_cast<double>(state.iterations()) / frame_seconds;
}

// A batt of `count` components, every colour different, every third one silk.
recipe::Recipe batt_of(int count) {
    recipe::Recipe recipe;
    recipe.name = "bench";
    for (int i = 0; i < count; ++i) {
        recipe::Component component;
        component.content = {{i % 3 == 2 ? "tussah-silk" : "merino-medium", 100.0}};
        const double t = (i + 0.5) / count;
        component.palette = {{{t, 0.5 + 0.4 * (i % 2), 1.0 - t}, 100.0}};
        component.amount = measure::Mass{5.0 + i, measure::MassUnit::gram};
        recipe.components.push_back(component);
    }
    return recipe;
}

forecast::Bench table() {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    return bench;
}

void forecast_of_components(benchmark::State& state) {
    const auto recipe = batt_of(static_cast<int>(state.range(0)));
    time_in_frames(state, [&] { benchmark::DoNotOptimize(forecast::forecast(recipe, table())); });
}
BENCHMARK(forecast_of_components)->Arg(1)->Arg(3)->Arg(6)->Arg(12)->Arg(60)->Unit(benchmark::kMicrosecond);

void reflectance_of_colour(benchmark::State& state) {
    const colour::Srgb colour{0.18, 0.36, 0.31};
    time_in_frames(state, [&] { benchmark::DoNotOptimize(colour::reflectance_of(colour)); });
}
BENCHMARK(reflectance_of_colour)->Unit(benchmark::kMicrosecond);

void recipe_read(benchmark::State& state) {
    const std::string text = recipe::write_text(batt_of(12));
    time_in_frames(state, [&] {
        benchmark::DoNotOptimize(recipe::read_text(text, "bench.toml", fibre::Catalogue::builtin()));
    });
}
BENCHMARK(recipe_read)->Unit(benchmark::kMicrosecond);

void scene_of_forecast(benchmark::State& state) {
    const auto forecast = forecast::forecast(batt_of(12), table());
    time_in_frames(state, [&] { benchmark::DoNotOptimize(strip::scene_of(*forecast, 3)); });
}
BENCHMARK(scene_of_forecast)->Unit(benchmark::kMicrosecond);

void strip_on_cpu(benchmark::State& state) {
    const auto forecast = forecast::forecast(batt_of(12), table());
    const auto scene = strip::scene_of(*forecast, 3);
    time_in_frames(state, [&] {
        benchmark::DoNotOptimize(strip::draw(scene, 1920, 160, static_cast<int>(state.range(0))));
    });
}
BENCHMARK(strip_on_cpu)
    ->ArgName("threads")
    ->Arg(1)
    ->Arg(2)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

// A page of the batt on the table, flat and as all of its yarn: what a window waits for after a drag.
void table_on_cpu(benchmark::State& state) {
    const auto forecast = forecast::forecast(batt_of(12), table());
    const auto batt = forecast::batt_of(*forecast);
    strip::TableSettings ask;
    ask.view = state.range(0) == 0 ? strip::TableView::face : strip::TableView::plied;
    strip::TableCanvas canvas;
    canvas.width = 1200;
    canvas.height = 600;
    canvas.threads = 1;
    time_in_frames(state,
                   [&] { benchmark::DoNotOptimize(strip::table_picture(*forecast, batt, ask, canvas)); });
}
BENCHMARK(table_on_cpu)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

BENCHMARK_MAIN();
