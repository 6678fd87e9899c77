// The numbers behind the plot of length against thickness.
#include "app/yarn/yarn_plot.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "app/bench/edits.hpp"
#include "app/yarn/yarn_edits.hpp"
#include "forecast/forecast.hpp"
#include "measure/units.hpp"

using namespace battwright;
using recipe::Plying;

namespace {

app::Sheet batt(const char* fibre = "corriedale") {
    recipe::Recipe recipe;
    recipe.name = "Test Tide";
    recipe::Component component;
    component.content = {{fibre, 100.0}};
    component.amount = measure::Mass{60.0, measure::MassUnit::gram};
    recipe.components = {component};
    return app::sheet_of(recipe);
}

yarn::YarnForecast yarn_of(const app::Sheet& sheet) {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    auto made = forecast::forecast(sheet.recipe, bench);
    if (!made) FAIL(measure::to_line(made.error()));
    return made->yarn;
}

}  // namespace

TEST_CASE("places and values turn into each other, and the ends of the plot are 0 and 1") {
    const app::YarnPlot plot{3.0, 30.0, 900.0};
    CHECK(plot.x(3.0) == doctest::Approx(0.0));
    CHECK(plot.x(30.0) == doctest::Approx(1.0));
    // Equal ratios are equal steps on a logarithmic scale: sqrt(3 * 30) lies in the middle.
    CHECK(plot.x(std::sqrt(90.0)) == doctest::Approx(0.5));
    CHECK(plot.y(0.0) == 0.0);
    CHECK(plot.y(900.0) == doctest::Approx(1.0));
    CHECK(plot.y(225.0) == doctest::Approx(0.5));
    for (const double wpi : {3.0, 4.5, 11.0, 29.5}) CHECK(plot.wpi_at(plot.x(wpi)) == doctest::Approx(wpi));
    CHECK(plot.wpi_at(-4.0) == doctest::Approx(3.0));
    CHECK(plot.wpi_at(4.0) == doctest::Approx(30.0));
}

TEST_CASE("a press stands for the nearest half wrap within the plot") {
    const app::YarnPlot plot{3.0, 30.0, 900.0};
    for (double x = -0.2; x < 1.2; x += 0.013) {
        const double wpi = app::snapped_wpi(plot, x);
        CAPTURE(x);
        CHECK(wpi * 2.0 == std::round(wpi * 2.0));
        CHECK(wpi >= 3.0);
        CHECK(wpi <= 30.0);
        CHECK(std::abs(wpi - plot.wpi_at(x)) <= 0.25 + 1e-9);
    }
}

TEST_CASE("steps of the arrow keys land on the grid and stop at the ends") {
    CHECK(app::stepped_wpi(12.0, 1) == 12.5);
    CHECK(app::stepped_wpi(12.0, -1) == 11.5);
    CHECK(app::stepped_wpi(12.3, 1) == 12.5);
    CHECK(app::stepped_wpi(12.3, -1) == 12.0);
    CHECK(app::stepped_wpi(2.0, -1) == yarn::least_wpi);
    CHECK(app::stepped_wpi(120.0, 1) == yarn::most_wpi);
}

TEST_CASE("the scales stand still while only the thickness changes") {
    for (const auto& way : {Plying::plied, Plying::chain, Plying::with_thread}) {
        const auto start = app::set_plying(batt(), way);
        const auto first = app::plot_for(yarn_of(app::set_wraps(start, 4.0)));
        for (const double wpi : {6.0, 9.5, 14.0, 25.0}) {
            const auto plot = app::plot_for(yarn_of(app::set_wraps(start, wpi)));
            CHECK(plot.to_wpi == first.to_wpi);
            CHECK(plot.to_metres == doctest::Approx(first.to_metres).epsilon(1e-12));
        }
    }
}

TEST_CASE("the finest sensible yarn has its place on the plot, with some of what lies beyond") {
    for (const char* fibre : {"corriedale", "merino-fine", "alpaca"}) {
        if (fibre::Catalogue::builtin().find(fibre) == nullptr) continue;
        for (const auto& way : {Plying::plied, Plying::chain, Plying::with_thread}) {
            const auto yarn = yarn_of(app::set_plying(batt(fibre), way));
            const auto plot = app::plot_for(yarn);
            CAPTURE(fibre);
            CHECK(plot.x(yarn.finest_wpi) < 1.0);
            CHECK(plot.x(yarn.finest_wpi) > 0.5);
            CHECK(std::isfinite(plot.to_metres));
            // A sensible plan never leaves the plot at the top.
            for (const auto& point : yarn.curve) {
                if (point.spinnable && point.wpi <= plot.to_wpi) CHECK(plot.y(point.length_m) <= 1.0 + 1e-9);
            }
        }
    }
}

TEST_CASE("the curve read at the plan is the forecast's own length") {
    const auto yarn = yarn_of(app::set_wraps(batt(), 11.5));
    CHECK(app::length_on_curve_m(yarn, 11.5) == doctest::Approx(yarn.length_m).epsilon(1e-9));
    // Lengths grow about as the square of the wraps, so a chord over half a wrap overshoots by
    // (step / 2)^2 / wpi^2, under a thousandth.
    const auto between = yarn_of(app::set_wraps(batt(), 11.75));
    CHECK(app::length_on_curve_m(yarn, 11.75) == doctest::Approx(between.length_m).epsilon(1e-3));
    CHECK(app::length_on_curve_m(yarn, 1.0) == 0.0);
    CHECK(app::length_on_curve_m(yarn, 99.0) == 0.0);
}

TEST_CASE("ticks are round, in order, apart, and the same lengths in yards") {
    const app::YarnPlot plot{3.0, 40.0, 1500.0};
    const auto wraps = app::wraps_ticks(plot, 0.07);
    REQUIRE(wraps.size() > 5);
    CHECK(wraps.front().label == "3");
    for (std::size_t i = 1; i < wraps.size(); ++i) CHECK(wraps[i].at - wraps[i - 1].at >= 0.07);
    for (const auto& [unit, metres_each] :
         {std::pair{measure::YarnLengthUnit::metre, 1.0}, {measure::YarnLengthUnit::yard, 0.9144}}) {
        const auto ticks = app::length_ticks(plot, unit, 0.15);
        REQUIRE(ticks.size() > 3);
        for (std::size_t i = 0; i < ticks.size(); ++i) {
            CHECK(ticks[i].at <= 1.0 + 1e-9);
            if (i > 0) CHECK(ticks[i].at - ticks[i - 1].at >= 0.15 - 1e-9);
            const double metres = std::stod(ticks[i].label) * metres_each;
            CHECK(plot.y(metres) == doctest::Approx(ticks[i].at));
        }
    }
    CHECK(app::length_ticks({3.0, 40.0, 0.0}, measure::YarnLengthUnit::metre, 0.15).size() == 1);
}

TEST_CASE("the bands cover the plot without a gap, thick to fine, names in two rows by turns") {
    for (const double end : {12.0, 21.0, 45.0}) {
        const auto bands = app::bands_of({3.0, end, 900.0});
        REQUIRE_FALSE(bands.empty());
        CHECK(bands.front().name == "jumbo");
        CHECK(bands.front().from == doctest::Approx(0.0));
        CHECK(bands.back().to == doctest::Approx(1.0));
        for (std::size_t i = 1; i < bands.size(); ++i) {
            CHECK(bands[i].from == doctest::Approx(bands[i - 1].to));
            CHECK(bands[i].lower_row != bands[i - 1].lower_row);
        }
    }
    CHECK(app::bands_of({3.0, 45.0, 900.0}).size() == 8);
    CHECK(app::bands_of({3.0, 12.0, 900.0}).back().name == "fine");
}

TEST_CASE("nothing to plot is an empty plot, not a fault") {
    const auto plot = app::plot_for({});
    CHECK(plot.to_metres == 0.0);
    CHECK(plot.y(100.0) == 0.0);
}
