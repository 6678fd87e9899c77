// The geometry of plying, against arc lengths measured step by step and against weighing the strands.
#include "yarn/ply.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "yarn/count.hpp"

using namespace battwright;
using doctest::Approx;
using yarn::Plying;
using yarn::Strands;
using yarn::Thread;

namespace {

constexpr double pi = std::numbers::pi;

// Length of one metre of helix as the sum of many chords, with the chords' own shortfall (1/n^2) taken out.
double helix_by_chords(double radius_mm, double turns_per_m) {
    const auto chords = [&](int n) {
        const double step = 2.0 * pi * turns_per_m / n;
        const double across = 2.0 * radius_mm / 1000.0 * std::sin(step / 2.0);
        double sum = 0.0;
        for (int i = 0; i < n; ++i) sum += std::hypot(across, 1.0 / n);
        return sum;
    };
    return (4.0 * chords(400000) - chords(200000)) / 3.0;
}

Strands equal(int plies, double angle = 22.0) {
    return {Plying::plied, plies, angle, 0.85, std::nullopt};
}
Strands with(const Thread& thread) {
    return {Plying::with_thread, 1, 22.0, 0.85, thread};
}

}  // namespace

TEST_CASE("take-up from the helix is the exact arc length") {
    for (const double radius : {0.1, 0.35, 0.8, 2.0})
        for (const double turns : {40.0, 120.0, 300.0, 700.0}) {
            const double exact = yarn::helix_factor(radius, turns);
            CHECK(std::abs(helix_by_chords(radius, turns) / exact - 1.0) < 1e-9);
            CHECK(yarn::take_up_pct(exact) == Approx(100.0 * (exact - 1.0) / exact));
        }
    CHECK(yarn::helix_factor(0.0, 300.0) == 1.0);
    CHECK(yarn::take_up_pct(1.0) == 0.0);
}

TEST_CASE("n equal strands in a ring touch their neighbours and no more") {
    CHECK(yarn::axis_radius_mm(1, 0.8) == 0.0);
    CHECK(yarn::axis_radius_mm(2, 0.8) == Approx(0.4));
    CHECK(yarn::axis_radius_mm(3, 0.8) == Approx(0.8 / std::sqrt(3.0)));
    for (int n = 2; n <= 12; ++n) {
        const double r = yarn::axis_radius_mm(n, 0.8);
        const double apart = std::hypot(r * (1.0 - std::cos(2.0 * pi / n)), r * std::sin(2.0 * pi / n));
        CHECK(apart == Approx(0.8));
    }
}

TEST_CASE("a metre of plied yarn weighs what its strands weigh") {
    for (int n = 1; n <= 12; ++n) {
        const yarn::Plied plied = yarn::plied_from(180.0, equal(n));
        const double diameter = yarn::compact_diameter_mm(180.0, 0.85);
        const double walked = helix_by_chords(yarn::axis_radius_mm(n, diameter), plied.turns_per_m);
        CHECK(plied.tex == Approx(n * 180.0 * walked).epsilon(1e-9));
        CHECK(plied.single_m_per_m == Approx(n * walked).epsilon(1e-9));
        CHECK(plied.strands == n);
        CHECK(yarn::single_tex_for(plied.tex, equal(n)) == Approx(180.0).epsilon(1e-12));
    }
}

TEST_CASE("a single left as it is gives up nothing") {
    const yarn::Plied single = yarn::plied_from(180.0, equal(1));
    CHECK(single.take_up_pct == 0.0);
    CHECK(single.turns_per_m == 0.0);
    CHECK(single.tex == 180.0);
    CHECK(single.single_turns_per_m > 0.0);
}

TEST_CASE("a balanced ply has two thirds of the singles' turns, and a known helix angle") {
    // Common practice, no source: two thirds. The angle follows: tan = 2/3 tan(a) / sin(pi / n).
    for (const int n : {2, 3}) {
        const yarn::Plied plied = yarn::plied_from(180.0, equal(n));
        CHECK(plied.turns_per_m == Approx(plied.single_turns_per_m * 2.0 / 3.0));
        const double tangent = 2.0 / 3.0 * std::tan(22.0 * pi / 180.0) / std::sin(pi / n);
        CHECK(std::tan(plied.helix_angle_degrees * pi / 180.0) == Approx(tangent));
    }
    // More strands: fewer turns, the same angle as three.
    const double three = yarn::plied_from(180.0, equal(3)).helix_angle_degrees;
    for (const int n : {4, 6, 12}) {
        CHECK(yarn::ply_twist_fraction(n) < yarn::ply_twist_fraction(n - 1));
        CHECK(yarn::plied_from(180.0, equal(n)).helix_angle_degrees == Approx(three));
    }
    CHECK(yarn::ply_twist_fraction(1) == 0.0);
}

TEST_CASE("plying with itself halves the length, but for the take-up") {
    // Common practice: two-ply gives half of the single's length, three-ply and chain ply a third.
    const auto two = yarn::effect_of(180.0, equal(2));
    CHECK(two.length_factor < 0.5);
    CHECK(two.length_factor > 0.46);
    const Strands chain{Plying::chain, 1, 22.0, 0.85, std::nullopt};
    const auto chained = yarn::effect_of(180.0, chain);
    CHECK(chained.length_factor < 1.0 / 3.0);
    CHECK(chained.length_factor == Approx(yarn::effect_of(180.0, equal(3)).length_factor));
    CHECK(two.thickness_factor * two.thickness_factor * two.length_factor == Approx(1.0));
}

TEST_CASE("stripes: a chain keeps them, chance softens them by the root of the strands") {
    // Klein, The Rieter Manual of Spinning, vol. 1: CV_out = CV_in / sqrt(D) for D independent doublings.
    CHECK(yarn::effect_of(180.0, equal(1)).stripe_strength == 1.0);
    CHECK(yarn::effect_of(180.0, equal(4)).stripe_strength == Approx(0.5));
    const Strands chain{Plying::chain, 1, 22.0, 0.85, std::nullopt};
    CHECK(yarn::effect_of(180.0, chain).stripe_strength == 1.0);
    const Strands pole{Plying::barber_pole, 1, 22.0, 0.85, std::nullopt};
    CHECK(yarn::effect_of(180.0, pole).contrast_across == 1.0);
    CHECK(yarn::effect_of(180.0, equal(2)).contrast_across == 0.0);
    CHECK(yarn::effect_of(180.0, pole).text != yarn::effect_of(180.0, chain).text);
}

TEST_CASE("a bought thread keeps the length and is itself walked round the thicker single") {
    const Thread thread{30.0, 500.0};
    const yarn::Plied plied = yarn::plied_from(180.0, with(thread));
    CHECK(plied.strands == 2);
    // Either side of the axis of the circle round both: each half the other's diameter away.
    const double single_mm = yarn::compact_diameter_mm(180.0, 0.85);
    const double thread_mm = yarn::compact_diameter_mm(30.0, yarn::ashenhurst_very_firm);
    CHECK(plied.factor == Approx(helix_by_chords(thread_mm / 2.0, plied.turns_per_m)).epsilon(1e-9));
    CHECK(plied.thread_factor == Approx(helix_by_chords(single_mm / 2.0, plied.turns_per_m)).epsilon(1e-9));
    CHECK(plied.thread_factor > plied.factor);
    CHECK(plied.tex == Approx(180.0 * plied.factor + 30.0 * plied.thread_factor));
    // Common practice: plying with a commercial thread keeps the length.
    CHECK(yarn::effect_of(180.0, with(thread)).length_factor > 0.97);
    for (const double tex : {1.0, 20.0, 180.0, 1500.0}) {
        const double back = yarn::single_tex_for(yarn::plied_from(tex, with(thread)).tex, with(thread));
        CHECK(std::abs(back / tex - 1.0) < 1e-12);
    }
    // A thread as thick as the single is an ordinary two-ply, up to the two firmnesses.
    const Thread twin{180.0 * 0.91 * 0.91 / (0.85 * 0.85), 500.0};
    CHECK(yarn::plied_from(180.0, with(twin)).factor == Approx(yarn::plied_from(180.0, equal(2)).factor));
    // Half of the surface each: the strongest contrast.
    CHECK(yarn::effect_of(180.0, with(twin)).contrast_across == Approx(1.0));
    // No single can make a yarn finer than its thread.
    CHECK(yarn::single_tex_for(25.0, with(thread)) == 0.0);
}

TEST_CASE("a thread shorter than needed says by how much") {
    CHECK(yarn::thread_to_spare_m({30.0, 500.0}, 412.0).value() == Approx(88.0));
    const auto spare = yarn::thread_to_spare_m({30.0, 300.0}, 412.0);
    REQUIRE_FALSE(spare.has_value());
    const std::string line = measure::to_line(spare.error());
    CHECK(line.find("300 m") != std::string::npos);
    CHECK(line.find("412 m") != std::string::npos);
    CHECK(line.find("112 m") != std::string::npos);
}
