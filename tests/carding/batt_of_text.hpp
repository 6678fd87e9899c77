// A batt from the text of a recipe, and what is told of it.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "carding/findings.hpp"
#include "carding/plan.hpp"
#include "recipe/file.hpp"

namespace battwright::testing::carded {

struct Laid {
    recipe::Recipe recipe;
    std::vector<recipe::Strand> strands;
    recipe::Carder carder;
    double grams = 0.0;
};

inline Laid laid(const std::string& text) {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto recipe = recipe::read_text("format = 1\n" + text, "r.toml", catalogue);
    REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
    const auto masses = recipe::masses_of(*recipe);
    return {*recipe, recipe::strands_of(*recipe, *masses, catalogue), recipe::carder_of(recipe->carding),
            masses->total_grams};
}

// One component of a wool, as the tag says.
inline std::string wool(double grams, double mm, double um, const char* fibre = "corriedale") {
    return "[[component]]\nfibre = \"" + std::string(fibre) + "\"\nweight = \"" +
           measure::write_number(grams) + " g\"\nstaple = \"" + measure::write_number(mm) +
           " mm\"\ndiameter = \"" + measure::write_number(um) + " um\"\n";
}

inline carding::Plan plan_for(const Laid& batt) {
    return carding::plan_of(batt.recipe, batt.strands, batt.carder, carding::feed_of(batt.recipe.carding));
}

inline bool finds(const std::string& code, const std::string& text) {
    const Laid batt = laid(text);
    const auto all = carding::feeding_findings(batt.recipe, batt.strands, batt.carder, batt.grams);
    return std::any_of(all.begin(), all.end(), [&](const auto& finding) { return finding.code == code; });
}

}  // namespace battwright::testing::carded
