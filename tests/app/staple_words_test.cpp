// What the staple's figures say, in the user's units.
#include "app/bench/staple_words.hpp"

#include <doctest/doctest.h>

using namespace battwright;

namespace {

bool within(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a mean says how far it may be off, and nothing when that would read as nothing") {
    forecast::Forecast forecast;
    forecast.length.number_mean_mm = 66.0;
    forecast.length.mean_doubt_mm = 6.0;
    forecast.diameter.mean_um = 23.1;
    forecast.diameter.mean_doubt_um = 0.04;
    forecast.diameter.over_30um_pct = 18.02;
    forecast.diameter.over_30um_doubt_pct = 8.87;
    forecast.feel = "rugs and bags";
    const auto words = app::staple_words(forecast, {});
    CHECK(words.mean_length == "66 mm \u00b16");
    CHECK(within(words.length_doubt, "6 mm"));
    CHECK(words.mean_diameter == "23.1 \u00b5m");
    CHECK(words.diameter_doubt.empty());
    CHECK(words.prickle == "18 % \u00b18.9");
    CHECK(within(words.prickle_doubt, "8.9 points"));
    CHECK(words.feel == "Fit for: rugs and bags");
    forecast.diameter.over_30um_pct = 4.4;  // no share is under nothing
    CHECK(app::staple_words(forecast, {}).prickle == "4.4 %, to 13.3");
    app::Settings inches;
    inches.length = measure::LengthUnit::inch;
    CHECK(within(app::staple_words(forecast, inches).mean_length, " in \u00b1"));
}

TEST_CASE("what lies among the fibres has a line, and locks their own thickness") {
    fibre::Kind locks;
    locks.name = "Harbour locks";
    locks.form = fibre::Form::lock;
    forecast::Forecast forecast;
    forecast.inclusions = {{&locks, 12.5, 150.0, 36.0, 80.0}};
    const auto words = app::staple_words(forecast, {});
    REQUIRE(words.inclusions.size() == 1);
    CHECK(words.inclusions[0] ==
          "Harbour locks, 12.5 %, lies among the fibres: locks of 150 mm, 36 \u00b5m, "
          "80 % over 30 \u00b5m");
}

TEST_CASE("a figure of the catalogue shows what is published of it, or that it is a guess") {
    fibre::Kind kind;
    kind.staple_mm = 75.0;
    kind.diameter_um = 19.5;
    kind.sources["staple"] = "a handbook";
    kind.published["staple"] = {60.0, 100.0};
    const auto staple = app::staple_figure(kind, {});
    CHECK(staple.words == "75 mm (60 to 100)");
    CHECK_FALSE(staple.guess);
    CHECK(staple.source == "a handbook");
    const auto diameter = app::diameter_figure(kind);
    CHECK(diameter.guess == fibre::is_guess(kind, "diameter"));
    CHECK(within(diameter.words, "19.5 \u00b5m"));
    CHECK(within(diameter.words, "a guess") == diameter.guess);
    kind.sources["staple_cv"] = kind.sources["diameter_cv"] = "a handbook";
    kind.sources["crimp"] = "memory";
    CHECK(app::other_guesses(kind) == "guesses: crimp");
    kind.sources["crimp"] = "a handbook";
    CHECK(app::other_guesses(kind).empty());
}
