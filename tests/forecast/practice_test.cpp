// What the forecast takes hands, scales, cameras and paper to be, from both sides of each figure. Common
// practice, no source, but where one is named.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "forecast/alike.hpp"
#include "forecast/batt_photo.hpp"
#include "forecast/colour_doubt.hpp"
#include "forecast/foretold.hpp"
#include "forecast/sample.hpp"

using namespace battwright;
using doctest::Approx;

namespace {

forecast::Forecast practised(const std::string& text, const forecast::Bench& more = {}) {
    return testing::foretold("format = 1\n" + text, more);
}

// Three batts, seven parts of night to three of foam.
forecast::Forecast three_batts() {
    const auto f = practised(
        "total = \"120 g\"\n[[component]]\nname = \"night\"\nfibre = \"corriedale\"\ncolour = \"#22324f\"\n"
        "share = \"70 %\"\n[[component]]\nname = \"foam\"\nfibre = \"corriedale\"\ncolour = \"#efe9dc\"\n"
        "share = \"30 %\"\n[carding]\ncarder = \"table-small\"\npasses = 2\n");
    REQUIRE(f.plan.batts == 3);
    return f;
}

// Usual hands in one respect, perfect in all others.
forecast::Handling only(double forecast::Handling::*one) {
    forecast::Handling hands{0.0, 0.0, 0.0, 0.0, 0.0};
    hands.*one = forecast::Handling{}.*one;
    return hands;
}

// Two colours that nobody weighs apart, so much of them black.
forecast::Forecast of_two_colours(int black_pct) {
    return practised(
        "total = \"120 g\"\n[[component]]\nfibre = \"corriedale\"\nshare = \"100 %\"\ncolours = [{ colour = "
        "\"#202020\", share = \"" +
        std::to_string(black_pct) + " %\" }, { colour = \"#b0b0b0\", share = \"" +
        std::to_string(100 - black_pct) + " %\" }]\n[carding]\ncarder = \"table-small\"\npasses = 2\n");
}

}  // namespace

TEST_CASE("what hands do to batts weighed out alike: each cause worked by hand") {
    const auto f = three_batts();
    const auto strays = [&](double forecast::Handling::*one) {
        double squares = 0.0;
        constexpr int seeds = 16;
        for (std::uint64_t seed = 1; seed <= seeds; ++seed)
            squares +=
                std::pow(forecast::alike(f, only(one), nullptr, seed)->as_carded.share_pct, 2.0) / seeds;
        return std::sqrt(squares);
    };
    // A share p of two weights of CV v strays by p (1 - p) v sqrt(2). Two parts in a hundred are dropped.
    CHECK(strays(&forecast::Handling::dropped_cv) ==
          Approx(100.0 * 0.21 * 0.02 * std::sqrt(2.0)).epsilon(0.06).scale(0.0));
    // A tenth of a gram: a rectangular error (JCGM 100:2008, 4.3.7), of 40 g.
    CHECK(strays(&forecast::Handling::scale_step_grams) ==
          Approx(100.0 * 0.1 * std::sqrt((0.49 + 0.09) / 12.0) / 40.0).epsilon(0.06).scale(0.0));
    // The cloth keeps a fiftieth of the first batt, all of what was fed first; one of three is off by that.
    const double first = f.plan.steps.empty() ? 0.0 : [&] {
        for (const auto& step : f.plan.steps)
            if (step.kind == carding::StepKind::feed) return step.component == 0 ? 0.7 : 0.3;
        return 0.0;
    }();
    REQUIRE(first > 0.0);
    const double off = first - (first - 0.02) / 0.98;
    CHECK(strays(&forecast::Handling::drum_keeps) ==
          Approx(100.0 * off / std::sqrt(3.0)).epsilon(0.03).scale(0.0));
    // Colours divided by eye, each a tenth off: their share by a quarter of 0.1 sqrt(2), two batts by sqrt(2)
    // of that, in the mean sqrt(2 / pi) of it.
    const double apart = 0.25 * 0.1 * 2.0 * std::sqrt(2.0 / 3.14159265);
    const double a_point =
        colour::ciede2000(of_two_colours(48).colour.lab, of_two_colours(52).colour.lab) / 4.0;
    CHECK(forecast::alike(of_two_colours(50), only(&forecast::Handling::divided_cv), nullptr)
              ->as_carded.typical_de00 == Approx(100.0 * apart * a_point).epsilon(0.12).scale(0.0));
    // Strips split by eye are a tenth off: half of what strips a fifth off leave.
    forecast::Handling fifth = only(&forecast::Handling::pieces_cv), tenth = fifth;
    tenth.dropped_cv = fifth.dropped_cv = 0.05;
    fifth.pieces_cv = 0.2;
    CHECK(forecast::alike(f, tenth, nullptr)->recombined.share_pct /
              forecast::alike(f, fifth, nullptr)->recombined.share_pct ==
          Approx(0.5).epsilon(0.08).scale(0.0));
}

TEST_CASE("how small a sample may be: a strip that can be carded, three steps of the scale, a dozen curls") {
    const auto sample = [](const std::string& odd, double step) {
        forecast::Bench bench;
        bench.catalogue = &fibre::Catalogue::builtin();
        bench.scale_step_grams = step;
        const auto f = practised(
            "total = \"50 g\"\n[[component]]\nfibre = \"corriedale\"\nshare = \"95 %\"\n[[component]]\n" +
                odd + "share = \"5 %\"\n[carding]\npasses = 2\n",
            bench);
        return *forecast::sample_of(f, bench);
    };
    const std::string wool = "fibre = \"romney\"\n",
                      curls = "fibre = \"lincoln-locks\"\nadd_on_pass = \"last\"\n";
    // An inch and a half, on any scale that is fine enough; 10 g of 50 on a fifth of the width.
    const auto narrow = sample(wool, 0.01);
    CHECK(narrow.width_mm >= 38.0);
    CHECK(narrow.width_mm < 45.0);
    // A curl weighs about 0.05 g: twelve of them are 0.6 g, of 12 g, a quarter of the width.
    CHECK(sample(curls, 0.01).width_mm == Approx(50.0));
    CHECK(sample(curls, 0.01).set_by.find("counted") != std::string::npos);
    for (const double step : {0.2, 0.3, 0.4, 0.5}) {
        CAPTURE(step);
        const auto wide = sample(wool, step);
        CHECK(std::fmod(wide.width_mm, 5.0) == Approx(0.0));
        CHECK(wide.component_grams[1] >= 2.99 * step);
        CHECK(wide.component_grams[1] < 3.5 * step);
    }
}

TEST_CASE("where a colour is from: errors that do not know of each other") {
    // Two people's matches 2.5 apart (Color Research and Application 22, 1997), a screen that nobody has
    // calibrated 5 (from memory).
    CHECK(forecast::eye_doubt_de00 == Approx(std::hypot(2.5, 5.0)).epsilon(0.01).scale(0.0));
    // A phone's camera against a chart is half of over 10 off (from memory): 5, of which the white's part is
    // told apart.
    CHECK(forecast::photo_doubt_de00 == Approx(0.5 * 10.0));
    const colour::Lab grey{60.0, 0.0, 0.0};
    const colour::Xyz light = colour::xyz_from(grey, colour::srgb_white());
    const auto off = [&](double level, double x, double z) {
        return colour::lab(
            {light.x * (1.0 + level + x), light.y * (1.0 + level), light.z * (1.0 + level + z)},
            colour::srgb_white());
    };
    const double part = std::hypot(colour::ciede2000(off(forecast::white_level_sd, 0.0, 0.0), grey),
                                   colour::ciede2000(off(0.0, forecast::white_x_sd, 0.0), grey),
                                   colour::ciede2000(off(0.0, 0.0, forecast::white_z_sd), grey));
    CHECK(part > 2.0);
    CHECK(part < 3.5);
    CHECK(std::hypot(forecast::camera_doubt_de00, part) ==
          Approx(forecast::photo_doubt_de00).epsilon(0.06).scale(0.0));
    // White paper throws back 80 to 90 % of the light; from cream to brightened it is some 2.5 of b* to
    // either side, and a point and a half of a*.
    CHECK(forecast::white_level_sd / 1.0 == Approx(0.5 * (0.90 - 0.80)).epsilon(0.1).scale(0.0));
    CHECK(500.0 / 3.0 * forecast::white_x_sd == Approx(1.6).epsilon(0.1).scale(0.0));
    CHECK(200.0 / 3.0 * forecast::white_z_sd == Approx(2.6).epsilon(0.1).scale(0.0));
    // An instrument repeats itself within 0.15 on cloth; loose fibre laid on anew strays about three times as
    // far.
    CHECK(forecast::measured_doubt_de00 / 0.15 > 3.0);
    CHECK(forecast::measured_doubt_de00 / 0.15 < 3.7);
    // Scoured merino is L* 85 to 88, a white longwool some 83 (memory): between them and the
    // catalogue's 86.8.
    CHECK(forecast::natural_colour_doubt_de00 > 0.5 * (88.0 - 83.0));
    CHECK(forecast::natural_colour_doubt_de00 < 3.5);
}

TEST_CASE("a making's words have what is just seen to the tenth, and the causes to the hundredth") {
    const auto f = three_batts();
    const auto words = forecast::alike_words(f, *forecast::alike(f, {}, nullptr));
    const auto decimals_after = [&](const std::string& mark) {
        const std::size_t at = words.find(mark);
        REQUIRE(at != std::string::npos);
        const std::size_t point = words.find('.', at + mark.size());
        return words.find_first_not_of("0123456789", point + 1) - point - 1;
    };
    CHECK(decimals_after("will be about ") == 1);
    CHECK(decimals_after("the scale ") == 2);
    CHECK(decimals_after("hands ") == 2);
    CHECK(decimals_after("of the first batt ") == 2);
}
