// Weighing out.
#include <doctest/doctest.h>

#include <cmath>
#include <numeric>

#include "../measure/seed.hpp"
#include "carding/load.hpp"

using namespace battwright;
using namespace battwright::carding;

namespace {
const Tool drum{"drum", "drum", ToolKind::drum, 40.0, 80.0};
}

TEST_CASE("worked by hand") {
    const std::vector<double> two{100.0, 50.0};
    const auto out = weigh_out(two, drum, {0.1, 1.0});
    REQUIRE(out.has_value());
    CHECK(out->batts == 2);
    CHECK(out->at(0, 0) == 50.0);
    CHECK(out->at(1, 1) == 25.0);
    CHECK(out->words.size() == 1);
    // 85 g is within a tenth over 80: one over-full batt, unless that is not wanted.
    const std::vector<double> over{60.0, 25.0};
    CHECK(weigh_out(over, drum)->batts == 1);
    CHECK(weigh_out(over, drum)->over_full);
    const auto equal = weigh_out(over, drum, {0.1, 0.1, Splitting::equal_only});
    CHECK(equal->batts == 2);
    CHECK_FALSE(equal->over_full);
    // Full ones first: 80, 80 and a small last of 10, which is said.
    const std::vector<double> some{170.0};
    const auto full = weigh_out(some, drum, {0.1, 0.1, Splitting::full_first});
    REQUIRE(full->batts == 3);
    CHECK(full->batt_grams[0] == doctest::Approx(80.0));
    CHECK(full->batt_grams[2] == doctest::Approx(10.0));
    CHECK(full->last_small);
    CHECK_FALSE(full->words.empty());
    CHECK(weigh_out(some, drum)->batts == 2);  // 85 each, a little over
}

TEST_CASE("nonsense is complained of, not weighed") {
    CHECK_FALSE(weigh_out(std::vector<double>{}, drum).has_value());
    CHECK_FALSE(weigh_out(std::vector<double>{0.0}, drum).has_value());
    CHECK_FALSE(weigh_out(std::vector<double>{-1.0, 5.0}, drum).has_value());
    CHECK_FALSE(weigh_out(std::vector<double>{NAN}, drum).has_value());
    CHECK_FALSE(weigh_out(std::vector<double>{1e9}, drum).has_value());
    CHECK_FALSE(weigh_out(std::vector<double>{50.0}, drum, {0.1, 0.0}).has_value());
    CHECK(weigh_out(std::vector<double>{50.0}, hand_tools().front()).has_value());
}

TEST_CASE("sums hold, weights lie on the step, equal batts are equal") {
    auto random = testing::seeded();
    for (int round = 0; round < 2000; ++round) {
        std::vector<double> grams(static_cast<std::size_t>(testing::whole(random, 1, 20)));
        for (double& weight : grams) weight = testing::uniform(random, 0.0, 90.0) + 0.01;
        const double step =
            std::vector<double>{0.01, 0.1, 0.5, 1.0}[static_cast<std::size_t>(testing::whole(random, 0, 3))];
        Allowance allowance{testing::uniform(random, 0.0, 0.3), step,
                            static_cast<Splitting>(testing::whole(random, 0, 2))};
        const auto out = weigh_out(grams, drum, allowance);
        REQUIRE(out.has_value());
        const double total = std::accumulate(grams.begin(), grams.end(), 0.0);
        double weighed = 0.0;
        for (std::size_t c = 0; c < grams.size(); ++c) {
            double sum = 0.0, least = 1e9, most = 0.0;
            for (std::size_t b = 0; b < out->batts; ++b) {
                const double w = out->at(b, c);
                REQUIRE(w >= 0.0);
                REQUIRE(std::abs(w / step - std::round(w / step)) < 1e-6);
                sum += w;
                least = std::min(least, w);
                most = std::max(most, w);
            }
            REQUIRE(std::abs(sum - out->component_grams[c]) < 1e-6);
            REQUIRE(std::abs(sum - grams[c]) < step * (1.0 + 1e-6));
            weighed += sum;
            if (allowance.splitting != Splitting::full_first) REQUIRE(most - least < step * (1.0 + 1e-6));
        }
        REQUIRE(std::abs(weighed - total) <= step * (0.5 + 1e-6));
        const auto [low, high] = std::minmax_element(out->batt_grams.begin(), out->batt_grams.end());
        if (allowance.splitting != Splitting::full_first) REQUIRE(*high - *low < step * (1.0 + 1e-6));
        const double most =
            80.0 * (allowance.splitting == Splitting::automatic ? 1.0 + allowance.over_full_share : 1.0);
        REQUIRE(total / static_cast<double>(out->batts) <= most * (1.0 + 1e-9));
    }
}

TEST_CASE("unless a scale is named it shows tenths of a gram") {
    // Common practice, no source: kitchen and jewellers' scales of spinners show 0.1 g.
    const auto out = weigh_out(std::vector<double>{33.33, 20.08}, drum);
    REQUIRE(out.has_value());
    CHECK(out->component_grams[0] == doctest::Approx(33.3));
    CHECK(out->component_grams[1] == doctest::Approx(20.1));
}
