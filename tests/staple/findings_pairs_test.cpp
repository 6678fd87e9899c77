// Pairs of fibres that will not travel together. All thresholds here are common practice, no source.
#include <doctest/doctest.h>

#include "recipes.hpp"

using namespace recipes;

namespace {

// Two wools of one thickness; only the length of the first is asked for.
recipe::Recipe two_lengths(double longer_mm, double longer_grams = 25.0, double shorter_mm = 60.0) {
    return batt({tagged("corriedale", longer_grams, longer_mm, 22.0),
                 tagged("corriedale", 50.0 - longer_grams, shorter_mm, 22.0)});
}

recipe::Recipe two_thicknesses(double coarser_um, double finer_um, double coarser_grams = 25.0) {
    return batt({tagged("corriedale", coarser_grams, 80.0, coarser_um),
                 tagged("merino-medium", 50.0 - coarser_grams, 80.0, finer_um)});
}

}  // namespace

TEST_CASE("length-mismatch grows with the factor between the staples") {
    CHECK(gravity("length-mismatch", two_lengths(84.0)) == none);      // 1.4
    CHECK(gravity("length-mismatch", two_lengths(96.0)) == none);      // 1.6
    CHECK(gravity("length-mismatch", two_lengths(114.0)) == advice);   // 1.9
    CHECK(gravity("length-mismatch", two_lengths(162.0)) == warning);  // 2.7
    CHECK(gravity("length-mismatch", two_lengths(225.0)) == spoils);   // 3.75, and over 150 mm
    // Three times as long but still cardable: hard, not hopeless.
    CHECK(gravity("length-mismatch", two_lengths(120.0, 25.0, 38.0)) == warning);
    // It is the factor that counts, not the length.
    CHECK(gravity("length-mismatch", two_lengths(132.0, 25.0, 100.0)) == none);
}

TEST_CASE("length-mismatch: a pinch is carried along, a tenth can spoil") {
    CHECK(gravity("length-mismatch", two_lengths(225.0, 1.0)) == none);     // 2 %
    CHECK(gravity("length-mismatch", two_lengths(225.0, 3.0)) == warning);  // 6 %
    CHECK(gravity("length-mismatch", two_lengths(225.0, 6.0)) == spoils);   // 12 %
}

TEST_CASE("length-mismatch names the numbers and both components") {
    const auto found = finding("length-mismatch", two_lengths(162.0));
    REQUIRE(found);
    CHECK(found->components == std::vector<std::size_t>{0, 1});
    for (const char* word : {"135 mm", "50 mm", "2.7", "50 %", "The longer Corriedale", "the rest of it"})
        CHECK_MESSAGE(found->text.find(word) != std::string::npos, found->text);
}

TEST_CASE("length-mismatch leads with the gravest pair and names the others") {
    const auto found = finding("length-mismatch", batt({tagged("lincoln", 20.0, 250.0, 38.0),
                                                        tagged("merino-fine", 20.0, 76.0, 19.0),
                                                        tagged("angora", 10.0, 55.0, 13.0)}));
    REQUIRE(found);
    CHECK(found->severity == staple::Severity::spoils);
    CHECK(found->components == std::vector<std::size_t>{0, 2});
    CHECK(found->text.find("The same goes for") != std::string::npos);
}

TEST_CASE("neps, locks and film are no pair to anything: they ride along") {
    CHECK(gravity("length-mismatch", batt({part("corriedale", 45.0), on_last_pass(part("wool-neps", 5.0)),
                                           on_last_pass(part("sparkle-film", 2.0))})) == none);
}

TEST_CASE("diameter-mismatch wants a stiff fibre beside a fine one") {
    CHECK(gravity("diameter-mismatch", two_thicknesses(28.0, 19.0)) == none);       // 1.47
    CHECK(gravity("diameter-mismatch", two_thicknesses(34.0, 19.0)) == advice);     // 1.79
    CHECK(gravity("diameter-mismatch", two_thicknesses(44.0, 19.0)) == warning);    // 2.3
    CHECK(gravity("diameter-mismatch", two_thicknesses(24.0, 11.0)) == none);       // 2.2, but both soft
    CHECK(gravity("diameter-mismatch", two_thicknesses(40.0, 19.0, 2.0)) == none);  // 4 %
    const auto found = finding("diameter-mismatch", two_thicknesses(38.0, 19.0));
    REQUIRE(found);
    // Bending stiffness of a round rod goes with the fourth power of the diameter (beam theory): 2^4.
    CHECK(found->text.find("16 times as stiff") != std::string::npos);
}

TEST_CASE("slick-with-grippy: only where the slick one is much the longer too") {
    const auto blend = [](double silk_grams, double silk_mm) {
        return batt({tagged("merino-medium", 50.0 - silk_grams, 75.0, 22.0),
                     tagged("bombyx-silk", silk_grams, silk_mm, 13.0)});
    };
    CHECK(gravity("slick-with-grippy", blend(15.0, 80.0)) == none);
    CHECK(gravity("slick-with-grippy", blend(15.0, 140.0)) == advice);
    CHECK(gravity("slick-with-grippy", blend(3.0, 140.0)) == none);
    CHECK(gravity("slick-with-grippy", batt({part("merino-medium", 30.0), part("corriedale", 20.0)})) ==
          none);
    CHECK(gravity("slick-with-grippy", batt({part("bombyx-silk", 30.0), part("tussah-silk", 20.0)})) == none);
}

TEST_CASE("felts-apart: wool proofed against shrinking beside wool that is not") {
    CHECK(gravity("felts-apart", batt({part("merino-superwash", 25.0), part("corriedale", 25.0)})) == advice);
    CHECK(gravity("felts-apart", batt({part("merino-superwash", 48.0), part("corriedale", 2.0)})) == none);
    CHECK(gravity("felts-apart", batt({part("merino-superwash", 25.0), part("bombyx-silk", 25.0)})) == none);
}
