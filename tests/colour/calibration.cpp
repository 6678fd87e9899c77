#include "colour/calibration.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "../measure/seed.hpp"
#include "colour/reflectance.hpp"
#include "colour/spaces.hpp"

namespace {

using namespace battwright;
using namespace battwright::colour;

Spectrum dyed_wool(std::string_view hexadecimal) {
    return reflectance_of(parse_hex(hexadecimal).value());
}

// Swatches as a given m would card them.
std::vector<Sample> swatches(double m) {
    const std::vector<std::vector<Portion>> mixes = {
        {{90, dyed_wool("#f0eee6")}, {10, dyed_wool("#1e1b1c")}},
        {{50, dyed_wool("#f6d21a")}, {50, dyed_wool("#1d5fb4")}},
        {{3, dyed_wool("#b4232f")}, {1, dyed_wool("#f0eee6")}, {2, dyed_wool("#2f5d50")}},
    };
    std::vector<Sample> samples;
    samples.reserve(mixes.size());
    for (const auto& portions : mixes)
        samples.push_back({portions, lab_under(blend(portions, {.m = m}), Light::d65)});
    return samples;
}

void complains(const std::vector<Sample>& samples, const std::string& part) {
    const auto fit = calibrated_m(samples);
    REQUIRE_FALSE(fit.has_value());
    CHECK(measure::to_line(fit.error()).find(part) != std::string::npos);
}

}  // namespace

TEST_CASE("a known m is found again from the blends it makes") {
    // A hundredth to one is the range it says it looks in.
    for (const double m : {0.0105, 0.02, 0.06, 0.136, 0.15, 0.3, 0.8}) {
        CAPTURE(m);
        const auto fit = calibrated_m(swatches(m));
        REQUIRE(fit.has_value());
        CHECK(std::abs(fit->m - m) < 1e-3 * m);
        CHECK(fit->rms_ciede2000 < 1e-3);
        CHECK_FALSE(fit->at_bound);
        CHECK((m == 0.15) == (fit->rms_at_default < 0.1));
    }
}

TEST_CASE("measuring noise moves m a little, and the rest is reported") {
    auto random = testing::seeded();
    auto samples = swatches(0.2);
    for (Sample& sample : samples) {
        sample.measured.l += testing::uniform(random, -0.5, 0.5);
        sample.measured.a += testing::uniform(random, -0.5, 0.5);
    }
    const auto fit = calibrated_m(samples);
    REQUIRE(fit.has_value());
    CHECK(std::abs(fit->m - 0.2) < 0.05);
    CHECK(fit->rms_ciede2000 < 1.0);
    CHECK(fit->rms_ciede2000 <= fit->rms_at_default);
}

TEST_CASE("an m beyond the range is reported as being at its edge") {
    auto samples = swatches(0.02);
    for (Sample& sample : samples) sample.measured.l = 95.0;  // lighter than any m makes it
    const auto fit = calibrated_m(samples);
    REQUIRE(fit.has_value());
    CHECK(fit->at_bound);
}

TEST_CASE("samples that cannot be used are refused with a reason") {
    complains({}, "no samples");
    complains({{{}, {50, 0, 0}}}, "sample 1: the sample holds no fibre");
    complains({{{{0.0, dyed_wool("#2f5d50")}}, {50, 0, 0}}}, "holds no fibre");
    complains({{{{1.0, dyed_wool("#2f5d50")}, {-1.0, dyed_wool("#ffffff")}}, {50, 0, 0}}}, "negative");
    complains({{{{std::nan(""), dyed_wool("#2f5d50")}}, {50, 0, 0}}}, "not a number");
    complains({{{{1.0, dyed_wool("#2f5d50")}}, {std::nan(""), 0, 0}}}, "measured colour is not a number");
    // One colour alone is itself whatever m is: nothing to learn.
    complains({{{{1.0, dyed_wool("#2f5d50")}}, {40, -20, 3}}}, "say nothing");
}
