// The mixing model against the literature's closed forms.
#include <doctest/doctest.h>

#include <cmath>
#include <numeric>

#include "../measure/seed.hpp"
#include "making.hpp"

using namespace battwright;
using namespace battwright::carding;
using battwright::testing::two_layers;

namespace {

double variance_of(const std::vector<int>& counts) {
    const double n = static_cast<double>(counts.size());
    const double mean = std::accumulate(counts.begin(), counts.end(), 0.0) / n;
    double sum = 0.0;
    for (const int count : counts) sum += (count - mean) * (count - mean);
    return sum / n;
}

// How many layers one meets going out from the drum.
std::size_t striations(const Field& field) {
    std::size_t count = 1;
    for (std::size_t z = 1; z < field.grid.depth; ++z)
        count += (field.at(0, 0, 0, z) > 0.5) != (field.at(0, 0, 0, z - 1) > 0.5) ? 1 : 0;
    return count;
}

}  // namespace

TEST_CASE("a random mixture: var = pq/n, and IBI 1") {
    // Danckwerts (1952): samples of n fibres from a random mixture have var = p q / n. Coplan & Klein (1955):
    // a random blend has IBI 1. Sampling error of a variance from M normal samples: sqrt(2 / M) of it.
    constexpr std::size_t sections = 20000;
    const double tolerance = 5.0 * std::sqrt(2.0 / sections);
    for (const double p : {0.1, 0.35, 0.5}) {
        Field field = empty_field({2, 4, 4}, 2, 560.0, 200.0);
        std::fill(field.block(0).begin(), field.block(0).end(), p);
        std::fill(field.block(1).begin(), field.block(1).end(), 1.0 - p);
        CHECK(intensity(field) == doctest::Approx(0.0));
        for (const int fibres : {30, 120}) {
            const auto counts = drawn_sections(field, 0, fibres, sections, 11);
            const double var = variance_of(counts) / (fibres * fibres);
            CHECK(var * fibres / (p * (1.0 - p)) == doctest::Approx(1.0).epsilon(tolerance));
            CHECK(std::pow(blend_irregularity(counts, fibres, p), 2) ==
                  doctest::Approx(1.0).epsilon(tolerance));
        }
    }
}

TEST_CASE("unmixed layers: I = 1, and IBI sqrt(T) where a section holds one component only") {
    // Danckwerts (1952); Coplan & Klein (1955).
    const Pass batt = two_layers({2, 4, 8});
    CHECK(intensity(batt.field) == doctest::Approx(1.0));
    for (const int fibres : {25, 100}) {
        CHECK(expected_irregularity(1.0, fibres) == doctest::Approx(std::sqrt(fibres)));
        const auto counts = drawn_sections(batt.field, 0, fibres, 5000, 12);
        // At p = 1/2 every section is exactly T/2 off, whichever component it holds.
        CHECK(blend_irregularity(counts, fibres, 0.5) == doctest::Approx(std::sqrt(fibres)));
    }
}

TEST_CASE("half-mixed batts: counted sections agree with the expected IBI") {
    const Setup setup = testing::setup_of(3, Manner::layers);
    for (const Pass& pass : simulate(setup)) {
        const double p = mean_share(pass.field, 1);
        const auto counts = drawn_sections(pass.field, 1, 100, 40000, 13);
        CHECK(blend_irregularity(counts, 100, p) ==
              doctest::Approx(expected_irregularity(intensity(pass.field, 1), 100.0)).epsilon(0.03));
    }
}

TEST_CASE("scale of segregation: closed form for a sine") {
    // R(r) = cos(2 pi r / L) integrated up to its first zero at L / 4: L / (2 pi). Three waves round the
    // drum.
    Field field = empty_field({96, 4, 4}, 2, 600.0, 200.0);
    for (std::size_t i = 0; i < field.block_size(); ++i) {
        const double wave = std::sin(2.0 * M_PI * 3.0 * (static_cast<double>(i % 96) + 0.5) / 96.0);
        field.block(0)[i] = 0.5 + 0.3 * wave;
        field.block(1)[i] = 0.5 - 0.3 * wave;
    }
    CHECK(scale(field).round_mm == doctest::Approx(200.0 / (2.0 * M_PI)).epsilon(0.01));
    CHECK(intensity(field) == doctest::Approx(0.5 * 0.09 / 0.25));  // mean square of a sine is a half
}

TEST_CASE("without diffusion k strips multiply the striations by k a pass and keep every gram") {
    // The baker's transformation. Two layers whose ends meet alike: 2, 2k, 2k^2, 2k^3.
    for (const Refeed refeed : {Refeed::strips, Refeed::halves}) {
        for (const std::size_t k : {2u, 3u, 4u, 5u}) {
            if (refeed == Refeed::halves && k != 2) continue;
            Setup setup;
            setup.portions.resize(2);
            setup.strips = static_cast<int>(k);
            setup.feed.refeed = refeed;
            Pass batt = two_layers({4, 7, 2 * k * k * k});
            for (std::size_t expected = 2 * k; expected <= 2 * k * k * k; expected *= k) {
                batt = carded_again(batt, setup, 1);
                CHECK(striations(batt.field) == expected);
                CHECK(intensity(batt.field) == doctest::Approx(1.0));
                CHECK(std::abs(mean_share(batt.field, 0) - 0.5) < 1e-9);
            }
        }
    }
}

TEST_CASE("torn and folded lengths turn about: layers stay as many times k") {
    Setup setup;
    setup.portions.resize(2);
    setup.strips = 3;
    setup.feed.refeed = Refeed::tear_and_fold;
    Pass batt = carded_again(two_layers({6, 3, 18}), setup, 1);
    CHECK(striations(batt.field) == 6);
}

TEST_CASE("D independent doublings bring the CV down by sqrt(D)") {
    // Klein, The Rieter Manual of Spinning, vol. 1. A batt whose shares are independent from one 16th of a
    // strip to the next; D strips laid on each other are D doublings.
    constexpr std::size_t block = 16, blocks = 4096;
    auto random = testing::seeded();
    Pass batt{1, empty_field({1, block * blocks, 1}, 2, 560.0, 200.0), {}};
    for (std::size_t b = 0; b < blocks; ++b) {
        const double share = testing::uniform(random, 0.2, 0.8);
        for (std::size_t i = 0; i < block; ++i) {
            batt.field.block(0)[b * block + i] = share;
            batt.field.block(1)[b * block + i] = 1.0 - share;
        }
    }
    const auto cv = [](const Field& field) {
        return std::sqrt(intensity(field, 0) * (1.0 - mean_share(field, 0)) / mean_share(field, 0));
    };
    for (const int doublings : {2, 4, 8}) {
        Setup setup;
        setup.portions.resize(2);
        setup.strips = doublings;
        const Pass next = carded_again(batt, setup, 1);
        const double ideal = cv_after_doubling(cv(batt.field), doublings);
        // 4096 / D samples: sampling error of a CV is 1 / sqrt(2 n); the joins of the blocks take 4 %.
        const double error = 5.0 / std::sqrt(2.0 * blocks / doublings) + 0.04;
        CHECK(cv(next.field) == doctest::Approx(ideal).epsilon(error));
    }
}

TEST_CASE("with diffusion the intensity falls with every pass") {
    auto random = testing::seeded();
    for (int round = 0; round < 20; ++round) {
        Setup setup = testing::setup_of(static_cast<std::size_t>(testing::whole(random, 2, 6)),
                                        static_cast<Manner>(testing::whole(random, 0, 5)));
        setup.feed.refeed = static_cast<Refeed>(testing::whole(random, 0, 2));
        setup.strips = testing::whole(random, 1, 9);
        setup.passes = 6;
        setup.grid = coarse_grid;
        setup.seed = static_cast<std::uint64_t>(round);
        double before = 1.0;
        for (const Pass& pass : simulate(setup)) {
            const double now = intensity(pass.field);
            CHECK(now < before);
            before = now;
        }
    }
}

TEST_CASE("spread without folding: the variance of a sine falls as the Gaussian says") {
    // A Gaussian of standard deviation s takes a wave of length L to exp(-2 pi^2 s^2 / L^2) of its height.
    Field field = empty_field({1, 96, 1}, 1, 560.0, 200.0);
    for (std::size_t y = 0; y < 96; ++y)
        field.shares[y] = 0.5 + 0.4 * std::cos(2.0 * M_PI * 3.0 * (static_cast<double>(y) + 0.5) / 96.0);
    const double before = intensity(field);
    std::vector<double> scratch;
    spread_block(field.block(0), field, {10.0, 0.0, 0.0}, 0.0, scratch);
    const double wavelength = 200.0 / 3.0;
    const double kept = std::exp(-2.0 * M_PI * M_PI * 100.0 / (wavelength * wavelength));
    CHECK(std::sqrt(intensity(field) / before) == doctest::Approx(kept).epsilon(0.005));
}
