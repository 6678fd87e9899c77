#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "../measure/seed.hpp"
#include "colour/spaces.hpp"
#include "lcms.hpp"

namespace {

using namespace battwright;
using namespace battwright::colour;

struct Pair {
    Lab first, second;
    double expected = 0.0;
};

// Source: Sharma, Wu & Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary
// test data, and mathematical observations", Color Res. Appl. 30 (2005), table 1, all 34 pairs; taken from
// two public transcriptions of the authors' data file that agree digit for digit.
const std::array<Pair, 34> sharma = {{
    {{50.0, 2.6772, -79.7751}, {50.0, 0.0, -82.7485}, 2.0425},
    {{50.0, 3.1571, -77.2803}, {50.0, 0.0, -82.7485}, 2.8615},
    {{50.0, 2.8361, -74.02}, {50.0, 0.0, -82.7485}, 3.4412},
    {{50.0, -1.3802, -84.2814}, {50.0, 0.0, -82.7485}, 1.0},
    {{50.0, -1.1848, -84.8006}, {50.0, 0.0, -82.7485}, 1.0},
    {{50.0, -0.9009, -85.5211}, {50.0, 0.0, -82.7485}, 1.0},
    {{50.0, 0.0, 0.0}, {50.0, -1.0, 2.0}, 2.3669},
    {{50.0, -1.0, 2.0}, {50.0, 0.0, 0.0}, 2.3669},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0009}, 7.1792},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.001}, 7.1792},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0011}, 7.2195},
    {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0012}, 7.2195},
    {{50.0, -0.001, 2.49}, {50.0, 0.0009, -2.49}, 4.8045},
    {{50.0, -0.001, 2.49}, {50.0, 0.001, -2.49}, 4.8045},
    {{50.0, -0.001, 2.49}, {50.0, 0.0011, -2.49}, 4.7461},
    {{50.0, 2.5, 0.0}, {50.0, 0.0, -2.5}, 4.3065},
    {{50.0, 2.5, 0.0}, {73.0, 25.0, -18.0}, 27.1492},
    {{50.0, 2.5, 0.0}, {61.0, -5.0, 29.0}, 22.8977},
    {{50.0, 2.5, 0.0}, {56.0, -27.0, -3.0}, 31.903},
    {{50.0, 2.5, 0.0}, {58.0, 24.0, 15.0}, 19.4535},
    {{50.0, 2.5, 0.0}, {50.0, 3.1736, 0.5854}, 1.0},
    {{50.0, 2.5, 0.0}, {50.0, 3.2972, 0.0}, 1.0},
    {{50.0, 2.5, 0.0}, {50.0, 1.8634, 0.5757}, 1.0},
    {{50.0, 2.5, 0.0}, {50.0, 3.2592, 0.335}, 1.0},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.263},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.248, -4.962}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.694}, {23.0331, 14.973, -42.5619}, 2.0373},
    {{36.4612, 47.858, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.441}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.135}, {0.9033, -0.0636, -0.5514}, 0.9082},
}};

Lab random_lab(std::mt19937_64& random) {
    return {testing::uniform(random, 0, 100), testing::uniform(random, -100, 100),
            testing::uniform(random, -100, 100)};
}

// A colour, and one near it: where differences are judged in the trade.
Lab near(const Lab& c, std::mt19937_64& random) {
    return {c.l + testing::uniform(random, -3, 3), c.a + testing::uniform(random, -4, 4),
            c.b + testing::uniform(random, -4, 4)};
}

}  // namespace

TEST_CASE("CIEDE2000 gives the 34 published differences, either way round") {
    for (const Pair& pair : sharma) {
        CAPTURE(pair.first.l);
        CAPTURE(pair.first.a);
        CAPTURE(pair.second.a);
        CHECK(std::abs(ciede2000(pair.first, pair.second) - pair.expected) < 1e-4);
        CHECK(std::abs(ciede2000(pair.second, pair.first) - pair.expected) < 1e-4);
    }
}

// Second opinion on the transcription: Little CMS, cmsCIE2000DeltaE.
TEST_CASE("Little CMS gives the same 34 differences") {
    for (const Pair& pair : sharma) {
        const cmsCIELab first = testing::lcms(pair.first), second = testing::lcms(pair.second);
        CHECK(std::abs(cmsCIE2000DeltaE(&first, &second, 1, 1, 1) - pair.expected) < 1e-4);
    }
}

TEST_CASE("CIEDE2000 agrees with Little CMS on random pairs, plain and with the textile weighting") {
    auto random = testing::seeded();
    for (int i = 0; i < 5000; ++i) {
        const Lab a = random_lab(random);
        const Lab b = i % 2 == 0 ? near(a, random) : random_lab(random);
        const cmsCIELab first = testing::lcms(a), second = testing::lcms(b);
        CAPTURE(a.l);
        CAPTURE(a.a);
        CAPTURE(a.b);
        CAPTURE(b.l);
        CAPTURE(b.a);
        CAPTURE(b.b);
        CHECK(std::abs(ciede2000(a, b) - cmsCIE2000DeltaE(&first, &second, 1, 1, 1)) < 1e-9);
        CHECK(std::abs(ciede2000(a, b, 2.0) - cmsCIE2000DeltaE(&first, &second, 2, 1, 1)) < 1e-9);
    }
}

// Second opinion: Little CMS, cmsCMCdeltaE.
TEST_CASE("CMC agrees with Little CMS on random pairs, 2:1 and 1:1") {
    auto random = testing::seeded();
    for (int i = 0; i < 5000; ++i) {
        const Lab a = random_lab(random);
        const Lab b = i % 2 == 0 ? near(a, random) : random_lab(random);
        const cmsCIELab standard = testing::lcms(a), sample = testing::lcms(b);
        CAPTURE(a.l);
        CAPTURE(a.a);
        CAPTURE(a.b);
        CHECK(std::abs(cmc(a, b) - cmsCMCdeltaE(&standard, &sample, 2, 1)) < 1e-6);
        CHECK(std::abs(cmc(a, b, 1.0) - cmsCMCdeltaE(&standard, &sample, 1, 1)) < 1e-6);
    }
}

// Source: closed form. For greys the chroma and hue terms vanish: CMC is dL / (l S_L), with S_L = 0.511 below
// L* = 16 (ISO 105-J03).
TEST_CASE("CMC of dark greys") {
    CHECK(cmc({10, 0, 0}, {11.022, 0, 0}) == doctest::Approx(1.0).epsilon(1e-9));
    CHECK(cmc({50, 0, 0}, {51, 0, 0}, 1.0) ==
          doctest::Approx((1.0 + 0.01765 * 50) / (0.040975 * 50)).epsilon(1e-12));
}

TEST_CASE("no difference between a colour and itself") {
    auto random = testing::seeded();
    for (int i = 0; i < 500; ++i) {
        const Lab c = random_lab(random);
        CHECK(ciede2000(c, c) == 0.0);
        CHECK(cmc(c, c) == 0.0);
    }
    CHECK(ciede2000({0, 0, 0}, {0, 0, 0}) == 0.0);
    CHECK(cmc({0, 0, 0}, {0, 0, 0}) == 0.0);
}
