// A plan with too few fibres in the section is a finding beside the mixture's own.
#include "forecast/yarn_findings.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "forecast/forecast.hpp"
#include "recipe/thickness.hpp"

using namespace battwright;

namespace {

forecast::Forecast planned(const char* thickness, int plies, std::optional<double> yarn_grams = {}) {
    recipe::Recipe recipe;
    recipe.name = "Spring tide";
    recipe::Component component;
    component.content = {{"merino-fine", 100.0}};
    component.amount = measure::Mass{60.0, measure::MassUnit::gram};
    recipe.components.push_back(component);
    recipe.spinning.plies = plies;
    recipe.spinning.thickness = *recipe::parse_thickness(thickness);
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    bench.yarn_grams = yarn_grams;
    auto made = forecast::forecast(recipe, bench);
    REQUIRE(made.has_value());
    return std::move(*made);
}

const staple::Finding* found(const forecast::Forecast& f) {
    const auto at = std::find_if(f.findings.begin(), f.findings.end(),
                                 [](const auto& finding) { return finding.code == "too-few-fibres"; });
    return at == f.findings.end() ? nullptr : &*at;
}

}  // namespace

TEST_CASE("a yarn the fibre cannot make spoils, one at the limit warns, a usual one is quiet") {
    const auto hopeless = planned("110 wpi", 4);
    REQUIRE(found(hopeless) != nullptr);
    CHECK(found(hopeless)->severity == staple::Severity::spoils);
    CHECK(found(hopeless)->text.find("fibres across") != std::string::npos);
    CHECK_FALSE(found(hopeless)->remedy.empty());
    CHECK(std::is_sorted(hopeless.findings.begin(), hopeless.findings.end(),
                         [](const auto& a, const auto& b) { return a.severity > b.severity; }));
    const auto usual = planned("12 wpi", 2);
    CHECK(found(usual) == nullptr);
    // Just past the finest sensible yarn.
    const std::string just_past = std::to_string(usual.yarn.finest_wpi * 1.1) + " wpi";
    REQUIRE(found(planned(just_past.c_str(), 2)) != nullptr);
    CHECK(found(planned(just_past.c_str(), 2))->severity == staple::Severity::warning);
}

TEST_CASE("a forecast may start from the finished yarn's weight") {
    const auto f = planned("sport", 2, 92.0);
    CHECK(f.yarn.yarn_grams == doctest::Approx(92.0).epsilon(1e-12));
    CHECK(f.yarn.length_m == doctest::Approx(1000.0 * 92.0 / f.yarn.tex));  // ISO 1144
    CHECK(f.total_grams == 60.0);
}
