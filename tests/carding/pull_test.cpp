// The order in which colours reach the wheel.
#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "carding/pull.hpp"
#include "making.hpp"

using namespace battwright;
using namespace battwright::carding;

namespace {

std::vector<double> ranks(const std::vector<double>& values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), 0u);
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return values[a] < values[b]; });
    std::vector<double> rank(values.size());
    for (std::size_t i = 0; i < order.size(); ++i) rank[order[i]] = static_cast<double>(i);
    return rank;
}

// Spearman's rank correlation of the values with their place in the sequence (no ties).
double order_kept(const std::vector<double>& values) {
    const auto rank = ranks(values);
    const double n = static_cast<double>(values.size());
    double sum = 0.0;
    for (std::size_t i = 0; i < rank.size(); ++i) {
        const double d = rank[i] - static_cast<double>(i);
        sum += d * d;
    }
    return 1.0 - 6.0 * sum / (n * (n * n - 1.0));
}

// Where in the gradient (0 the first colour .. the last) the fibres of each section of a yarn of 100 come
// from.
std::vector<double> places(const Sequence& sequence) {
    std::mt19937_64 random(5);
    std::vector<double> places;
    for (std::size_t i = 0; i < sequence.steps(); ++i) {
        const auto shares = sequence.at(i);
        std::discrete_distribution<int> pick(shares.begin(), shares.end());
        double sum = 0.0;
        for (int f = 0; f < 100; ++f) sum += pick(random);
        places.push_back(sum / 100.0 + 1e-9 * static_cast<double>(random() % 1000));
    }
    return places;
}

}  // namespace

TEST_CASE("a gradient torn lengthwise keeps its order; the same batt folded twice does not") {
    Setup setup = testing::setup_of(6, Manner::gradient_across);
    const auto passes = simulate(setup);
    CHECK(order_kept(places(sequence_of(passes[0].field, Pull::torn_lengthwise, 12, 5.0))) > 0.95);
    CHECK(order_kept(places(sequence_of(passes[2].field, Pull::torn_lengthwise, 12, 5.0))) < 0.8);
    CHECK(order_kept(places(sequence_of(passes[0].field, Pull::long_strip, 12, 5.0))) > 0.95);
    CHECK(std::abs(order_kept(places(sequence_of(passes[0].field, Pull::torn_across, 12, 5.0)))) < 0.5);
}

TEST_CASE("torn either way, the whole batt comes to the wheel once") {
    Setup setup = testing::setup_of(4, Manner::dabs);
    setup.passes = 1;
    const Field field = simulate(setup).front().field;
    for (const Pull pull : {Pull::torn_lengthwise, Pull::torn_across}) {
        const Sequence sequence = sequence_of(field, pull, 7, 9.0);
        CHECK(sequence.step_mm <= 9.0);
        for (std::size_t p = 0; p < 4; ++p) {
            double sum = 0.0;
            for (std::size_t i = 0; i < sequence.steps(); ++i) sum += sequence.at(i)[p];
            CHECK(sum / static_cast<double>(sequence.steps()) ==
                  doctest::Approx(mean_share(field, p)).epsilon(1e-9));
        }
    }
    const Sequence strip = sequence_of(field, Pull::long_strip, 7, 5.0);
    for (std::size_t i = 0; i < strip.steps(); ++i) {
        const auto at = strip.at(i);
        CHECK(std::accumulate(at.begin(), at.end(), 0.0) == doctest::Approx(1.0));
    }
}
