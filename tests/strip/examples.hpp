// The example recipes, forecast and carded, for the pictures' tests.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <utility>
#include <vector>

#include "forecast/batt.hpp"
#include "place.hpp"
#include "recipe/file.hpp"

namespace examples {

using namespace battwright;

struct Made {
    forecast::Forecast forecast;
    forecast::Batt batt;
    const carding::Pass& last() const { return batt.passes.back(); }
};

inline std::filesystem::path folder() {
    return std::filesystem::path(battwright::testing::source_dir()) / "blends";
}
inline std::vector<std::filesystem::path> all() {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(folder())) paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    return paths;
}

inline recipe::Recipe recipe_of(const std::filesystem::path& path) {
    auto read = recipe::read_file(path, fibre::Catalogue::builtin());
    if (!read) FAIL(measure::to_line(read.error()));
    return std::move(*read);
}
inline Made made(const recipe::Recipe& recipe, bool coarse = false) {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    auto forecast = forecast::forecast(recipe, bench);
    if (!forecast) FAIL(measure::to_line(forecast.error()));
    Made made{std::move(*forecast), {}};
    made.batt = forecast::batt_of(made.forecast, {0, coarse, 0});
    return made;
}

}  // namespace examples
