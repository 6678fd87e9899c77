#include "colour/spaces.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "../measure/seed.hpp"
#include "lcms.hpp"

namespace {

using namespace battwright;
using namespace battwright::colour;
using doctest::Approx;

Srgb random_srgb(std::mt19937_64& random) {
    const auto channel = [&] { return testing::uniform(random, 0.0, 1.0); };
    return {channel(), channel(), channel()};
}

}  // namespace

// Source: IEC 61966-2-1: 12.92 below 0.04045, ((c + 0.055) / 1.055)^2.4 above; worked by hand.
TEST_CASE("sRGB decoding and encoding follow the standard's two pieces") {
    const LinearRgb light = linear({0.04, 0.5, 1.0});
    CHECK(light.r == Approx(0.04 / 12.92).epsilon(1e-14));
    CHECK(light.g == Approx(std::pow(0.555 / 1.055, 2.4)).epsilon(1e-14));
    CHECK(light.b == Approx(1.0).epsilon(1e-14));
    const Srgb code = encoded({0.003, 0.18, 1.0});
    CHECK(code.r == Approx(0.003 * 12.92).epsilon(1e-14));
    CHECK(code.g == Approx(1.055 * std::pow(0.18, 1.0 / 2.4) - 0.055).epsilon(1e-14));
    CHECK(code.b == Approx(1.0).epsilon(1e-14));
}

// Source: the inverse matrix of IEC 61966-2-1 carried to seven decimals, as widely printed (3.2406255 ...).
TEST_CASE("XYZ to linear sRGB is the standard's matrix") {
    const LinearRgb x = linear_from({100, 0, 0}), y = linear_from({0, 100, 0}), z = linear_from({0, 0, 100});
    const std::array<double, 9> ours{x.r, y.r, z.r, x.g, y.g, z.g, x.b, y.b, z.b};
    const std::array<double, 9> printed{3.2406255, -1.5372080, -0.4986286, -0.9689307, 1.8757561,
                                        0.0415175, 0.0557101,  -0.2040211, 1.0569959};
    for (std::size_t i = 0; i < printed.size(); ++i) {
        CAPTURE(i);
        CHECK(std::abs(ours[i] - printed[i]) < 1e-7);
    }
}

TEST_CASE("there and back: sRGB, linear, XYZ and Lab, also outside the gamut") {
    auto random = testing::seeded();
    for (int i = 0; i < 2000; ++i) {
        const auto channel = [&] { return testing::uniform(random, -0.2, 1.2); };
        const Srgb c{channel(), channel(), channel()};
        CAPTURE(c.r);
        CAPTURE(c.g);
        CAPTURE(c.b);
        const Srgb back = srgb_from(lab(c));
        CHECK(std::abs(back.r - c.r) < 1e-9);
        CHECK(std::abs(back.g - c.g) < 1e-9);
        CHECK(std::abs(back.b - c.b) < 1e-9);
    }
}

// Source: closed form of CIE 15: at Y/Yn = (6/29)^3 both pieces give L* = 8; Y/Yn = 1/8 gives 116/2 - 16
// = 42.
TEST_CASE("L* at the knee, at an eighth, at black and at white") {
    const Xyz w = srgb_white();
    const auto l_of = [&](double share) { return lab(Xyz{w.x * share, w.y * share, w.z * share}, w); };
    CHECK(l_of(216.0 / 24389.0).l == Approx(8.0).epsilon(1e-12));
    CHECK(l_of(0.125).l == Approx(42.0).epsilon(1e-12));
    CHECK(l_of(1.0).l == Approx(100.0).epsilon(1e-12));
    CHECK(std::abs(l_of(0.0).l) < 1e-12);
    for (const double share : {0.0, 0.003, 0.2, 1.0}) {
        CHECK(std::abs(l_of(share).a) < 1e-12);
        CHECK(std::abs(l_of(share).b) < 1e-12);
    }
}

// Second opinion: Little CMS, cmsXYZ2Lab and cmsLab2XYZ.
TEST_CASE("Lab agrees with Little CMS") {
    auto random = testing::seeded();
    const Xyz w = white(Light::a);
    const cmsCIEXYZ lcms_white = testing::lcms(w);
    for (int i = 0; i < 500; ++i) {
        const Xyz c{testing::uniform(random, 0, w.x), testing::uniform(random, 0, 100),
                    testing::uniform(random, 0, w.z)};
        const cmsCIEXYZ theirs = testing::lcms(c);
        cmsCIELab expected;
        cmsXYZ2Lab(&lcms_white, &expected, &theirs);
        const Lab ours = lab(c, w);
        CHECK(std::abs(ours.l - expected.L) < 1e-6);
        CHECK(std::abs(ours.a - expected.a) < 1e-6);
        CHECK(std::abs(ours.b - expected.b) < 1e-6);
    }
}

// Second opinion: Little CMS, cmsAdaptToIlluminant (linear Bradford).
TEST_CASE("Bradford adaptation agrees with Little CMS and takes white to white") {
    auto random = testing::seeded();
    const Xyz from = white(Light::f2), to = srgb_white();
    const cmsCIEXYZ lcms_from = testing::lcms(from), lcms_to = testing::lcms(to);
    for (int i = 0; i < 200; ++i) {
        const auto value = [&] { return testing::uniform(random, 0.0, 100.0); };
        const Xyz c{value(), value(), value()};
        const cmsCIEXYZ theirs = testing::lcms(c);
        cmsCIEXYZ expected;
        REQUIRE(cmsAdaptToIlluminant(&expected, &lcms_from, &lcms_to, &theirs));
        const Xyz ours = adapted(c, from, to);
        CHECK(std::abs(ours.x - expected.X) < 1e-8);
        CHECK(std::abs(ours.y - expected.Y) < 1e-8);
        CHECK(std::abs(ours.z - expected.Z) < 1e-8);
    }
    const Xyz there = adapted(from, from, to);
    CHECK(there.x == Approx(to.x).epsilon(1e-12));
    CHECK(there.y == Approx(to.y).epsilon(1e-12));
    CHECK(there.z == Approx(to.z).epsilon(1e-12));
}

// Second opinion: Little CMS's built-in sRGB profile. It builds its matrix from the primaries' x, y, ours is
// the standard's four-digit matrix: that, and Little CMS's single precision, is the tolerance.
TEST_CASE("sRGB to Lab agrees with Little CMS, under D65 and in the profile's own D50") {
    auto random = testing::seeded();
    const testing::LcmsSrgb theirs;
    const cmsCIEXYZ d65 = testing::lcms_d65();
    const cmsCIEXYZ* d50 = cmsD50_XYZ();
    const Xyz d50_white{100.0 * d50->X, 100.0 * d50->Y, 100.0 * d50->Z};
    double worst_d65 = 0.0, worst_d50 = 0.0;
    for (int i = 0; i < 2000; ++i) {
        const Srgb c = random_srgb(random);
        cmsCIELab expected;
        const cmsCIEXYZ at_d65 = theirs.d65(c);
        cmsXYZ2Lab(&d65, &expected, &at_d65);
        worst_d65 = std::max(worst_d65, ciede2000(lab(c), Lab{expected.L, expected.a, expected.b}));

        const cmsCIEXYZ at_d50 = theirs.d50(c);
        cmsXYZ2Lab(d50, &expected, &at_d50);
        const Lab ours = lab(adapted(xyz_from(linear(c)), srgb_white(), d50_white), d50_white);
        worst_d50 = std::max(worst_d50, ciede2000(ours, Lab{expected.L, expected.a, expected.b}));
    }
    MESSAGE("worst CIEDE2000 against Little CMS: D65 " << worst_d65 << ", D50 " << worst_d50);
    CHECK(worst_d65 < 0.02);
    CHECK(worst_d50 < 0.02);
}

TEST_CASE("a reflectance of 1 everywhere is sRGB white under every light, a flat grey stays grey") {
    for (const Light light : {Light::d65, Light::a, Light::f2}) {
        for (const double level : {1.0, 0.5, 0.02}) {
            Spectrum flat{};
            flat.fill(level);
            const double code = encoded({level, level, level}).r;
            const Srgb seen = srgb_under(flat, light);
            CHECK(std::abs(seen.r - code) < 1e-12);
            CHECK(std::abs(seen.g - code) < 1e-12);
            CHECK(std::abs(seen.b - code) < 1e-12);
            CHECK(std::abs(lab_under(flat, light).a) < 1e-10);
            CHECK(std::abs(lab_under(flat, light).b) < 1e-10);
        }
    }
}

TEST_CASE("colours outside the gamut are not clipped until asked") {
    Spectrum laser{};  // one green band alone: no screen shows it
    laser[28] = 1.0;   // 520 nm
    const Srgb seen = srgb_under(laser, Light::d65);
    CHECK(seen.r < 0.0);
    CHECK(clipped(seen).r == 0.0);
    CHECK(clipped({1.5, -0.5, std::nan("")}) == Srgb{1.0, 0.0, 0.0});
}
