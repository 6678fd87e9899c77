// From a stroke on the drum unrolled to what is seen of it: the window's own steps, without its drawing.
#include <benchmark/benchmark.h>

#include <chrono>
#include <memory>

#include "app/bench/carding_worker.hpp"
#include "app/lay/canvas.hpp"
#include "forecast/forecast.hpp"

namespace {

using namespace battwright;

constexpr double frame_seconds = 1.0 / 60.0;

forecast::Bench laying_table() {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    return bench;
}

// Three wools of 20 g on the standard drum, two passes, and so many strokes on it already.
app::Sheet laid_sheet(int strokes, app::Brush& brush) {
    recipe::Recipe recipe;
    recipe.name = "strokes";
    recipe.carding.passes = 2;
    for (int i = 0; i < 3; ++i) {
        recipe::Component component;
        component.name = "wool " + std::to_string(i + 1);
        component.content = {{"corriedale", 100.0}};
        component.palette = {{{0.2 + 0.3 * i, 0.3, 0.7 - 0.25 * i}, 100.0}};
        component.amount = measure::Mass{20.0, measure::MassUnit::gram};
        recipe.components.push_back(component);
    }
    app::Sheet sheet = app::as_list(app::sheet_of(recipe), fibre::Catalogue::builtin());
    brush.by_weight = true;
    brush.grams = 0.5;
    for (int i = 0; i < strokes; ++i) {
        brush.what = "wool " + std::to_string(i % 3 + 1);
        const double along = 8.0 * i;
        brush = app::placed(brush, {5.0 * (i % 20), 5.0 * (i % 20) + 60.0, along, along + 90.0},
                            app::surface_of(recipe));
        sheet = app::lay_stroke(sheet, brush, 1).sheet;
    }
    brush.what = "wool 2";
    return sheet;
}

// One more stroke as far as `see`, which is given the forecast with it.
template <class See>
void stroke(benchmark::State& state, const See& see) {
    app::Brush brush;
    const app::Sheet start = laid_sheet(static_cast<int>(state.range(0)), brush);
    brush = app::placed(brush, {100.0, 160.0, 300.0, 420.0}, app::surface_of(start.recipe));
    const auto begin = std::chrono::steady_clock::now();
    for (auto _ : state) {
        const app::Sheet laid = app::lay_stroke(start, brush, 1).sheet;
        auto made = forecast::forecast(laid.recipe, laying_table());
        if (!made) return state.SkipWithError(made.error().what.c_str());
        see(std::make_shared<const forecast::Forecast>(std::move(*made)));
    }
    const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - begin;
    state.counters["of_frame"] = elapsed.count() / static_cast<double>(state.iterations()) / frame_seconds;
}

void stroke_to_surface(benchmark::State& state) {
    stroke(state,
           [](const auto& forecast) { benchmark::DoNotOptimize(app::laid_picture(*forecast, 1, {})); });
}
BENCHMARK(stroke_to_surface)
    ->Arg(3)
    ->Arg(30)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

void carded_faces(benchmark::State& state, bool coarse) {
    stroke(state, [coarse](const auto& forecast) {
        app::CardingRequest request{forecast, 1, 2};
        request.all_passes = true;
        benchmark::DoNotOptimize(app::carded(request, coarse));
    });
}
void stroke_to_coarse_passes(benchmark::State& state) {
    carded_faces(state, true);
}
BENCHMARK(stroke_to_coarse_passes)
    ->Arg(3)
    ->Arg(30)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();
void stroke_to_full_passes(benchmark::State& state) {
    carded_faces(state, false);
}
BENCHMARK(stroke_to_full_passes)
    ->Arg(3)
    ->Arg(30)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

}  // namespace
