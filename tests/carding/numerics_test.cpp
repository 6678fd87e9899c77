// Sums and draws of the simulation beside closed forms and values worked by hand.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "carding/lay.hpp"
#include "carding/photo.hpp"
#include "carding/refold.hpp"
#include "carding/seen.hpp"
#include "colour/spaces.hpp"
#include "making.hpp"

using namespace battwright;
using namespace battwright::carding;
using doctest::Approx;

namespace {

colour::Spectrum coloured(const colour::Lab& lab) {
    return colour::reflectance_of(colour::clipped(colour::srgb_from(lab)));
}

}  // namespace

TEST_CASE("the scale of segregation of a ramp, in closed form") {
    // Of x in [-1/2, 1/2] the mean product at the lag k, over the pairs there are, is (1 - k)^2 / 12 - k^2
    // / 4. It is nought where 1 - k = sqrt(3) k; the integral of 1 - 2 k - 2 k^2 up to there is k - k^2 - 2
    // k^3 / 3.
    constexpr std::size_t cells = 600;
    Field ramp = empty_field({1, cells, 4}, 2, 560.0, 200.0);
    for (std::size_t i = 0; i < ramp.block_size(); ++i) {
        const double x = (static_cast<double>(i % cells) + 0.5) / cells;
        ramp.block(0)[i] = x;
        ramp.block(1)[i] = 1.0 - x;
    }
    const double k = 1.0 / (1.0 + std::numbers::sqrt3);
    CHECK(scale(ramp).across_mm ==
          Approx(200.0 * (k - k * k - 2.0 * k * k * k / 3.0)).epsilon(1e-3).scale(0.0));
}

TEST_CASE("what a remapping spreads by itself is what is taken off the card's spread") {
    // Waves across the batt, as cell averages; a spread of variance s brings a wave of q radians a cell down
    // by exp(-q^2 s / 2). The averages of waves that are not brought down: sin(q / 2) / (q / 2) of their
    // height.
    constexpr Grid grid{1, 200, 8};
    const double n = static_cast<double>(grid.across);
    const auto averages = [n](double waves, std::size_t cell) {
        const double turn = 2.0 * std::numbers::pi * waves, y = static_cast<double>(cell);
        return (std::sin(turn * (y + 1.0) / n) - std::sin(turn * y / n)) / (turn / n);
    };
    for (const int strips : {1, 2, 4}) {
        const double waves = 2.0;  // in each strip, and so across the new batt
        const Field to = empty_field(grid, 1, 560.0, 200.0);
        const Refeed refeed = strips == 1 ? Refeed::own_places : Refeed::strips;
        const Refold refold = refold_of(fed_pieces(refeed, strips, 560.0, 80.0), {}, grid, to, 1, 2);
        std::vector<double> old(grid.across * grid.depth), next(old.size(), 0.0), scratch;
        for (std::size_t i = 0; i < old.size(); ++i) old[i] = averages(waves * strips, i % grid.across);
        fold_pieces(old, grid, next, grid, refold, scratch);
        double found = 0.0, kept = 0.0;
        for (std::size_t i = 0; i < next.size(); ++i) {
            found += next[i] * averages(waves, i % grid.across);
            kept += std::pow(averages(waves, i % grid.across), 2.0);
        }
        const double q = 2.0 * std::numbers::pi * waves / n;
        CHECK(refold.already.across ==
              Approx(-2.0 * std::log(found / kept) / (q * q)).epsilon(0.03).scale(0.0));
    }
}

TEST_CASE("a place drawn where tufts are whole is of one colour, each as often as its share") {
    const int draws = 4000;
    int first = 0, whole = 0;
    for (int n = 0; n < draws; ++n) {
        std::vector<double> shares{0.25, 0.75};
        draw_place(shares, 1.0, 7, static_cast<std::uint64_t>(n));
        whole += std::max(shares[0], shares[1]) > 1.0 - 1e-9 ? 1 : 0;
        first += shares[0] > 0.5 ? 1 : 0;
    }
    CHECK(whole == draws);
    // Binomial: 1000 with a standard deviation of 27.
    CHECK(first > 1000 - 110);
    CHECK(first < 1000 + 110);
}

TEST_CASE("a place drawn at random follows the beta law") {
    // Shares 1/4 and 3/4 at an intensity of 1/5 are gamma variates of shape 1 and 3: beta(1, 3), whose
    // distribution is 1 - (1 - x)^3. Kolmogorov: 1.63 / sqrt(n) is exceeded once in a hundred.
    constexpr std::size_t draws = 60000;
    std::vector<double> drawn(draws);
    for (std::size_t n = 0; n < draws; ++n) {
        std::vector<double> shares{0.25, 0.75};
        draw_place(shares, 0.2, 11, n);
        drawn[n] = shares[0];
    }
    std::sort(drawn.begin(), drawn.end());
    double worst = 0.0;
    for (std::size_t n = 0; n < draws; ++n) {
        const double law = 1.0 - std::pow(1.0 - drawn[n], 3.0);
        worst = std::max({worst, std::abs(law - static_cast<double>(n) / draws),
                          std::abs(law - static_cast<double>(n + 1) / draws)});
    }
    CHECK(worst < 1.63 / std::sqrt(double{draws}));
}

TEST_CASE("how far a colour that strays lies away: the folded normal distribution") {
    // A normal spread of 1 about a point 1 away: 0.79788 exp(-1/2) + 0.68269 = 1.16663 (Leone, Nelson &
    // Nottingham 1961; the two figures from a table of the normal distribution).
    const BattObserver observer;
    std::vector<Seen> pair;
    for (const double l : {49.0, 51.0}) {
        const colour::Lab lab{l, 0.0, 0.0};
        pair.push_back({colour::xyz_from(lab, colour::white(observer.light)), lab, 1.0});
    }
    CHECK(variation_of(pair, observer) == Approx(1.16663).epsilon(0.005).scale(0.0));
    for (Seen& one : pair) one.stray = 0.0;
    CHECK(variation_of(pair, observer) == Approx(1.0).epsilon(0.005).scale(0.0));
}

TEST_CASE("a photo of a perfectly mixed batt strays by what chance leaves in a patch") {
    // Greys of L* 45 and 55, half and half. A patch of 12 mm by 560 mm, a sixth of 60 g deep, weighs 600 mg:
    // 1070 tex. Fibres of 21 um are 0.454 tex, 2360 in its section; the share strays by 0.5 / sqrt(2360), L*
    // by ten times that, and the mean distance is sqrt(2 / pi) of it: 0.082. CIEDE2000 at L* 50 counts L*
    // once.
    Pass even{1, empty_field({1, 80, 48}, 2, 560.0, 200.0), {}};
    std::fill(even.field.shares.begin(), even.field.shares.end(), 0.5);
    BattObserver observer;
    observer.batt_grams = 60.0;
    observer.reflectances = {coloured({45.0, 0.0, 0.0}), coloured({55.0, 0.0, 0.0})};
    CHECK(photographed(even, observer, Side::edge).variation_de00 == Approx(0.082).epsilon(0.06).scale(0.0));
}

TEST_CASE("over a line shorter than the spread reaches, all comes out even and nothing is lost") {
    Field line = empty_field({1, 3, 1}, 1, 560.0, 200.0);
    std::vector<double> block{3.0, 0.0, 0.0}, scratch;
    spread_block(block, line, {400.0, 0.0, 0.0}, {}, scratch);
    for (const double value : block) CHECK(value == Approx(1.0).epsilon(1e-3));
}

TEST_CASE("a piece turned sideways is opened nearly half as much again") {
    // Common practice, no source: sideways the fibres are drawn out one by one, so that two passes do what
    // otherwise takes about three. In a batt without places all that is unmixed lies in its tufts.
    const auto left = [](Refeed refeed) {
        Setup setup = testing::setup_of(2, Manner::layers);
        setup.grid = {1, 1, 1};
        setup.passes = 2;
        setup.staple_mm = 80.0;
        setup.feed.refeed = refeed;
        const auto passes = simulate(setup, 1);
        REQUIRE(passes.size() == 2);
        return std::log(passes[1].field.unresolved[0] / passes[0].field.unresolved[0]);
    };
    CHECK(left(Refeed::sideways) / left(Refeed::strips) == Approx(1.4).epsilon(0.08).scale(0.0));
}

TEST_CASE("what comes on a later pass lies a quarter less evenly than on the first") {
    // Common practice, no source: it comes in fewer handfuls. Two fifths of the batt, over the
    // whole width.
    const Field shape = empty_field({1, 80, 24}, 2, 560.0, 200.0);
    const auto cv_of = [](std::span<const double> thick) {
        double mean = 0.0, squares = 0.0;
        for (const double t : thick) mean += t / static_cast<double>(thick.size());
        for (const double t : thick) squares += (t - mean) * (t - mean) / static_cast<double>(thick.size());
        return squares / mean / mean;
    };
    double first = 0.0, late = 0.0;
    for (std::uint64_t seed = 1; seed <= 400; ++seed) {
        const std::vector<Lay> both{{0, 36.0}, {1, 24.0}};
        const auto thick = thicknesses(both, shape, seed);
        first += cv_of(std::span(thick).last(shape.plane_size()));
        FreshLay fresh{{1, 24.0}, {{0.0, 1.0}}, 0.4, 1};
        fresh.lay.pass = 2;
        const Refold refold =
            refold_of(fed_pieces(Refeed::strips, 4, 560.0, 80.0), {fresh}, shape.grid, shape, seed, 2);
        late += cv_of(refold.fresh.thickness);
    }
    CHECK(std::sqrt(late / first) == Approx(1.25).epsilon(0.06).scale(0.0));
}

TEST_CASE("laid when half of a stack is in, it lies in the middle of the batt") {
    Setup setup = testing::setup_of(2, Manner::layers);
    setup.portions[1].grams = 3.0;
    setup.portions[1].pass = 2;
    setup.passes = 2;
    setup.feed.refeed = Refeed::halves;
    setup.spread = {};
    const auto passes = simulate(setup, 1);
    const Field& field = passes.back().field;
    double mass = 0.0, depth = 0.0;
    for (std::size_t i = 0; i < field.block_size(); ++i) {
        const double z =
            (static_cast<double>(i / field.plane_size()) + 0.5) / static_cast<double>(field.grid.depth);
        mass += field.block(1)[i];
        depth += field.block(1)[i] * z;
    }
    CHECK(depth / mass == Approx(0.5).epsilon(0.04).scale(0.0));
}

TEST_CASE("pieces laid sideways are a staple wide, and no more of them than a batt may be torn into") {
    CHECK(fed_pieces(Refeed::sideways, 4, 560.0, 80.0).size() == 7);
    CHECK(fed_pieces(Refeed::sideways, 4, 560.0, 5.0).size() == recipe::most_strips);
}
