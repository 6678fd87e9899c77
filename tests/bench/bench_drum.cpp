// The drum simulation: against a frame at 60 Hz, over cells and components, and against the machine's memory.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstring>
#include <string>
#include <vector>

#include "carding/simulate.hpp"
#include "forecast/batt.hpp"

namespace {

using namespace battwright;
using Clock = std::chrono::steady_clock;

constexpr double frame_seconds = 1.0 / 60.0;

double seconds_since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

forecast::Forecast forecast_of(int components) {
    recipe::Recipe recipe;
    recipe.name = "bench";
    for (int i = 0; i < components; ++i) {
        recipe::Component component;
        component.content = {{"corriedale", 100.0}};
        const double t = (i + 0.5) / components;
        component.palette = {{{t, 0.5 + 0.4 * (i % 2), 1.0 - t}, 100.0}};
        component.amount = measure::Mass{50.0 / components, measure::MassUnit::gram};
        recipe.components.push_back(component);
    }
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    return *forecast::forecast(recipe, bench);
}

// Seconds to read and write a field of that many bytes once, as fast as this machine copies.
double copy_seconds(std::size_t bytes) {
    std::vector<char> from(bytes, 1), to(bytes, 0);
    double best = 1.0;
    for (int i = 0; i < 5; ++i) {
        const auto start = Clock::now();
        std::memcpy(to.data(), from.data(), bytes);
        benchmark::DoNotOptimize(to.data());
        best = std::min(best, seconds_since(start));
    }
    return best;
}

carding::Setup setup_for(const forecast::Forecast& f, const carding::Grid& grid) {
    auto setup = carding::setup_of(f.recipe, f.strands, f.carder, f.plan.feed, f.plan.batts);
    setup.grid = grid;
    return setup;
}

// Arguments: which grid (0 coarse, 1 usual, 2 fine), components.
void three_passes(benchmark::State& state) {
    const carding::Grid grids[] = {carding::coarse_grid, carding::default_grid, carding::fine_grid};
    const auto f = forecast_of(static_cast<int>(state.range(1)));
    const auto setup = setup_for(f, grids[state.range(0)]);
    std::size_t bytes = 0;
    const auto start = Clock::now();
    for (auto _ : state) {
        const auto passes = carding::simulate(setup);
        bytes = passes.back().field.shares.size() * sizeof(double);
        benchmark::DoNotOptimize(passes.data());
    }
    const double seconds = seconds_since(start) / static_cast<double>(state.iterations());
    state.counters["of_frame"] = seconds / frame_seconds;
    state.counters["MB"] = static_cast<double>(bytes) / 1e6;
    // 1 would be: each pass reads and writes the field once, and nothing else.
    state.counters["of_memory"] = seconds / (3.0 * copy_seconds(bytes));
}
BENCHMARK(three_passes)
    ->ArgNames({"grid", "components"})
    ->Args({0, 6})
    ->Args({1, 2})
    ->Args({1, 6})
    ->Args({1, 12})
    ->Args({2, 6})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

// All that the window waits for: three passes and what is measured on them.
void carded_batt(benchmark::State& state) {
    const auto f = forecast_of(6);
    const auto start = Clock::now();
    for (auto _ : state)
        benchmark::DoNotOptimize(forecast::batt_of(f, {3, state.range(0) != 0, 0}).measures.data());
    state.counters["of_frame"] =
        seconds_since(start) / static_cast<double>(state.iterations()) / frame_seconds;
}
BENCHMARK(carded_batt)->ArgName("coarse")->Arg(1)->Arg(0)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
