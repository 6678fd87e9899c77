// Learning a spinner's habit from her skeins: closed forms, published quantiles, and simulated spinners.
#include "yarn/calibration.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "yarn/thickness.hpp"

using namespace battwright;
using doctest::Approx;
using recipe::Preparation;
using yarn::Belief;
using yarn::Calibration;

namespace {

Belief after(const std::vector<double>& log_ratios) {
    Belief belief;
    for (const double y : log_ratios) belief.update(y);
    return belief;
}

struct Spinner {
    double habit, chance_sd;
};

// Share of 10,000 spinners whose next skein falls in the 80 % range after `logged` skeins.
template <class MakeSpinner>
double coverage(int logged, MakeSpinner make_spinner) {
    std::mt19937 random(20240611u + static_cast<unsigned>(logged));
    std::normal_distribution<double> normal;
    int inside = 0;
    for (int i = 0; i < 10000; ++i) {
        const Spinner spinner = make_spinner(random);
        Belief belief;
        for (int k = 0; k < logged; ++k) belief.update(spinner.habit + spinner.chance_sd * normal(random));
        const double next = spinner.habit + spinner.chance_sd * normal(random);
        inside += std::abs(next - belief.mean) <= yarn::half_width_80_percent(belief) ? 1 : 0;
    }
    return inside / 10000.0;
}

}  // namespace

TEST_CASE("quantiles of Student's t") {
    // Printed in any statistical table (values from memory): one-sided 10 % points.
    CHECK(std::abs(yarn::t_of_80_percent(1) - 3.078) < 5e-4);
    CHECK(std::abs(yarn::t_of_80_percent(2) - 1.886) < 5e-4);
    CHECK(std::abs(yarn::t_of_80_percent(3) - 1.638) < 5e-4);
    CHECK(std::abs(yarn::t_of_80_percent(5) - 1.476) < 5e-4);
    CHECK(std::abs(yarn::t_of_80_percent(8) - 1.397) < 5e-4);
    CHECK(std::abs(yarn::t_of_80_percent(10) - 1.372) < 5e-4);
    CHECK(std::abs(yarn::t_of_80_percent(30) - 1.310) < 5e-4);
    CHECK(std::abs(yarn::t_of_80_percent(100000) - yarn::z_of_80_percent) < 1e-4);
    // Closed form: one degree is Cauchy, whose 90 % point is tan(0.4 pi); two degrees: 0.8 sqrt(2 / 0.36).
    CHECK(yarn::t_of_80_percent(1) == Approx(std::tan(0.4 * 3.14159265358979)));
    CHECK(yarn::t_of_80_percent(2) == Approx(0.8 * std::sqrt(2.0 / 0.36)));
    // The normal's own: Phi(z) = 0.9.
    CHECK(0.5 * std::erfc(-yarn::z_of_80_percent / std::sqrt(2.0)) == Approx(0.9).epsilon(1e-12));
}

TEST_CASE("before a skein is logged: the prior, made of its named parts") {
    const Belief prior = Calibration().of(Preparation::woollen);
    CHECK(prior.mean == 0.0);
    CHECK(prior.count == 0);
    CHECK(prior.chance_sd() == Approx(yarn::skein_log_sd));
    // Habit and chance, as strangers' skeins show them (law_test.cpp), add in squares.
    CHECK(prior.predictive_sd() == Approx(std::hypot(yarn::loft_habit_log_sd, yarn::loft_chance_log_sd)));
}

TEST_CASE("skein by skein is the closed form of all skeins at once, in any order") {
    // Normal-inverse-gamma posterior (Gelman and others, Bayesian Data Analysis, section 3.3).
    const std::vector<double> y{0.21, 0.05, -0.13, 0.30, 0.11, 0.18};
    const double n = 6.0, k0 = yarn::prior_skeins, v0 = yarn::prior_freedom;
    double sum = 0.0;
    for (const double value : y) sum += value;
    const double average = sum / n;
    double about = 0.0;
    for (const double value : y) about += (value - average) * (value - average);
    const double squares =
        v0 * yarn::skein_log_sd * yarn::skein_log_sd + about + k0 * n / (k0 + n) * average * average;

    const Belief belief = after(y);
    CHECK(belief.mean == Approx(sum / (k0 + n)).epsilon(1e-12));
    CHECK(belief.skeins == Approx(k0 + n).epsilon(1e-12));
    CHECK(belief.freedom == yarn::prior_freedom + 6);
    CHECK(belief.squares == Approx(squares).epsilon(1e-12));
    CHECK(belief.count == 6);
    CHECK(belief.predictive_sd() == Approx(std::sqrt(squares / (v0 + n) * (1.0 + 1.0 / (k0 + n)))));

    std::vector<double> other = y;
    std::reverse(other.begin(), other.end());
    CHECK(after(other).mean == Approx(belief.mean).epsilon(1e-12));
    CHECK(after(other).squares == Approx(belief.squares).epsilon(1e-12));
}

TEST_CASE("the range narrows as skeins of a steady hand are logged, and the mean goes to her habit") {
    Belief belief;
    double width = yarn::half_width_80_percent(belief);
    for (int i = 0; i < 30; ++i) {
        belief.update(0.2 + (i % 2 == 0 ? 0.05 : -0.05));
        const double now = yarn::half_width_80_percent(belief);
        CHECK(now < width);
        width = now;
    }
    CHECK(belief.mean == Approx(0.2).epsilon(0.05).scale(0.0));
    CHECK(width < 0.5 * yarn::half_width_80_percent(Belief{}));
    CHECK(belief.sd() < 0.025);
}

TEST_CASE("an erratic hand is not promised the range of a steady one") {
    Belief steady, erratic;
    for (int i = 0; i < 24; ++i) {
        const double sign = i % 2 == 0 ? 1.0 : -1.0;
        steady.update(0.05 * sign);
        erratic.update(0.30 * sign);
    }
    CHECK(yarn::half_width_80_percent(erratic) > 2.0 * yarn::half_width_80_percent(steady));
    // Other doubts add in squares.
    CHECK(yarn::half_width_80_percent(steady, 0.1) ==
          Approx(yarn::t_of_80_percent(steady.freedom) * std::hypot(steady.predictive_sd(), 0.1)));
}

TEST_CASE("four in five of 10,000 simulated spinners' next skeins fall in the range") {
    const double habit_sd = yarn::skein_log_sd / std::sqrt(yarn::prior_skeins);
    const auto as_the_prior = [&](std::mt19937& random) {
        std::chi_squared_distribution<double> chi(yarn::prior_freedom);
        std::normal_distribution<double> normal;
        const double chance = yarn::skein_log_sd * std::sqrt(yarn::prior_freedom / chi(random));
        return Spinner{normal(random) * chance / std::sqrt(yarn::prior_skeins), chance};
    };
    const auto all_alike_in_chance = [&](std::mt19937& random) {
        std::normal_distribution<double> normal;
        return Spinner{habit_sd * normal(random), yarn::skein_log_sd};
    };
    // Outside the model: half as erratic again as the prior expects, with a habit of half as much again.
    const auto erratic = [&](std::mt19937& random) {
        std::normal_distribution<double> normal;
        return Spinner{1.5 * habit_sd * normal(random), 1.5 * yarn::skein_log_sd};
    };
    for (const int logged : {0, 1, 3, 10, 40}) {
        CAPTURE(logged);
        const double own = coverage(logged, as_the_prior);
        // The model's own spinners: 80 % within four standard errors (0.4 % each).
        CHECK(std::abs(own - 0.8) < 0.016);
        const double alike = coverage(logged, all_alike_in_chance);
        CHECK(alike > 0.75);
        CHECK(alike < 0.85);
    }
    // A wrong prior is outgrown.
    CHECK(coverage(40, erratic) > 0.75);
    CHECK(coverage(0, erratic) < coverage(40, erratic));
}

TEST_CASE("each preparation learns by itself, and nonsense is turned away") {
    Calibration calibration;
    CHECK_FALSE(calibration.update(Preparation::worsted, 240.0, 200.0).has_value());
    CHECK(calibration.of(Preparation::worsted).count == 1);
    CHECK(calibration.of(Preparation::worsted).mean > 0.0);
    CHECK(calibration.of(Preparation::woollen).count == 0);
    for (const auto& [real, nominal] : std::vector<std::pair<double, double>>{{0.0, 200.0},
                                                                              {-3.0, 200.0},
                                                                              {std::nan(""), 200.0},
                                                                              {200.0, 0.0},
                                                                              {2000.0, 200.0},
                                                                              {30.0, 200.0}}) {
        const auto complaint = calibration.update(Preparation::worsted, real, nominal);
        REQUIRE(complaint.has_value());
        CHECK_FALSE(complaint->mend.empty());
        CHECK_FALSE(complaint->where.empty());
    }
    CHECK(calibration.of(Preparation::worsted).count == 1);
}
