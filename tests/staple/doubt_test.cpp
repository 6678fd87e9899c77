// What is not known of a kind widens what is foretold of it. Propagation of errors, each held against the law
// itself at both ends; how far a guess may be off: common practice, no source.
#include <doctest/doctest.h>

#include <cmath>
#include <memory>
#include <numbers>
#include <string>

#include "fibre/lengths.hpp"
#include "staple/distribution.hpp"

using namespace battwright;
using doctest::Approx;

namespace {

fibre::Kind doubted_kind(const std::string& id, const std::string& source) {
    fibre::Kind kind;
    kind.id = id;
    kind.family = fibre::Family::wool;
    kind.staple_mm = 100.0;
    kind.staple_cv = 0.5;
    kind.diameter_um = 28.0;
    kind.diameter_cv = 0.25;
    kind.density_g_cm3 = 1.31;
    for (const char* figure : {"staple", "staple_cv", "diameter", "diameter_cv"})
        kind.sources[figure] = source;
    return kind;
}

recipe::Strand of_kind(const fibre::Kind& kind, double grams = 50.0) {
    recipe::Strand strand;
    strand.kind = std::make_shared<fibre::Kind>(kind);
    strand.grams = grams;
    strand.staple_mm = kind.staple_mm;
    strand.staple_cv = kind.staple_cv;
    strand.fibre_mm = fibre::mean_fibre_mm(kind, kind.staple_mm, kind.diameter_um);
    strand.diameter_um = kind.diameter_um;
    strand.diameter_cv = kind.diameter_cv;
    strand.tex = fibre::fibre_tex(kind.diameter_um, kind.diameter_cv, kind.density_g_cm3);
    return strand;
}

double length_doubt(const std::vector<recipe::Strand>& strands) {
    return staple::summarise_lengths(strands).mean_doubt_mm;
}

// The share of a log-normal law of this mean and CV over 30 um, by its own definition.
double over_30(double mean, double cv) {
    const double sigma = std::sqrt(std::log(1.0 + cv * cv));
    return 0.5 * std::erfc((std::log(30.0 / mean) + 0.5 * sigma * sigma) / sigma / std::numbers::sqrt2);
}

}  // namespace

TEST_CASE("a kind with a source for every figure is in no doubt") {
    const auto strand = of_kind(doubted_kind("known", "a handbook"));
    CHECK(length_doubt({strand}) == 0.0);
    CHECK(staple::summarise_diameters(std::vector{strand}).mean_doubt_um == 0.0);
    CHECK(staple::summarise_diameters(std::vector{strand}).over_30um_doubt_pct == 0.0);
}

TEST_CASE("a guessed length, and a guessed spread of it") {
    // A pulled tuft of 100 mm at CV 50 % means 80 mm; at 40 and 60 %, 86.2 and 73.5. A staple a quarter off:
    // 20 mm.
    auto by_spread = doubted_kind("spread", "a handbook");
    by_spread.sources["staple_cv"] = "memory";
    const double spread_mm = 0.5 * (100.0 / 1.16 - 100.0 / 1.36);
    CHECK(length_doubt({of_kind(by_spread)}) == Approx(spread_mm).epsilon(0.02).scale(0.0));
    auto by_staple = doubted_kind("staple", "a handbook");
    by_staple.sources["staple"] = "memory";
    CHECK(length_doubt({of_kind(by_staple)}) == Approx(20.0));
    const auto guessed = of_kind(doubted_kind("both", "memory"));
    CHECK(length_doubt({guessed}) == Approx(std::hypot(20.0, spread_mm)).epsilon(0.01).scale(0.0));
    // A tag has measured the lock, and not how its fibres differ.
    auto tagged = guessed;
    tagged.staple_mm = 90.0;
    CHECK(length_doubt({tagged}) == Approx(spread_mm).epsilon(0.02).scale(0.0));
    // What says of its spread that it is a guess is one, and of cut fibre the staple is the mean whatever it
    // is.
    by_spread.sources["staple_cv"] = "a guess, held under what a standard allows";
    CHECK(length_doubt({of_kind(by_spread)}) == Approx(spread_mm).epsilon(0.02).scale(0.0));
    by_spread.staple_as = fibre::StapleAs::mean;
    CHECK(length_doubt({of_kind(by_spread)}) == 0.0);
    // What is published: half of the range.
    by_staple.published["staple"] = {90.0, 120.0};
    CHECK(length_doubt({of_kind(by_staple)}) == Approx(0.5 * 30.0 * 0.8));
}

TEST_CASE("kinds are in doubt each by itself, strands of one kind together") {
    const auto one = of_kind(doubted_kind("one", "memory"), 25.0),
               other = of_kind(doubted_kind("other", "memory"), 25.0);
    const double whole = length_doubt({one});
    CHECK(length_doubt({one, one}) == Approx(whole));
    CHECK(length_doubt({one, other}) == Approx(whole / std::sqrt(2.0)));
}

TEST_CASE("a guessed diameter, and a guessed spread of it, reach the prickle share") {
    const auto doubt = [](const fibre::Kind& kind) {
        return staple::summarise_diameters(std::vector{of_kind(kind)}).over_30um_doubt_pct;
    };
    auto by_mean = doubted_kind("mean", "a handbook"), by_spread = by_mean;
    by_mean.sources["diameter"] = "memory";
    by_spread.sources["diameter_cv"] = "memory";
    // An eighth of the mean, about a seventh of the CV, to either side.
    const double mean_points = 50.0 * (over_30(28.0 * 1.125, 0.25) - over_30(28.0 * 0.875, 0.25));
    const double spread_points =
        50.0 * std::abs(over_30(28.0, 0.25 * 8.0 / 7.0) - over_30(28.0, 0.25 * 6.0 / 7.0));
    CHECK(doubt(by_mean) == Approx(mean_points).epsilon(1e-6).scale(0.0));
    CHECK(doubt(by_spread) == Approx(spread_points).epsilon(0.07).scale(0.0));
    CHECK(doubt(doubted_kind("both", "memory")) ==
          Approx(std::hypot(mean_points, spread_points)).epsilon(0.01).scale(0.0));
    CHECK(staple::summarise_diameters(std::vector{of_kind(by_mean)}).mean_doubt_um == Approx(3.5));
    auto tagged = of_kind(by_mean);
    tagged.diameter_um = 27.0;
    CHECK(staple::summarise_diameters(std::vector{tagged}).over_30um_doubt_pct == 0.0);
}
