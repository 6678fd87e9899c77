// The lines of a forecast, worked by hand from the definitions.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "forecast/forecast.hpp"
#include "forecast/staple_diagram.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using doctest::Approx;

namespace {

forecast::Forecast read_and_forecast(const std::string& text, forecast::Bench bench = {}) {
    const auto recipe = recipe::read_text("format = 1\n" + text, "r.toml", fibre::Catalogue::builtin());
    REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
    bench.catalogue = &fibre::Catalogue::builtin();
    auto result = forecast::forecast(*recipe, bench);
    REQUIRE(result.has_value());
    return *result;
}

std::string line(const char* fibre, const char* weight, const std::string& more = "") {
    return "[[component]]\nfibre = \"" + std::string(fibre) + "\"\nweight = \"" + weight + "\"\n" + more;
}

bool notes_sheen(const char* fibre) {
    const auto f = read_and_forecast(line(fibre, "40 g"));
    return std::any_of(f.left_out.begin(), f.left_out.end(),
                       [](const std::string& note) { return note.starts_with("sheen"); });
}

}  // namespace

TEST_CASE("shares by conditioned mass, dry mass and number") {
    // Annex IX of Regulation (EU) No 1007/2011: combed wool 18.25 %, silk 11 %. 60 g and 40 g dry: 50.74
    // and 36.04.
    const auto f = read_and_forecast(line("merino-fine", "60 g") + line("bombyx-silk", "40 g"));
    REQUIRE(f.kinds.size() == 2);
    CHECK(f.kinds[0].mass_pct == Approx(60.0));
    CHECK(f.kinds[0].dry_mass_pct == Approx(58.47).epsilon(0.0005));
    CHECK(f.kinds[1].dry_mass_pct == Approx(41.53).epsilon(0.0005));
    // Number goes with mass over count and length: N = w / (T L).
    const double wool = 60.0 / (f.strands[0].tex * f.strands[0].fibre_mm);
    const double silk = 40.0 / (f.strands[1].tex * f.strands[1].fibre_mm);
    CHECK(f.kinds[0].count_pct == Approx(100.0 * wool / (wool + silk)));
    CHECK(f.components[0].mass_pct == Approx(60.0));
    CHECK(f.components[1].count_pct == Approx(100.0 * silk / (wool + silk)));
    REQUIRE(f.labels.size() == 2);
    CHECK(f.labels[0].mass_pct == Approx(60.0));
    CHECK(f.labels[1].mass_pct == Approx(40.0));
}

TEST_CASE("sheen is said to be missing where there is much of it: silk and the lustre wools, not a down") {
    // The trade's lustre wools; common practice, no source.
    CHECK(notes_sheen("bombyx-silk"));
    CHECK(notes_sheen("wensleydale"));
    CHECK(notes_sheen("lincoln"));
    CHECK(notes_sheen("mohair"));
    CHECK_FALSE(notes_sheen("southdown"));
    CHECK_FALSE(notes_sheen("corriedale"));
}

TEST_CASE("weights are told to a tenth of a gram unless the scale is finer or coarser") {
    const auto f = read_and_forecast(line("merino-fine", "33.333 g") + line("romney", "11.117 g"));
    for (const auto& grams : f.weigh_out.batt_grams) {
        CAPTURE(grams);
        CHECK(std::abs(10.0 * grams - std::round(10.0 * grams)) < 1e-6);
    }
    forecast::Bench coarse;
    coarse.scale_step_grams = 1.0;
    for (const auto& grams : read_and_forecast(line("merino-fine", "33.333 g"), coarse).weigh_out.batt_grams)
        CHECK(std::abs(grams - std::round(grams)) < 1e-6);
}

TEST_CASE("the staple diagram: a hundred classes, all fibres in them, room for the tail") {
    for (const char* kind : {"cotton", "southdown", "merino-fine", "romney", "wensleydale", "blackface"}) {
        CAPTURE(kind);
        const auto f = read_and_forecast(line(kind, "30 g") + line("corriedale", "10 g"));
        const auto diagram = forecast::staple_diagram(f);
        REQUIRE(diagram.mixture.size() == 100);
        CHECK(diagram.class_mm * 100.0 == Approx(diagram.longest_mm));
        // A round end of the axis: steps of 50 mm from 100 to 600.
        CHECK(std::fmod(diagram.longest_mm, 50.0) == Approx(0.0));
        CHECK(diagram.longest_mm >= 100.0);
        CHECK(diagram.longest_mm <= 600.0);
        // Between a quarter of room beyond the length that one in twenty exceeds and one step more.
        CHECK(diagram.longest_mm >= std::min(600.0, 1.25 * f.length.p95_mm) - 1e-6);
        CHECK(diagram.longest_mm <= std::max(100.0, 1.25 * f.length.p95_mm + 50.0));
        const double all = std::accumulate(diagram.mixture.begin(), diagram.mixture.end(), 0.0);
        CHECK(all > 97.0);
        CHECK(all <= 100.01);
        // The mixture is its components on one another, and its mean that of the closed form.
        double mean = 0.0;
        for (std::size_t i = 0; i < 100; ++i) {
            CHECK(double{diagram.mixture[i]} ==
                  Approx(double{diagram.components[0][i]} + double{diagram.components[1][i]})
                      .epsilon(1e-3)
                      .scale(0.0));
            mean += double{diagram.mixture[i]} / all * (static_cast<double>(i) + 0.5) * diagram.class_mm;
        }
        CHECK(mean == Approx(f.length.number_mean_mm).epsilon(0.03));
    }
    const auto short_one =
        forecast::staple_diagram(read_and_forecast(line("cotton-neps", "1 g") + line("cotton", "30 g")));
    CHECK(short_one.longest_mm == 100.0);
    const auto long_one = forecast::staple_diagram(
        read_and_forecast(line("wensleydale-locks", "30 g", "staple = \"600 mm\"\nadd_on_pass = 1\n")));
    CHECK(long_one.longest_mm == 600.0);
}

TEST_CASE("a thread brings its own fibre, in the shares of its tag") {
    const auto f = read_and_forecast(
        line("corriedale", "40 g") +
        "[spinning]\nplying = \"with-thread\"\nthread = { count = \"2/28 Nm\", length = \"400 m\", blend = [ "
        "{ fibre = "
        "\"cotton\", share = \"70 %\" }, { fibre = \"bombyx-silk\", share = \"30 %\" } ] }\n");
    REQUIRE(f.thread.size() == 2);
    CHECK(f.thread[0].share == Approx(0.7));
    CHECK(f.thread[1].share == Approx(0.3));
}
