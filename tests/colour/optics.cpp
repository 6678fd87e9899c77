#include "colour/optics.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "../measure/seed.hpp"
#include "colour/reflectance.hpp"
#include "colour/spaces.hpp"

namespace {

using namespace battwright;
using namespace battwright::colour;
using doctest::Approx;

constexpr std::array every_optics = {Optics::stearns_noechel, Optics::friele, Optics::kubelka_munk};

Spectrum dyed(std::string_view hexadecimal) {
    return reflectance_of(parse_hex(hexadecimal).value());
}

double worst_gap(const Spectrum& a, const Spectrum& b) {
    double worst = 0.0;
    for (std::size_t i = 0; i < bands; ++i) worst = std::max(worst, std::abs(a[i] - b[i]));
    return worst;
}

std::vector<Portion> random_portions(std::mt19937_64& random) {
    std::vector<Portion> portions(static_cast<std::size_t>(testing::whole(random, 2, 8)));
    for (Portion& p : portions) {
        p.share = testing::uniform(random, 0.01, 50.0);
        const auto channel = [&] { return testing::uniform(random, 0.0, 1.0); };
        p.reflectance = reflectance_of({channel(), channel(), channel()});
    }
    return portions;
}

Spectrum average(const std::vector<Portion>& portions) {
    double total = 0.0;
    for (const Portion& p : portions) total += p.share;
    Spectrum sum{};
    for (const Portion& p : portions)
        for (std::size_t i = 0; i < bands; ++i) sum[i] += p.share / total * p.reflectance[i];
    return sum;
}

double hue_degrees(const Lab& c) {
    const double h = std::atan2(c.b, c.a) * 180.0 / std::numbers::pi;
    return h < 0.0 ? h + 360.0 : h;
}

}  // namespace

// Source: Stearns & Noechel (1944), f(R) = (1 - R) / (M (R - 0.01) + 0.01), worked by hand for M = 0.15: at
// R = 0.01 the bracket vanishes and f = 99; at R = 1, 0; at R = 0.5, 0.5 / 0.0835; at R = 0.25, 0.75 / 0.046.
TEST_CASE("Stearns and Noechel's function at four reflectances") {
    const OpticsModel wool{.optics = Optics::stearns_noechel, .m = 0.15};
    CHECK(forward(0.01, wool) == Approx(99.0).epsilon(1e-12));
    CHECK(forward(0.25, wool) == Approx(16.304347826).epsilon(1e-9));
    CHECK(forward(0.5, wool) == Approx(5.988023952).epsilon(1e-9));
    CHECK(forward(1.0, wool) == 0.0);
}

// Source: the same, solved for R: (1 - 0.01 f (1 - M)) / (1 + M f); half white (f = 0) and half R = 0.01 (f =
// 99) is f = 49.5, R = (1 - 0.42075) / 8.425 = 0.068754.
TEST_CASE("half black and half white by Stearns and Noechel, worked by hand") {
    Spectrum black{}, snow{};
    black.fill(0.01);
    snow.fill(1.0);
    const std::vector<Portion> halves{{1, black}, {1, snow}};
    for (const double r : blend(halves, {})) CHECK(r == Approx(0.57925 / 8.425).epsilon(1e-9));
}

// Source: Duncan (1949) on Kubelka & Munk (1931): K/S at R = 0.5 is 0.25, at R = 0.2 is 1.6; equal parts have
// 0.925, R = 1.925 - sqrt(0.925 * 2.925) = 0.280122.
TEST_CASE("equal parts by Kubelka and Munk, worked by hand") {
    const OpticsModel km{.optics = Optics::kubelka_munk};
    CHECK(forward(0.5, km) == Approx(0.25).epsilon(1e-12));
    CHECK(forward(0.2, km) == Approx(1.6).epsilon(1e-12));
    Spectrum light{}, dark{};
    light.fill(0.5);
    dark.fill(0.2);
    const std::vector<Portion> halves{{7, light}, {7, dark}};
    for (const double r : blend(halves, km)) CHECK(r == Approx(1.925 - std::sqrt(2.705625)).epsilon(1e-9));
}

// Source: Friele (1952), f(R) = exp(-S (1 - R)^2 / (2 R)); at R = 0.5 and S = 0.26 (from memory),
// exp(-0.065).
TEST_CASE("Friele's function, worked by hand") {
    const OpticsModel friele{.optics = Optics::friele};  // Friele's own S for wool unless said
    CHECK(forward(0.5, friele) == Approx(std::exp(-0.065)).epsilon(1e-12));
    CHECK(forward(1.0, friele) == 1.0);
    Spectrum light{}, dark{};
    light.fill(0.5);
    dark.fill(0.2);
    const std::vector<Portion> mix{{3, light}, {1, dark}};
    const double f = 0.75 * std::exp(-0.26 * 0.25) + 0.25 * std::exp(-0.26 * 1.6);
    for (const double r : blend(mix, friele)) CHECK(r == Approx(inverse(f, friele)).epsilon(1e-12));
}

TEST_CASE("inverse undoes forward under every optics") {
    for (const Optics optics : every_optics) {
        const OpticsModel model{.optics = optics};
        for (const double r : {0.004, 0.01, 0.1, 0.37, 0.62, 0.9, 0.999}) {
            CAPTURE(word_for(optics));
            CAPTURE(r);
            CHECK(inverse(forward(r, model), model) == Approx(r).epsilon(1e-9));
        }
    }
}

// From deepest black, where Friele's own f is 0 in a double, to a hair below white.
TEST_CASE("a blend of one is itself under every optics, whatever the share") {
    Spectrum ladder{};
    for (std::size_t i = 0; i < bands; ++i) {
        const double t = static_cast<double>(i) / (bands - 1);
        ladder[i] = 1.0 / (1.0 + std::exp(-40.0 * (t - 0.5)));  // 2e-9 to 1 - 2e-9
    }
    for (const Optics optics : every_optics)
        for (const double share : {1.0, 1e-9, 3700.0}) {
            const std::vector<Portion> one{{share, ladder}};
            const Spectrum mixed = blend(one, {.optics = optics});
            CAPTURE(word_for(optics));
            CHECK(worst_gap(mixed, ladder) < 1e-12);
            // Dark bands keep their relative size too, save where Stearns and Noechel's 0.01 swallows it.
            if (optics != Optics::stearns_noechel)
                CHECK(std::abs(mixed.front() / ladder.front() - 1.0) < 1e-9);
        }
}

TEST_CASE("order does not matter, splitting a portion does not, scale does not") {
    auto random = testing::seeded();
    for (int round = 0; round < 60; ++round) {
        auto portions = random_portions(random);
        const OpticsModel model{.optics = every_optics[static_cast<std::size_t>(round) % 3]};
        const Spectrum mixed = blend(portions, model);
        auto shuffled = portions;
        std::shuffle(shuffled.begin(), shuffled.end(), random);
        CHECK(worst_gap(blend(shuffled, model), mixed) < 1e-12);

        auto split = portions;
        const double part = testing::uniform(random, 0.0, 1.0);
        split.push_back({part * split.front().share, split.front().reflectance});
        split.front().share *= 1.0 - part;
        CHECK(worst_gap(blend(split, model), mixed) < 1e-12);

        for (Portion& p : portions) p.share *= 28.35;
        portions.push_back({0.0, dyed("#000000")});
        CHECK(worst_gap(blend(portions, model), mixed) < 1e-12);
    }
}

// Nor lighter than their average where the additive function is convex in R (all but Friele's, which bends
// both ways).
TEST_CASE("a blend lies between its components and is no lighter than their average, band by band") {
    auto random = testing::seeded();
    for (int round = 0; round < 60; ++round) {
        const auto portions = random_portions(random);
        const OpticsModel model{.optics = every_optics[static_cast<std::size_t>(round) % 3]};
        const Spectrum mixed = blend(portions, model), plain = average(portions);
        CAPTURE(word_for(model.optics));
        for (std::size_t i = 0; i < bands; ++i) {
            double low = 1.0, high = 0.0;
            for (const Portion& p : portions) {
                low = std::min(low, p.reflectance[i]);
                high = std::max(high, p.reflectance[i]);
            }
            CHECK(mixed[i] >= low - 1e-12);
            CHECK(mixed[i] <= high + 1e-12);
            if (model.optics != Optics::friele) CHECK(mixed[i] <= plain[i] + 1e-12);
        }
    }
}

TEST_CASE("more of the lighter fibre never darkens a blend") {
    const Spectrum light = dyed("#e8dcc0"), dark = dyed("#2a2f45");
    for (const Optics optics : every_optics) {
        Spectrum before = dark;
        for (int percent = 5; percent <= 100; percent += 5) {
            const std::vector<Portion> mix{{percent * 1.0, light}, {100.0 - percent, dark}};
            const Spectrum now = blend(mix, {.optics = optics});
            for (std::size_t i = 0; i < bands; ++i) CHECK(now[i] >= before[i] - 1e-12);
            before = now;
        }
    }
}

// Known behaviour of fibre blends (Stearns & Noechel 1944; also common practice): a tenth of black takes
// white wool to a mid grey, L* in the sixties or about 70, where the plain average would be a light grey of
// L* 91.
TEST_CASE("10 % black in white is far darker than the average of the two") {
    const std::vector<Portion> mix{{90, dyed("#f2f0ea")}, {10, dyed("#1b1a1a")}};
    const double plain = lab_under(average(mix), Light::d65).l;
    CHECK(plain > 90.0);
    for (const Optics optics : every_optics) {
        const double l = lab_under(blend(mix, {.optics = optics}), Light::d65).l;
        MESSAGE(word_for(optics) << ": 10 % black in white L* " << l << ", plain average " << plain);
        CHECK(l < plain - 18.0);
    }
}

// Known behaviour: yellow and blue fibres card to a green; on a screen the plain average is a grey or a drab.
TEST_CASE("yellow and blue give a green under every optics") {
    for (const auto& [yellow, blue] :
         {std::pair{"#f6d21a", "#1d5fb4"}, {"#e8c81e", "#2a6f97"}, {"#ffe000", "#0080c8"}}) {
        const std::vector<Portion> mix{{50, dyed(yellow)}, {50, dyed(blue)}};
        for (const Optics optics : every_optics) {
            const Lab c = lab_under(blend(mix, {.optics = optics}), Light::d65);
            MESSAGE(std::string(yellow) << " + " << std::string(blue) << ", " << word_for(optics) << ": hue "
                                        << hue_degrees(c) << " degrees, chroma " << std::hypot(c.a, c.b));
            CHECK(hue_degrees(c) > 130.0);
            CHECK(hue_degrees(c) < 180.0);
            CHECK(std::hypot(c.a, c.b) > 15.0);
        }
    }
}
