#include "colour/reflectance.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "../measure/seed.hpp"
#include "colour/spaces.hpp"

namespace {

using namespace battwright;
using namespace battwright::colour;

struct Extremes {
    double worst_difference = 0.0, least_band = 1.0, most_band = 0.0;
};

void take_in(Extremes& e, const Srgb& colour) {
    const Spectrum r = reflectance_of(colour);
    e.worst_difference = std::max(e.worst_difference, ciede2000(lab(colour), lab(srgb_under(r, Light::d65))));
    e.least_band = std::min(e.least_band, *std::min_element(r.begin(), r.end()));
    e.most_band = std::max(e.most_band, *std::max_element(r.begin(), r.end()));
}

void check(const Extremes& e) {
    MESSAGE("worst CIEDE2000 " << e.worst_difference << ", bands from " << e.least_band << " to 1 - "
                               << 1.0 - e.most_band);
    CHECK(e.worst_difference < 0.05);  // asked for: 0.5
    CHECK(e.least_band > 0.0);
    CHECK(e.most_band < 1.0);
}

double z_of(double r) {
    return 0.5 * std::log(r / (1.0 - r));
}

double determinant(const std::array<std::array<double, 3>, 3>& m) {
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
           m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
           m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

// Lagrange's condition: the slope of the roughness in every band is the same combination of the three weights
// times dR/dz. Solves that combination from three bands and returns the worst miss over all.
double worst_miss_of_stationarity(const Spectrum& r) {
    const Observer& w = weights(Light::d65);
    const auto pull = [&](std::size_t i) {
        double g = 0.0;
        if (i > 0) g += 2.0 * (z_of(r[i]) - z_of(r[i - 1]));
        if (i + 1 < bands) g -= 2.0 * (z_of(r[i + 1]) - z_of(r[i]));
        return g;
    };
    const auto slope = [&](std::size_t i) { return 2.0 * r[i] * (1.0 - r[i]); };
    const std::array<std::size_t, 3> at{14, 34, 44};  // 450, 550, 600 nm
    std::array<std::array<double, 3>, 3> m{};
    for (std::size_t row = 0; row < 3; ++row) m[row] = {w.x[at[row]], w.y[at[row]], w.z[at[row]]};
    std::array<double, 3> factors{};
    for (std::size_t column = 0; column < 3; ++column) {
        auto replaced = m;
        for (std::size_t row = 0; row < 3; ++row) replaced[row][column] = pull(at[row]) / slope(at[row]);
        factors[column] = determinant(replaced) / determinant(m);
    }
    double worst = 0.0;
    for (std::size_t i = 0; i < bands; ++i)
        worst = std::max(worst, std::abs(pull(i) - slope(i) * (factors[0] * w.x[i] + factors[1] * w.y[i] +
                                                               factors[2] * w.z[i])));
    return worst;
}

}  // namespace

TEST_CASE("sRGB to reflectance and back over a 17 x 17 x 17 grid, every band between 0 and 1") {
    Extremes e;
    for (int r = 0; r <= 16; ++r)
        for (int g = 0; g <= 16; ++g)
            for (int b = 0; b <= 16; ++b) take_in(e, {r / 16.0, g / 16.0, b / 16.0});
    check(e);
}

// Colours crowd the faces and corners of the cube here: that is where Newton's method has the hardest work.
TEST_CASE("sRGB to reflectance and back for random colours, many at the edges of the gamut") {
    auto random = testing::seeded();
    Extremes e;
    for (int i = 0; i < 5000; ++i) {
        const auto channel = [&] {
            const double v = testing::uniform(random, 0.0, 1.0);
            const int kind = testing::whole(random, 0, 3);
            if (kind == 0) return std::round(v);
            if (kind == 1) return std::pow(v, 8.0);
            return kind == 2 ? 1.0 - std::pow(v, 8.0) : v;
        };
        take_in(e, {channel(), channel(), channel()});
    }
    check(e);
}

// Source: the definition (Burns 2020): a minimum of the squared slope under three conditions is a stationary
// point of the Lagrangian.
TEST_CASE("the reflectance is the smoothest: Lagrange's condition holds in every band") {
    for (const Srgb& c :
         {Srgb{0.18, 0.36, 0.31}, Srgb{0.9, 0.2, 0.1}, Srgb{0.1, 0.2, 0.8}, Srgb{0.95, 0.8, 0.1},
          Srgb{0.5, 1.0, 1.0}, Srgb{0.02, 0.03, 0.02}, Srgb{0.98, 0.97, 0.9}}) {
        CAPTURE(c.r);
        CHECK(worst_miss_of_stationarity(reflectance_of(c)) < 1e-5);
    }
}

TEST_CASE("a grey has a flat reflectance of its own luminance") {
    for (const double level : {0.05, 0.2, 0.5, 0.8}) {
        const double code = encoded({level, level, level}).r;
        for (const double r : reflectance_of({code, code, code})) CHECK(std::abs(r - level) < 5e-5);
    }
}

// No fibre throws back nothing at all: black is drawn in by less than a fiftieth of L*, which nobody sees.
TEST_CASE("black comes back within a fiftieth of L*") {
    CHECK(lab_under(reflectance_of({0.0, 0.0, 0.0}), Light::d65).l < 0.02);
}

TEST_CASE("colours outside the cube are taken at its edge") {
    CHECK(reflectance_of({1.2, -0.3, 0.5}) == reflectance_of({1.0, 0.0, 0.5}));
}

// Common sense of light, no source: a red fibre looks brighter under a lamp with more red in it.
TEST_CASE("the lamp changes the colour the way it should") {
    const Spectrum red = reflectance_of({0.8, 0.1, 0.1});
    const Spectrum blue = reflectance_of({0.1, 0.2, 0.8});
    CHECK(lab_under(red, Light::a).l > lab_under(red, Light::d65).l + 1.0);
    CHECK(lab_under(blue, Light::a).l < lab_under(blue, Light::d65).l - 1.0);
}
