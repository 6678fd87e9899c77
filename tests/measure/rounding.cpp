// round_to_step: the largest-remainder method and what it promises.
#include <cmath>
#include <numeric>

#include "measure/units.hpp"
#include "seed.hpp"

namespace measure = battwright::measure;
using battwright::testing::uniform;
using battwright::testing::whole;

TEST_CASE("worked by hand") {
    // Thirds of 100 to the gram: 33 + 33 + 33 leaves one, which goes to the earliest of equal remainders.
    const std::vector<double> thirds{100.0 / 3.0, 100.0 / 3.0, 100.0 / 3.0};
    CHECK(measure::round_to_step(thirds, 1.0) == std::vector<double>{34.0, 33.0, 33.0});
    // Remainders .4, .9, .7 with two steps to give: the second and the third get them.
    CHECK(measure::round_to_step(std::vector<double>{1.4, 1.9, 1.7}, 1.0) ==
          std::vector<double>{1.0, 2.0, 2.0});
    CHECK(measure::round_to_step(std::vector<double>{0.34, 0.33, 0.33}, 0.1) ==
          std::vector<double>{0.4, 0.3, 0.3});
    // 2.4 and 1.4 steps, four to give out: the tie goes to the earlier.
    CHECK(measure::round_to_step(std::vector<double>{12.0, 7.0}, 5.0) == std::vector<double>{15.0, 5.0});
    CHECK(measure::round_to_step(std::vector<double>{}, 1.0).empty());
    CHECK(measure::round_to_step(std::vector<double>{0.0, 0.6, 0.0}, 1.0) ==
          std::vector<double>{0.0, 1.0, 0.0});
}

TEST_CASE("what is already on the step stays") {
    const std::vector<double> on_step{0.1, 0.2, 0.3, 0.7, 2.9};
    CHECK(measure::round_to_step(on_step, 0.1) == on_step);
}

TEST_CASE("the sum holds, each within one step, on the step, zero stays zero") {
    auto random = battwright::testing::seeded();
    const std::vector<double> scales{0.01, 0.1, 0.5, 1.0, 2.0, 5.0, 0.3, measure::grams_per_ounce / 8.0};
    for (int round = 0; round < 5000; ++round) {
        const double step =
            scales[static_cast<std::size_t>(whole(random, 0, static_cast<int>(scales.size()) - 1))];
        std::vector<double> values(static_cast<std::size_t>(whole(random, 1, 40)));
        for (double& value : values) value = whole(random, 0, 5) == 0 ? 0.0 : uniform(random, 0.0, 200.0);
        const std::vector<double> rounded = measure::round_to_step(values, step);
        REQUIRE(rounded.size() == values.size());
        for (std::size_t i = 0; i < values.size(); ++i) {
            REQUIRE(std::abs(rounded[i] - values[i]) < step * (1.0 + 1e-9));
            REQUIRE(std::abs(rounded[i] / step - std::round(rounded[i] / step)) < 1e-6);
            if (values[i] == 0.0) REQUIRE(rounded[i] == 0.0);
        }
        const double total = std::accumulate(values.begin(), values.end(), 0.0);
        const double sum = std::accumulate(rounded.begin(), rounded.end(), 0.0);
        REQUIRE(std::abs(sum - total) <= step * (0.5 + 1e-6));
        REQUIRE(std::abs(sum / step - std::round(sum / step)) < 1e-6);
    }
}

TEST_CASE("percentages sum to 100 after rounding") {
    auto random = battwright::testing::seeded();
    for (int round = 0; round < 2000; ++round) {
        std::vector<double> shares(static_cast<std::size_t>(whole(random, 1, 12)));
        for (double& share : shares) share = uniform(random, 0.01, 1.0);
        const double total = std::accumulate(shares.begin(), shares.end(), 0.0);
        for (double& share : shares) share *= 100.0 / total;
        const std::vector<double> rounded = measure::round_to_step(shares, 0.1);
        REQUIRE(std::accumulate(rounded.begin(), rounded.end(), 0.0) ==
                doctest::Approx(100.0).epsilon(1e-12));
    }
}
