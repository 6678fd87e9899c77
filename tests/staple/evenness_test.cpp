// Fibres in the cross-section, Martindale's limit, mean fineness.
#include <doctest/doctest.h>

#include <cmath>

#include "recipes.hpp"
#include "staple/distribution.hpp"
#include "strands.hpp"

using namespace battwright;
using doctest::Approx;

TEST_CASE("worked examples of evenness: fibres in the section, limit, index") {
    // Textile examination papers, as listed in the project's check values. Tolerances are the printed digits.
    const double n_coarse = staple::fibres_in_section(60.5, 0.5);
    CHECK(n_coarse == Approx(121.0));
    const double limit_coarse = staple::martindale_limit_pct(n_coarse, 0.0);
    CHECK(std::abs(limit_coarse - 9.09) < 0.005);
    CHECK(std::abs(staple::index_of_irregularity(10.0, limit_coarse) - 1.10) < 0.005);

    const double tex_of_4_5_denier = 4.5 / 9.0;  // 1 denier = 1/9 tex, by definition
    const double n_fine = staple::fibres_in_section(50.0, tex_of_4_5_denier);
    CHECK(n_fine == Approx(100.0));
    CHECK(staple::martindale_limit_pct(n_fine, 0.0) == Approx(10.0));
    CHECK(staple::index_of_irregularity(12.5, 10.0) == Approx(1.25));

    // 106/sqrt(n) is a limit with spread: 106 = 100 sqrt(1 + 0.0004 CVd^2) gives CVd = 17.578 %.
    const double n_cotton = staple::fibres_in_section(20.0, 0.12);
    CHECK(std::abs(n_cotton - 166.7) < 0.05);
    const double spread = std::sqrt((1.06 * 1.06 - 1.0) / 0.0004);
    const double limit_cotton = staple::martindale_limit_pct(n_cotton, spread);
    CHECK(limit_cotton == Approx(106.0 / std::sqrt(n_cotton)));
    CHECK(std::abs(staple::index_of_irregularity(12.32, limit_cotton) - 1.5) < 0.05);
}

TEST_CASE("Martindale's 112 for wool") {
    // Martindale (1945): with a diameter CV of 25 % the limit is 111.8/sqrt(n), the handbooks' 112/sqrt(n).
    const double constant = staple::martindale_limit_pct(1.0, 25.0);
    CHECK(std::abs(constant - 111.8) < 0.05);
    CHECK(std::round(constant) == 112.0);
    CHECK(staple::martindale_limit_pct(64.0, 25.0) == Approx(constant / 8.0));
}

TEST_CASE("nothing in the section is no irregularity, not a division by nothing") {
    CHECK(staple::fibres_in_section(50.0, 0.0) == 0.0);
    CHECK(staple::martindale_limit_pct(0.0, 25.0) == 0.0);
    CHECK(staple::index_of_irregularity(10.0, 0.0) == 0.0);
}

TEST_CASE("mean fineness of a blend by mass: harmonic is true by number, arithmetic is the handbook's") {
    // Half and half by mass of 0.2 and 0.8 tex. A gram holds 0.5 / 0.2 + 0.5 / 0.8 = 3.125 km of fibre, so a
    // fibre weighs 0.32 tex on average (harmonic). The arithmetic mean says 0.5 * 0.2 + 0.5 * 0.8 = 0.5 tex.
    const std::vector<recipe::Strand> blend{strand_of(50.0, 75.0, 0.3, 0.2), strand_of(50.0, 75.0, 0.3, 0.8)};
    CHECK(staple::mean_fibre_tex(blend) == Approx(0.32));
    CHECK(staple::mean_fibre_tex_arithmetic(blend) == Approx(0.5));
    // Which is which: 100 tex of yarn hold 50 / 0.2 + 50 / 0.8 = 312.5 fibres, and only the harmonic says so.
    CHECK(staple::fibres_in_section(100.0, staple::mean_fibre_tex(blend)) == Approx(50.0 / 0.2 + 50.0 / 0.8));
    // For one fibre they agree.
    const std::vector<recipe::Strand> plain{strand_of(10.0, 75.0, 0.3, 0.41)};
    CHECK(staple::mean_fibre_tex(plain) == Approx(0.41));
    CHECK(staple::mean_fibre_tex_arithmetic(plain) == Approx(0.41));
    CHECK(staple::mean_fibre_tex({}) == 0.0);
    CHECK(staple::mean_fibre_tex_arithmetic({}) == 0.0);
}

TEST_CASE("what the hands are told follows the staple") {
    const std::vector<recipe::Strand> longer{strand_of(50.0, 140.0, 0.2, 0.9)};
    const std::vector<recipe::Strand> shorter{strand_of(50.0, 40.0, 0.2, 0.25)};
    const staple::Drafting slow = staple::drafting_of(longer), quick = staple::drafting_of(shorter);
    // Length-biased mean of one strand: mean (1 + CV^2) (Morton & Hearle, identity).
    CHECK(slow.hands_apart_mm == Approx(140.0 * 1.04));
    // Common practice, no source: long fibre takes less twist than short.
    CHECK(slow.twist_angle_degrees < quick.twist_angle_degrees);
    CHECK(slow.twist_angle_degrees >= 12.0);
    CHECK(quick.twist_angle_degrees <= 35.0);
    // One strand's section has its own diameter CV (0.22 in strand_of): 10 sqrt(1 + 0.0004 * 22^2) %.
    CHECK(slow.limit_irregularity_pct_at_100_fibres == Approx(10.0 * std::sqrt(1.0 + 0.0004 * 22.0 * 22.0)));
    CHECK(staple::drafting_of({}).hands_apart_mm == 0.0);
}

TEST_CASE("the limit goes by the diameters met in a cross-section") {
    // Half and half by mass of 20 um, 0.4 tex and 40 um, 1.6 tex, no spread of their own: sections hold
    // 50 / 0.4 and 50 / 1.6 fibres, four to one, so the mean is 24 um, the deviation sqrt(0.8 * 4^2 +
    // 0.2 * 16^2) = 8 um and the CV one third, whatever the lengths.
    const std::vector<recipe::Strand> blend{strand_of(50.0, 70.0, 0.0, 0.4, 20.0, 0.0),
                                            strand_of(50.0, 150.0, 0.0, 1.6, 40.0, 0.0)};
    CHECK(staple::drafting_of(blend).limit_irregularity_pct_at_100_fibres ==
          Approx(10.0 * std::sqrt(1.0 + 0.0004 * 10000.0 / 9.0)));
}

TEST_CASE("neps do not tell the hands how far apart to be") {
    const auto wool = recipes::batt({recipes::part("corriedale", 40.0)});
    const auto nepped = recipes::batt({recipes::part("corriedale", 40.0), recipes::part("wool-neps", 20.0)});
    const auto plain = staple::drafting_of(recipes::strands_in(wool));
    CHECK(staple::drafting_of(recipes::strands_in(nepped)).hands_apart_mm == Approx(plain.hands_apart_mm));
    // With nothing but neps they are all there is.
    const auto neps = recipes::batt({recipes::part("wool-neps", 20.0)});
    CHECK(staple::drafting_of(recipes::strands_in(neps)).hands_apart_mm > 0.0);
}
