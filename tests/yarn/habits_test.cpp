// Aim and loft, learnt apart.
#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "yarn/calibration.hpp"
#include "yarn/habit_words.hpp"
#include "yarns.hpp"

using namespace yarns;
using doctest::Approx;
using yarn::Calibration;
using yarn::Lesson;
using yarn::Question;
using yarn::Taught;

namespace {

constexpr auto middle = Preparation::semi_woollen;

double log_law(double wpi) {
    return yarn::log_m_per_kg_at_wraps(wpi, {});
}
// A skein of 100 g planned at `wanted` wraps, got at `got` with that loft.
Lesson skein_of(double wanted, double got, double log_loft = 0.0) {
    Lesson lesson;
    lesson.preparation = middle;
    lesson.grams = 100.0;
    lesson.metres = 0.1 * std::exp(log_law(got) + log_loft);
    lesson.nominal_m = 0.1 * std::exp(log_law(wanted));
    lesson.by_wraps = true;
    lesson.wanted_wpi = wanted;
    lesson.got_wpi = got;
    return lesson;
}
double width(const yarn::LengthInHand& held) {
    return std::log(held.high_m / held.low_m);
}
double width(const yarn::YarnForecast& told) {
    return std::log(told.length_high_m / told.length_low_m);
}

// A spinner whose habits are drawn from the prior, or given.
struct SimulatedSpinner {
    double aim = 0.0, loft = 0.0;
    std::mt19937* random = nullptr;
    double normal(double sd) { return std::normal_distribution<double>(0.0, sd)(*random); }
    Lesson spin(double wanted, bool wrapped = true) {
        const double got = wanted * std::exp(aim + normal(yarn::aim_chance_log_sd));
        Lesson lesson = skein_of(wanted, got, loft + normal(yarn::loft_chance_log_sd));
        if (!wrapped) lesson.got_wpi = 0.0;
        lesson.confirmed = true;  // asked, and so it was
        return lesson;
    }
};

}  // namespace

TEST_CASE("three average skeins of 16 wraps from batts planned at 12 teach aim, and loft nothing") {
    Calibration calibration;
    const auto held_before = yarn::length_in_hand(100.0, 12.0, {}, middle, calibration);
    const yarn::YarnForecast before = spun(plan(wraps(12.0)));
    for (int i = 0; i < 3; ++i) {
        CHECK(calibration.question_about(skein_of(12.0, 16.0)) == Question::changed_her_mind);
        CHECK(calibration.learn(skein_of(12.0, 16.0)).value() == Taught::aim_and_loft);
    }
    // A skein in hand is foretold as before, only surer.
    const auto held = yarn::length_in_hand(100.0, 12.0, {}, middle, calibration);
    CHECK(held.metres == Approx(held_before.metres));
    CHECK(width(held) < width(held_before));
    CHECK(calibration.loft(middle).mean == Approx(0.0));
    // The plan knows what to expect and what to ask for.
    const yarn::YarnForecast after = spun(plan(wraps(12.0)), 100.0, calibration);
    CHECK(after.expected_wpi == Approx(12.0 * std::exp(calibration.aim(middle).mean)));
    CHECK(after.expected_wpi > 15.0);
    CHECK(after.expected_wpi < 16.0);
    CHECK(after.aim_for_wpi > 9.0);
    CHECK(after.aim_for_wpi < 9.6);
    CHECK(after.length_m > before.length_m);
    CHECK(after.length_m < before.length_m * std::exp(log_law(16.0) - log_law(12.0)) * 1.01);
    CHECK(width(after) < width(before));
    CHECK(yarn::plan_words(after).find("for 12 wraps your hands give about 15.5") != std::string::npos);
    CHECK(yarn::aim_words(calibration.aim(middle), 12.0).find("3 skeins") != std::string::npos);
    CHECK(yarn::loft_words(calibration.loft(middle)).find("as long as others'") != std::string::npos);
}

TEST_CASE("a changed plan teaches loft alone, and no wraps only the product") {
    Calibration calibration;
    Lesson meant = skein_of(12.0, 16.0, 0.2);
    meant.changed_plan = true;
    CHECK(calibration.question_about(meant) == Question::none);
    CHECK(calibration.learn(meant).value() == Taught::loft_only);
    CHECK(calibration.aim(middle).count == 0);
    CHECK(calibration.loft(middle).mean > 0.0);
    CHECK(calibration.of(middle).count == 0);

    Calibration blind;
    Lesson bare = skein_of(12.0, 16.0, 0.2);
    bare.got_wpi = 0.0;
    CHECK(blind.learn(bare).value() == Taught::product_only);
    CHECK(blind.aim(middle).count == 0);
    CHECK(blind.loft(middle).count == 0);
    CHECK(blind.planned(middle, 12.0).mean > 0.0);
    CHECK(blind.in_hand(middle).mean == 0.0);
    CHECK(yarn::taught_words(Taught::product_only).find("not wrapped") != std::string::npos);

    // Yarn from before the stash has no plan: its own weight, length and wraps teach loft.
    Lesson old = skein_of(12.0, 12.0, 0.2);
    old.nominal_m = old.wanted_wpi = 0.0;
    old.by_wraps = false;
    CHECK(calibration.learn(old).value() == Taught::loft_only);
    // And a length alone teaches nothing, in one line.
    old.got_wpi = 0.0;
    CHECK_FALSE(calibration.learn(old).has_value());
}

TEST_CASE("a skein that disagrees strongly is asked about before it teaches") {
    Calibration calibration;
    Lesson odd = skein_of(12.0, 12.0, 1.2);  // 3.3 times as long as its wraps make likely
    CHECK(calibration.question_about(odd) == Question::is_it_right);
    CHECK(calibration.learn(odd).value() == Taught::nothing);
    CHECK(calibration.loft(middle).count == 0);
    odd.confirmed = true;
    CHECK(calibration.question_about(odd) == Question::none);
    CHECK(calibration.learn(odd).value() == Taught::aim_and_loft);
    CHECK(calibration.loft(middle).count == 1);
    Lesson bare = skein_of(12.0, 12.0, -1.5);
    bare.got_wpi = 0.0;
    CHECK(Calibration().question_about(bare) == Question::is_it_right);
    CHECK_FALSE(yarn::question_words(Question::is_it_right, odd).empty());
    CHECK(yarn::question_words(Question::none, odd).empty());
}

TEST_CASE("a preparation speaks for itself once it has enough skeins") {
    Calibration calibration;
    for (int i = 0; i < yarn::enough_skeins; ++i) {
        Lesson lesson = skein_of(12.0, 12.0, 0.3);
        REQUIRE(calibration.learn(lesson).has_value());
    }
    CHECK(calibration.loft(Preparation::woollen).mean == Approx(calibration.loft(middle).mean));
    for (int i = 0; i < yarn::enough_skeins; ++i) {
        Lesson lesson = skein_of(12.0, 12.0, -0.3);
        lesson.preparation = Preparation::woollen;
        REQUIRE(calibration.learn(lesson).has_value());
    }
    CHECK(calibration.loft(Preparation::woollen).mean < 0.0);
    CHECK(calibration.loft(middle).mean > 0.0);
}

TEST_CASE("simulated spinners' habits are found") {
    std::mt19937 random(15);
    for (const auto& [aim, loft] : {std::pair{std::log(1.2), -0.3}, {std::log(0.85), 0.25}, {0.0, 0.5}}) {
        Calibration calibration;
        SimulatedSpinner spinner{aim, loft, &random};
        for (int i = 0; i < 60; ++i) REQUIRE(calibration.learn(spinner.spin(i % 2 == 0 ? 10.0 : 15.0)));
        CHECK(std::abs(calibration.aim(middle).mean - aim) < 4.0 * calibration.aim(middle).sd());
        CHECK(std::abs(calibration.loft(middle).mean - loft) < 4.0 * calibration.loft(middle).sd());
        CHECK(calibration.aim(middle).sd() < 0.02);
        CHECK(calibration.loft(middle).sd() < 0.05);
    }
}

TEST_CASE("four in five of 4,000 simulated spinners' next skeins fall in both ranges, which narrow") {
    std::mt19937 random(1515);
    double last_plan = 10.0, last_held = 10.0;
    for (const int logged : {0, 1, 3, 8, 20}) {
        CAPTURE(logged);
        int in_plan = 0, in_hand = 0;
        double plan_width = 0.0, held_width = 0.0;
        constexpr int spinners = 4000;
        for (int i = 0; i < spinners; ++i) {
            SimulatedSpinner spinner{0.0, 0.0, &random};
            spinner.aim = spinner.normal(yarn::aim_habit_log_sd);
            spinner.loft = spinner.normal(yarn::loft_habit_log_sd);
            Calibration calibration;
            // Every third skein is never wrapped.
            for (int s = 0; s < logged; ++s)
                // One in some thousands is so far off that it is taken for a slip.
                static_cast<void>(calibration.learn(spinner.spin(s % 2 == 0 ? 10.0 : 14.0, s % 3 != 2)));
            const Lesson next = spinner.spin(12.0);
            const yarn::Prediction told = calibration.planned(middle, 12.0);
            const double half = yarn::half_width_80_percent(told);
            in_plan += std::abs(std::log(next.metres / next.nominal_m) - told.mean) <= half ? 1 : 0;
            const yarn::Prediction held = calibration.in_hand(middle);
            const double held_half = yarn::half_width_80_percent(held);
            const double loft = std::log(10.0 * next.metres) - log_law(next.got_wpi);
            in_hand += std::abs(loft - held.mean) <= held_half ? 1 : 0;
            plan_width += half / spinners;
            held_width += held_half / spinners;
        }
        const double of_plans = in_plan / static_cast<double>(spinners);
        const double of_hands = in_hand / static_cast<double>(spinners);
        CHECK(of_plans > 0.75);
        CHECK(of_plans < 0.85);
        CHECK(of_hands > 0.75);
        CHECK(of_hands < 0.85);
        CHECK(plan_width < last_plan);
        CHECK(held_width < last_held);
        last_plan = plan_width;
        last_held = held_width;
    }
}
