// A forecast of a recipe written out in a test, on the catalogue that is built in.
#pragma once

#include <doctest/doctest.h>

#include <string>

#include "forecast/forecast.hpp"
#include "recipe/file.hpp"

namespace battwright::testing {

inline forecast::Forecast foretold(const std::string& text, const forecast::Bench& more = {}) {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto recipe = recipe::read_text(text, "r.toml", catalogue);
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    forecast::Bench bench = more;
    bench.catalogue = &catalogue;
    auto made = forecast::forecast(*recipe, bench);
    if (!made) FAIL(measure::to_line(made.error()));
    return *made;
}

}  // namespace battwright::testing
