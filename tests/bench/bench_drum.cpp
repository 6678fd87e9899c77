// The drum simulation: against a frame at 60 Hz, over cells and components, and against what the machine's
// memory and arithmetic allow.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstring>
#include <ctime>
#include <string>
#include <vector>

#include "carding/simulate.hpp"
#include "forecast/batt.hpp"
#include "jobs/wide.hpp"

namespace {

using namespace battwright;
using Clock = std::chrono::steady_clock;

constexpr double frame_seconds = 1.0 / 60.0;

// What this thread has spent: on a machine that is busy otherwise ratios still hold.
double spent_seconds() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

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
        const double start = spent_seconds();
        std::memcpy(to.data(), from.data(), bytes);
        benchmark::DoNotOptimize(to.data());
        best = std::min(best, spent_seconds() - start);
    }
    return best;
}

// x = a x + b, over and over, on numbers that stay in the nearest cache.
BATTWRIGHT_WIDE void multiply_and_add(double* numbers, std::size_t count, int rounds) {
    for (int round = 0; round < rounds; ++round) {
        for (std::size_t i = 0; i < count; ++i) numbers[i] = 0.999 * numbers[i] + 0.001;
    }
}

// Seconds that one multiplication or addition takes there, on one core.
double operation_seconds() {
    constexpr int rounds = 20000;
    std::vector<double> numbers(512, 2.0);
    double best = 1.0;
    for (int i = 0; i < 5; ++i) {
        const double start = spent_seconds();
        multiply_and_add(numbers.data(), numbers.size(), rounds);
        benchmark::DoNotOptimize(numbers.data());
        best = std::min(best, spent_seconds() - start);
    }
    return best / (2.0 * rounds * static_cast<double>(numbers.size()));
}

// Multiplications and additions of the card's own spread, which no way of working it out cell by cell can do
// without: two symmetric sums over four standard deviations, for each cell, portion and pass.
double operations_of(const carding::Setup& setup, const carding::Field& field, int passes) {
    const auto one = [](double sigma_cells) { return 3.0 * std::ceil(4.0 * sigma_cells) + 1.0; };
    const double across = setup.spread.across_mm / field.width_mm * static_cast<double>(field.grid.across);
    const double depth = setup.spread.depth_share * static_cast<double>(field.grid.depth);
    return passes * static_cast<double>(field.shares.size()) * (one(across) + one(depth));
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
    double operations = 0.0;
    const double start = spent_seconds();
    for (auto _ : state) {
        const auto passes = carding::simulate(setup, 1);
        bytes = passes.back().field.shares.size() * sizeof(double);
        operations = operations_of(setup, passes.back().field, 3);
        benchmark::DoNotOptimize(passes.data());
    }
    const double seconds = (spent_seconds() - start) / static_cast<double>(state.iterations());
    state.counters["of_frame"] = seconds / frame_seconds;
    state.counters["MB"] = static_cast<double>(bytes) / 1e6;
    // 1 would be: each pass reads and writes the field once, and nothing else.
    state.counters["of_memory"] = seconds / (3.0 * copy_seconds(bytes));
    state.counters["of_arithmetic"] = seconds / (operations * operation_seconds());
}
BENCHMARK(three_passes)
    ->ArgNames({"grid", "components"})
    ->Args({0, 6})
    ->Args({1, 1})
    ->Args({1, 3})
    ->Args({1, 6})
    ->Args({1, 12})
    ->Args({1, 60})
    ->Args({2, 6})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

// All that the window waits for: the passes and what is measured on them. Arguments: coarse or not, passes,
// threads.
void carded_batt(benchmark::State& state) {
    const auto f = forecast_of(6);
    const forecast::BattRequest request{static_cast<int>(state.range(1)), state.range(0) != 0,
                                        static_cast<int>(state.range(2))};
    const auto start = Clock::now();
    for (auto _ : state) benchmark::DoNotOptimize(forecast::batt_of(f, request).measures.data());
    state.counters["of_frame"] =
        seconds_since(start) / static_cast<double>(state.iterations()) / frame_seconds;
}
BENCHMARK(carded_batt)
    ->ArgNames({"coarse", "passes", "threads"})
    ->Args({1, 3, 1})
    ->Args({1, 3, 2})
    ->Args({0, 3, 2})
    ->Args({0, 4, 1})
    ->Args({0, 4, 2})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

}  // namespace
