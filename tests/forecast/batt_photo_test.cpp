// What photos teach: spinners made here, whose m and mixing are known. They are drawn from the stated priors
// and their photos from the stated errors, so that four in five of the 80 % ranges must hold the truth. This
// shows that the arithmetic is right, not that the model is: nothing is said of real batts.
#include "forecast/batt_photo.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "colour/sighting.hpp"
#include "forecast/batt.hpp"
#include "forecast/colour_doubt.hpp"
#include "forecast/foretold.hpp"

namespace batt_photo_test {

using namespace battwright;
using colour::Lab;

namespace {

forecast::Forecast photo_made(const std::string& components, const std::string& carding,
                              const forecast::Bench& more = {}) {
    return testing::foretold("format = 1\n" + components + "[carding]\n" + carding, more);
}

std::string went_in(const std::string& fibre, const std::string& colour, int grams) {
    return "[[component]]\nfibre = \"" + fibre + "\"\ncolour = \"" + colour + "\"\nweight = \"" +
           std::to_string(grams) + " g\"\n";
}
const std::string black_white = went_in("corriedale", "#1a1716", 20) + went_in("corriedale", "#efe9dc", 20);

struct Draws {
    std::mt19937_64 random{20'261'126};
    std::normal_distribution<double> normal{0.0, 1.0};
    double operator()() { return normal(random); }
};

Lab plus(const Lab& c, const Lab& shift, double times) {
    return {c.l + times * shift.l, c.a + times * shift.a, c.b + times * shift.b};
}

// The photo such a spinner takes of such a batt.
colour::BattReading photo_of(const forecast::PhotoForecast& told, double log_m, double log_mixing,
                             Draws& draw) {
    constexpr std::size_t patches = 30;
    const Lab by_mixing =
        colour::minus(forecast::mean_at(told.by_mixing, log_mixing), forecast::mean_at(told.by_mixing, 0.0));
    Lab mean = plus(forecast::mean_at(told.by_m, log_m), by_mixing, 1.0);
    for (const Lab& error : told.errors) mean = plus(mean, error, draw());
    for (const Lab& error : colour::errors_of(mean, forecast::camera_doubt_de00))
        mean = plus(mean, error, draw());
    const double level = std::exp(forecast::white_level_sd * draw());
    colour::Xyz light = colour::xyz_from(mean, colour::srgb_white());
    light = {light.x * level * std::exp(forecast::white_x_sd * draw()), light.y * level,
             light.z * level * std::exp(forecast::white_z_sd * draw())};
    colour::BattReading reading;
    reading.mean = colour::lab(light, colour::srgb_white());
    reading.patches = patches;
    const double log_variation = forecast::log_variation_at(told.by_mixing, log_mixing) +
                                 forecast::log_variation_at(told.by_m, log_m) -
                                 forecast::log_variation_at(told.by_m, 0.0);
    const double seen = 0.5 * std::log(std::exp(2.0 * log_variation) + std::pow(forecast::texture_de00, 2.0));
    reading.variation_de00 =
        std::exp(seen + forecast::variation_log_sd * draw() + told.log_variation_sd * draw() +
                 draw() / std::sqrt(2.0 * (patches - 1.0)));
    return reading;
}

bool holds(const colour::BeliefNormal& belief, double truth) {
    return std::abs(truth - belief.mean) < 1.2815515655 * std::sqrt(belief.variance);
}

std::vector<forecast::PhotoForecast> several_batts() {
    std::vector<forecast::PhotoForecast> told;
    const std::string three = went_in("bluefaced-leicester", "#8a2b4a", 20) +
                              went_in("bluefaced-leicester", "#2f6f8f", 20) +
                              went_in("bluefaced-leicester", "#d8b24a", 20);
    const std::string two = went_in("corriedale", "#2040a0", 30) + went_in("corriedale", "#e07818", 10);
    using colour::Taken;
    told.push_back(forecast::photo_forecast(photo_made(black_white, "passes = 2\n"), Taken::edge));
    told.push_back(forecast::photo_forecast(photo_made(black_white, "passes = 3\n"), Taken::face));
    told.push_back(
        forecast::photo_forecast(photo_made(three, "passes = 2\nfeed = \"alternating\"\n"), Taken::face));
    told.push_back(forecast::photo_forecast(photo_made(two, "passes = 2\n"), Taken::edge));
    told.push_back(forecast::photo_forecast(photo_made(two, "passes = 4\n"), Taken::face));
    return told;
}

}  // namespace

TEST_CASE("simulated spinners: four in five of the 80 % ranges hold their own m and mixing") {
    const auto batts = several_batts();
    Draws draw;
    constexpr int spinners = 1500;
    for (const int photos : {1, 3, 8}) {
        int m_held = 0, mixing_held = 0;
        double m_sd = 0.0, mixing_sd = 0.0, m_bias = 0.0, mixing_bias = 0.0;
        for (int i = 0; i < spinners; ++i) {
            const colour::OpticsModel usual;
            const double log_m = usual.m_log_sd * draw();
            const double log_mixing = forecast::mixing_prior_log_sd * draw();
            std::vector<colour::CurvedSighting> of_m, of_mixing;
            for (int n = 0; n < photos; ++n) {
                const auto& batt = batts[static_cast<std::size_t>(i + n) % batts.size()];
                const auto lesson = forecast::photo_lesson(batt, photo_of(batt, log_m, log_mixing, draw));
                if (std::isfinite(lesson.log_m.sd)) of_m.push_back({lesson.log_m.at, lesson.log_m.sd});
                if (lesson.log_mixing) of_mixing.push_back(*lesson.log_mixing);
            }
            const auto m = colour::believed({std::log(usual.m), usual.m_log_sd}, of_m);
            const auto mixing = colour::believed({0.0, forecast::mixing_prior_log_sd}, of_mixing,
                                                 {m.mean - std::log(usual.m), std::sqrt(m.variance)});
            m_held += holds(m, std::log(usual.m) + log_m) ? 1 : 0;
            mixing_held += holds(mixing, log_mixing) ? 1 : 0;
            m_sd += std::sqrt(m.variance) / spinners;
            mixing_sd += std::sqrt(mixing.variance) / spinners;
            m_bias += (m.mean - std::log(usual.m) - log_m) / spinners;
            mixing_bias += (mixing.mean - log_mixing) / spinners;
        }
        const double m_share = static_cast<double>(m_held) / spinners;
        const double mixing_share = static_cast<double>(mixing_held) / spinners;
        MESSAGE(photos << " photos: m held " << m_share << ", sd " << m_sd << ", bias " << m_bias
                       << "; mixing held " << mixing_share << ", sd " << mixing_sd << ", bias "
                       << mixing_bias);
        CHECK(m_share > 0.75);
        CHECK(m_share < 0.85);
        CHECK(mixing_share > 0.75);
        CHECK(mixing_share < 0.85);
        CHECK(std::abs(m_bias) < 0.05);
        CHECK(std::abs(mixing_bias) < 0.05);
    }
}

TEST_CASE(
    "a photo as foretold teaches nothing new, a lighter one a smaller m, a streakier one worse mixing") {
    // Stearns and Noechel (1944): the smaller m, the lighter the blend of black and white.
    const auto told = forecast::photo_forecast(photo_made(black_white, "passes = 2\n"), colour::Taken::edge);
    colour::BattReading reading;
    reading.mean = told.mean;
    reading.patches = 60;
    reading.variation_de00 = std::hypot(*told.variation_de00, forecast::texture_de00);
    const auto same = forecast::photo_lesson(told, reading);
    CHECK(same.log_m.at == doctest::Approx(std::log(0.15)).epsilon(0.01).scale(0.0));
    REQUIRE(same.log_mixing.has_value());
    const auto mixing_of = [](const colour::CurvedSighting& one) {
        return colour::believed({0.0, forecast::mixing_prior_log_sd}, {&one, 1}).mean;
    };
    CHECK(std::abs(mixing_of(*same.log_mixing)) < 0.03);
    CHECK(same.log_m.misfit < 0.05);
    reading.mean.l += 3.0;
    reading.variation_de00 = 2.0 * *told.variation_de00;
    const auto other = forecast::photo_lesson(told, reading);
    CHECK(other.log_m.at < std::log(0.15) - 0.1);
    CHECK(mixing_of(*other.log_mixing) > 0.2);
}

TEST_CASE("one colour says nothing of m, a sample nothing of the drum") {
    const auto plain = forecast::photo_forecast(
        photo_made(went_in("corriedale", "#2f5d50", 40), "passes = 2\n"), colour::Taken::face);
    colour::BattReading reading;
    reading.mean = plain.mean;
    reading.patches = 60;
    reading.variation_de00 = 1.0;
    CHECK(std::isinf(forecast::photo_lesson(plain, reading).log_m.sd));
    const auto pinch =
        forecast::photo_forecast(photo_made(black_white, "passes = 2\n"), colour::Taken::sample);
    CHECK_FALSE(pinch.variation_de00.has_value());
    reading.mean = pinch.mean;
    const auto lesson = forecast::photo_lesson(pinch, reading);
    CHECK_FALSE(lesson.log_mixing.has_value());
    CHECK(lesson.log_m.sd < 1.0);
}

TEST_CASE("after the last pass the torn edge's photo is the drafting patches' own figure") {
    // The same patches by another way: strip_variation_de00 on the coarse grid.
    const auto f = photo_made(black_white, "passes = 2\n");
    const auto batt = forecast::batt_of(f, {.coarse = true});
    const auto told = forecast::photo_forecast(f, colour::Taken::edge);
    CHECK(*told.variation_de00 == doctest::Approx(batt.measures.back().strip_variation_de00).epsilon(1e-6));
}

TEST_CASE("not knowing m is part of the doubt, and less of it once photos have taught") {
    const auto before = photo_made(black_white, "passes = 3\n");
    forecast::Bench taught;
    taught.optics.m_log_sd = 0.1;
    const auto after = photo_made(black_white, "passes = 3\n", taught);
    const auto first = forecast::colour_doubt(before), then = forecast::colour_doubt(after);
    CHECK(first.m_de00 > 1.0);
    CHECK(then.m_de00 < 0.5 * first.m_de00);
    CHECK(then.blend_de00 < first.blend_de00);
    // Errors that do not know of each other: root of the sum of squares.
    CHECK(std::pow(first.blend_de00, 2.0) - std::pow(then.blend_de00, 2.0) ==
          doctest::Approx(std::pow(first.m_de00, 2.0) - std::pow(then.m_de00, 2.0)).epsilon(1e-6));
}

}  // namespace batt_photo_test
