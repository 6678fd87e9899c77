// Where the forecast changes its words or stops believing: each border from both sides. Common practice, no
// source, but where one is named.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "forecast/batt_photo.hpp"
#include "forecast/colour_doubt.hpp"
#include "forecast/foretold.hpp"
#include "forecast/sample.hpp"

using namespace battwright;
using doctest::Approx;

namespace {

forecast::Forecast bordering(const std::string& text, const forecast::Bench& more = {}) {
    return testing::foretold("format = 1\n" + text, more);
}

std::string dyed(const char* colour, int grams, const char* from = "photo") {
    return "[[component]]\nfibre = \"corriedale\"\ncolour = \"" + std::string(colour) +
           "\"\ncolour_from = \"" + from + "\"\nweight = \"" + std::to_string(grams) + " g\"\n";
}

std::string grey_of(int value) {
    char text[8];
    std::snprintf(text, sizeof text, "#%02x%02x%02x", value, value, value);
    return text;
}

// What a photo of a grey batt should show when each unit of ln m takes `by_m` off its lightness and each of
// ln mixing adds `by_mixing` to the logarithm of a wide variation.
forecast::PhotoForecast straight(double by_m, double by_mixing) {
    forecast::PhotoForecast told;
    told.taken = forecast::Taken::edge;
    told.mean = {60.0, 0.0, 0.0};
    for (int i = -4; i <= 4; ++i) {
        const double x = 0.25 * i;
        told.by_m.push_back({x, {60.0 - by_m * x, 0.0, 0.0}, std::log(10.0)});
        told.by_mixing.push_back({x, {60.0, 0.0, 0.0}, std::log(10.0) + by_mixing * x});
    }
    return told;
}

colour::BattReading reading_of(std::size_t patches) {
    colour::BattReading reading;
    reading.mean = {60.0, 0.0, 0.0};
    reading.patches = patches;
    reading.variation_de00 = 10.0;
    return reading;
}

}  // namespace

TEST_CASE("a photo that knows a figure no better than twentyfold either way says nothing of it") {
    // The standard deviation of ln m is the photo's error over what a unit of ln m does: measured where it is
    // sure, and foretold from that on both sides of ln 20 = 3.0.
    const auto reading = reading_of(200);
    const double sure = forecast::photo_lesson(straight(20.0, 1.0), reading).log_m.sd;
    REQUIRE(std::isfinite(sure));
    const double border = 20.0 * sure / std::log(20.0);
    CHECK(std::isfinite(forecast::photo_lesson(straight(1.07 * border, 1.0), reading).log_m.sd));
    CHECK(std::isinf(forecast::photo_lesson(straight(0.93 * border, 1.0), reading).log_m.sd));
    // The same of the mixing.
    const auto curve = forecast::photo_lesson(straight(20.0, 1.0), reading).log_mixing;
    REQUIRE(curve.has_value());
    const double steep = curve->sd / std::log(20.0);
    CHECK(forecast::photo_lesson(straight(20.0, 1.07 * steep), reading).log_mixing.has_value());
    CHECK_FALSE(forecast::photo_lesson(straight(20.0, 0.93 * steep), reading).log_mixing.has_value());
}

TEST_CASE("few patches tell little of how a batt varies") {
    // The logarithm of a standard deviation of n normal values has the variance 1 / (2 (n - 1)) (Ahn &
    // Fessler 2003; JCGM 100:2008, E.4.3 for the deviation itself).
    const auto variance = [](std::size_t patches) {
        return std::pow(forecast::photo_lesson(straight(20.0, 1.0), reading_of(patches)).log_mixing->sd, 2.0);
    };
    CHECK(variance(3) - variance(5) == Approx(1.0 / 4.0 - 1.0 / 8.0).epsilon(0.02).scale(0.0));
    CHECK(variance(5) - variance(1'000'000) == Approx(1.0 / 8.0).epsilon(0.02).scale(0.0));
    // What is left is a hand's own: from batt to batt a quarter (common practice, no source).
    CHECK(std::sqrt(variance(1'000'000)) == Approx(0.25).epsilon(0.05).scale(0.0));
    // Folds and shadows add to what is seen as errors that do not know of each other: 0.6 to nothing, so that
    // by the slope of ln sqrt(v^2 + 0.6^2) a batt of 0.6 teaches half as much as one of 10.
    auto even = straight(20.0, 1.0);
    for (auto& point : even.by_mixing) point.log_variation += std::log(0.6 / 10.0);
    auto reading = reading_of(200);
    reading.variation_de00 = std::hypot(0.6, 0.6);
    const auto half = forecast::photo_lesson(even, reading).log_mixing;
    REQUIRE(half.has_value());
    CHECK(half->slope == Approx(0.5).epsilon(0.05).scale(0.0));
}

TEST_CASE("between the points of a photo's forecast, at its ends, and of a batt that does not vary at all") {
    // Lagrange's parabola gives back the points it goes through, and a straight line everywhere.
    const auto told = straight(20.0, 1.0);
    for (const double x : {-1.0, -0.9, -0.25, 0.0, 0.3, 0.75, 0.95, 1.0}) {
        CAPTURE(x);
        CHECK(forecast::mean_at(told.by_m, x).l == Approx(60.0 - 20.0 * x));
        CHECK(forecast::log_variation_at(told.by_mixing, x) == Approx(std::log(10.0) + x));
    }
    auto bent = told.by_m;
    for (auto& point : bent) point.mean.l = 50.0 + 8.0 * point.log_factor * point.log_factor;
    for (const double x : {-1.0, -0.6, 0.1, 0.9, 1.0})
        CHECK(forecast::mean_at(bent, x).l == Approx(50.0 + 8.0 * x * x));
    // What the variation goes with m: by the slope between a deviation of ln m to either side.
    auto both = straight(20.0, 1.0);
    for (auto& point : both.by_m) point.log_variation += 0.3 * point.log_factor;
    CHECK(forecast::photo_lesson(both, reading_of(200)).log_mixing->by_other ==
          Approx(0.3).epsilon(0.02).scale(0.0));
    // Of no variation the logarithm is that of a thousandth, far below what is just seen.
    auto still = reading_of(200);
    still.variation_de00 = 0.0;
    CHECK(std::exp(forecast::photo_lesson(told, still).log_mixing->seen) ==
          Approx(1e-3).epsilon(0.1).scale(0.0));
}

TEST_CASE("a torn edge is read in strips of a sixth of its height, and of half a millimetre at the least") {
    const auto high = [](double fibre_mm) {
        return forecast::photo_scale(forecast::Taken::edge, 0.1, fibre_mm).patch_high_mm;
    };
    CHECK(high(30.0) == Approx(5.0).epsilon(0.1).scale(0.0));
    CHECK(high(1.0) == Approx(0.5).epsilon(0.1).scale(0.0));  // ten pixels of such a photo are a millimetre
    const auto turned = forecast::photo_scale(forecast::Taken::edge, 0.1, 30.0, true);
    CHECK(turned.patch_wide_mm == Approx(high(30.0)));
}

TEST_CASE("how far apart two hues lie on the wheel, the short way round") {
    // The angle between two arrows by their product, which knows no way round.
    for (const auto& [one, other] :
         {std::pair{"#20a040", "#4040c0"}, {"#10a080", "#c02090"}, {"#e05010", "#1040c0"}}) {
        const auto f = bordering(dyed(one, 25) + dyed(other, 25) + "[carding]\npasses = 3\n");
        const auto a = colour::lab_under(f.components[0].reflectance, f.light);
        const auto b = colour::lab_under(f.components[1].reflectance, f.light);
        const double degrees =
            std::acos((a.a * b.a + a.b * b.b) / std::hypot(a.a, a.b) / std::hypot(b.a, b.b)) * 180.0 /
            std::acos(-1.0);
        CAPTURE(one);
        for (const auto& finding : f.findings) {
            if (finding.code != "colour-greys") continue;
            CAPTURE(finding.text);
            CHECK(finding.text.find(std::to_string(std::lround(degrees)) + " degrees apart") !=
                  std::string::npos);
        }
    }
}

TEST_CASE("half a percent of black is weighed out, less is a pinch") {
    // The more a black hides the less of it may be taken: Stearns and Noechel's m goes up until the share
    // falls from weighed to a pinch.
    double least = 1e9;
    bool pinch = false;
    for (double m = 0.15; m < 1.1; m *= 1.03) {
        forecast::Bench bench;
        bench.optics.m = m;
        const auto f =
            bordering(dyed("#ffffff", 90) + dyed("#050505", 10) + "[carding]\npasses = 3\n", bench);
        for (const auto& finding : f.findings) {
            if (finding.code != "dark-swallows") continue;
            if (finding.action == staple::Remedy::lower_share)
                least = std::min(least, finding.action_value);
            else
                pinch = pinch || finding.remedy.find("a pinch of it") != std::string::npos;
        }
    }
    CHECK(pinch);
    // A fifth of a gram of a batt of 40: two steps of a kitchen scale.
    CHECK(least == Approx(0.5).epsilon(0.1).scale(0.0));
}

TEST_CASE("a sample mixes as the whole where they are less than half of what the eye tells apart") {
    // 1 CIEDE2000 is just seen side by side (the unit's intention).
    double alike = 0.0, unlike = 1e9;
    for (int light = 0x86; light <= 0x94; ++light) {
        const auto f = bordering(dyed("#808080", 25) + dyed(grey_of(light).c_str(), 25) +
                                 "[carding]\npasses = 1\nfeed = \"stripes\"\n");
        forecast::Bench bench;
        bench.catalogue = &fibre::Catalogue::builtin();
        const auto sample = *forecast::sample_of(f, bench);
        REQUIRE(sample.width_mm < f.carder.width_mm);
        double most = 0.0;
        for (const auto& pass : sample.passes)
            most = std::max(most, std::abs(pass.sample_de00 - pass.whole_de00));
        if (sample.differs.find("as the whole will") != std::string::npos)
            alike = std::max(alike, most);
        else
            unlike = std::min(unlike, most);
    }
    MESSAGE("alike up to " << alike << ", unlike from " << unlike);
    CHECK(alike < 0.5);
    CHECK(alike > 0.4);
    CHECK(unlike >= 0.5);
    CHECK(unlike < 0.58);
}

TEST_CASE("a black can be no blacker than a seventh of the light it throws back") {
    // However unsure its colour: e^-2 = 0.135.
    const auto f = bordering(dyed("#040404", 40, "eye"));
    const auto blends = forecast::moved_blends(f, f.optics);
    REQUIRE(blends.size() == forecast::ways_to_move);
    const double kept = blends[0][blends[0].size() / 2] / f.colour.reflectance[blends[0].size() / 2];
    CHECK(kept == Approx(0.135).epsilon(0.1).scale(0.0));
    // A middling grey is moved by what it is unsure, alike in all its ways: a level, a slope and a bow over
    // the bands, Legendre's first three polynomials, which at 1, 0 and -1 are 1 1 1, 1 0 -1 and 1 -1/2 1.
    const auto grey = bordering(dyed("#808080", 40, "tag"));
    const auto ways = forecast::moved_blends(grey, grey.optics);
    const std::size_t last = ways[0].size() - 1;
    const auto logged = [&](std::size_t way, std::size_t band) {
        return std::log(ways[way][band] / grey.colour.reflectance[band]);
    };
    CHECK(logged(1, last) / logged(1, 0) == Approx(-1.0).epsilon(0.02).scale(0.0));
    CHECK(logged(2, last) / logged(2, 0) == Approx(1.0).epsilon(0.02).scale(0.0));
    CHECK(logged(2, last / 2) / logged(2, 0) == Approx(-0.5).epsilon(0.02).scale(0.0));
    for (const auto& blend : forecast::moved_blends(grey, grey.optics))
        CHECK(colour::ciede2000(colour::lab_under(blend, grey.light), grey.colour.lab) ==
              Approx(2.0).epsilon(0.02).scale(0.0));
}

TEST_CASE("a sample's strip takes as much of the drum's load as of its width") {
    for (const char* carder : {"table-small", "table-standard", "wide"}) {
        if (recipe::find_carder(carder) == nullptr) continue;
        const auto f = bordering(dyed("#808080", 25) + dyed("#a0a0a0", 5) + "[carding]\ncarder = \"" +
                                 carder + "\"\npasses = 1\n");
        forecast::Bench bench;
        bench.catalogue = &fibre::Catalogue::builtin();
        const auto sample = *forecast::sample_of(f, bench);
        REQUIRE(sample.recipe.carding.own.has_value());
        const recipe::Carder& strip = *sample.recipe.carding.own;
        const double part = strip.width_mm / f.carder.width_mm;
        CHECK(part < 1.0);
        // To a tenth of a gram; and never less than the sample weighs.
        CHECK(std::abs(strip.load_low_grams - part * f.carder.load_low_grams) <= 0.05 + 1e-9);
        const double high = std::max(part * f.carder.load_high_grams, sample.grams);
        CHECK(strip.load_high_grams >= sample.grams - 1e-9);
        CHECK(std::abs(strip.load_high_grams - high) <= 0.1 + 1e-9);
    }
    // A batt that is heavier than the drum takes: so is its sample, and the strip takes it to the tenth.
    const auto heavy = bordering(dyed("#808080", 60) + dyed("#a0a0a0", 25) +
                                 "[carding]\ncarder = \"table-standard\"\npasses = 1\n");
    if (heavy.plan.batts == 1) {
        forecast::Bench bench;
        bench.catalogue = &fibre::Catalogue::builtin();
        const auto sample = *forecast::sample_of(heavy, bench);
        const recipe::Carder& strip = *sample.recipe.carding.own;
        CHECK(strip.load_high_grams >= sample.grams - 1e-9);
        CHECK(strip.load_high_grams <=
              std::max(sample.grams, strip.width_mm / heavy.carder.width_mm * heavy.carder.load_high_grams) +
                  0.1 + 1e-9);
    }
}
