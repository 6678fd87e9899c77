// Recipes written in code, and the findings they give.
#pragma once

#include <doctest/doctest.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/spaces.hpp"
#include "fibre/catalogue.hpp"
#include "recipe/composition.hpp"
#include "staple/findings.hpp"

namespace recipes {

using namespace battwright;

inline recipe::Component part(const std::string& fibre, double grams, const std::string& colour = "#808080") {
    recipe::Component component;
    component.content = {{fibre, 100.0}};
    component.palette = {{colour::parse_hex(colour).value(), 100.0}};
    component.amount = measure::Mass{grams, measure::MassUnit::gram};
    return component;
}

// The same with the tag's own staple and diameter, so that a test does not hang on the catalogue's figures.
inline recipe::Component tagged(const std::string& fibre, double grams, double staple_mm,
                                double diameter_um) {
    recipe::Component component = part(fibre, grams);
    component.staple = measure::Length{staple_mm, measure::LengthUnit::millimetre};
    component.diameter_um = diameter_um;
    return component;
}

inline recipe::Component on_last_pass(recipe::Component component) {
    component.add_on_pass = recipe::last_pass;
    return component;
}

inline recipe::Recipe batt(std::vector<recipe::Component> components, int passes = 3) {
    recipe::Recipe recipe;
    recipe.name = "a test batt";
    recipe.components = std::move(components);
    recipe.carding.passes = passes;
    return recipe;
}

inline recipe::Carder carder_with(double teeth_per_square_inch, double drum_circumference_mm = 560.0) {
    recipe::Carder carder = recipe::carder_presets().front();
    carder.teeth_per_square_inch = teeth_per_square_inch;
    carder.drum_circumference_mm = drum_circumference_mm;
    carder.load_low_grams = 30.0;
    carder.load_high_grams = 80.0;
    return carder;
}

inline std::vector<recipe::Strand> strands_in(const recipe::Recipe& recipe) {
    const auto masses = recipe::masses_of(recipe);
    REQUIRE(masses);
    return recipe::strands_of(recipe, *masses, fibre::Catalogue::builtin());
}

inline std::vector<staple::Finding> findings(const recipe::Recipe& recipe,
                                             const recipe::Carder& carder = carder_with(72.0)) {
    return staple::findings_of(recipe, strands_in(recipe), carder);
}

inline std::optional<staple::Finding> finding(std::string_view code, const recipe::Recipe& recipe,
                                              const recipe::Carder& carder = carder_with(72.0)) {
    for (const staple::Finding& found : findings(recipe, carder))
        if (found.code == code) return found;
    return std::nullopt;
}

// Severities as numbers that compare: -1 none, 0 advice, 1 warning, 2 spoils.
inline int gravity(std::string_view code, const recipe::Recipe& recipe,
                   const recipe::Carder& carder = carder_with(72.0)) {
    const auto found = finding(code, recipe, carder);
    return found ? static_cast<int>(found->severity) : -1;
}
inline constexpr int none = -1, advice = 0, warning = 1, spoils = 2;

}  // namespace recipes
