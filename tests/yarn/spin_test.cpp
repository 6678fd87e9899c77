// Twist and the least fibres of a single.
#include "yarn/spin.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "staple/distribution.hpp"
#include "yarn/count.hpp"
#include "yarns.hpp"

using namespace yarns;
using doctest::Approx;
using yarn::Twist;

TEST_CASE("surface twist angle and turns are one relation") {
    // tan(angle) = pi d turns. Closed form: at 45 degrees a yarn of 1/pi mm makes one turn a millimetre.
    CHECK(yarn::turns_per_metre(45.0, 1.0 / 3.14159265358979) == Approx(1000.0));
    for (const double angle : {5.0, 12.0, 20.0, 35.0})
        CHECK(std::abs(yarn::twist_angle_degrees(yarn::turns_per_metre(angle, 0.7), 0.7) / angle - 1.0) <
              1e-12);
    // Half the thickness, twice the turns; no thickness, no turns.
    CHECK(yarn::turns_per_metre(20.0, 0.5) == Approx(2.0 * yarn::turns_per_metre(20.0, 1.0)));
    CHECK(yarn::turns_per_metre(20.0, 0.0) == 0.0);
    CHECK(yarn::per_inch(1000.0) == Approx(25.4));
}

TEST_CASE("the angle is measured on the single under the wheel's pull") {
    // Ashenhurst's k: 0.85 soft woollen, 0.90 firm worsted; semi-woollen between.
    CHECK(yarn::taut_diameter_mm(200.0, Preparation::woollen) ==
          Approx(yarn::compact_diameter_mm(200.0, 0.85)));
    CHECK(yarn::taut_diameter_mm(200.0, Preparation::worsted) ==
          Approx(yarn::compact_diameter_mm(200.0, 0.90)));
    CHECK(yarn::taut_diameter_mm(200.0, Preparation::semi_woollen) <
          yarn::taut_diameter_mm(200.0, Preparation::woollen));
    CHECK(yarn::taut_diameter_mm(200.0, Preparation::semi_woollen) >
          yarn::taut_diameter_mm(200.0, Preparation::worsted));
}

TEST_CASE("the least fibres stand above the published ring-spun limits") {
    // Klein, The Rieter Manual of Spinning, vol. 1: cotton, combed 33, carded 75.
    CHECK(yarn::least_fibres(Preparation::worsted) >= 33.0);
    CHECK(yarn::least_fibres(Preparation::woollen) >= 75.0);
    CHECK(yarn::least_fibres(Preparation::worsted) < yarn::least_fibres(Preparation::semi_woollen));
    CHECK(yarn::least_fibres(Preparation::semi_woollen) < yarn::least_fibres(Preparation::woollen));
    for (const auto preparation : {Preparation::woollen, Preparation::semi_woollen, Preparation::worsted}) {
        const double finest = yarn::finest_single_tex(preparation, 0.41);
        CHECK(staple::fibres_in_section(finest, 0.41) == Approx(yarn::least_fibres(preparation)));
    }
}

TEST_CASE("short staple takes more twist, and so does a firmer yarn") {
    const std::vector<Strand> longer{strand_of(wool, 50.0, 140.0, 24.0)};
    const std::vector<Strand> shorter{strand_of(wool, 50.0, 45.0, 24.0)};
    for (const Twist twist : {Twist::soft, Twist::medium, Twist::firm})
        CHECK(yarn::spinning_angle_degrees(shorter, twist) > yarn::spinning_angle_degrees(longer, twist));
    CHECK(yarn::spinning_angle_degrees(longer, Twist::soft) <
          yarn::spinning_angle_degrees(longer, Twist::medium));
    CHECK(yarn::spinning_angle_degrees(longer, Twist::medium) <
          yarn::spinning_angle_degrees(longer, Twist::firm));
    CHECK(yarn::spinning_angle_degrees({}, Twist::firm) == 0.0);
}

TEST_CASE("words for angles cover them without a gap") {
    CHECK(yarn::range_of(Twist::soft).to_degrees == yarn::range_of(Twist::medium).from_degrees);
    CHECK(yarn::range_of(Twist::medium).to_degrees == yarn::range_of(Twist::firm).from_degrees);
    for (const Twist twist : {Twist::soft, Twist::medium, Twist::firm}) {
        const auto range = yarn::range_of(twist);
        CHECK(yarn::twist_word(0.5 * (range.from_degrees + range.to_degrees)) == twist);
    }
    CHECK(yarn::word_for(yarn::twist_word(12.0)) == "soft");
    CHECK(yarn::word_for(yarn::twist_word(20.0)) == "medium");
    CHECK(yarn::word_for(yarn::twist_word(30.0)) == "firm");
}

TEST_CASE("treadles for a wheel ratio") {
    // By definition: at 10 turns a treadle, 240 turns a metre are 24 treadles.
    CHECK(yarn::treadles_per_metre(240.0, 10.0) == Approx(24.0));
    CHECK(yarn::treadles_per_metre(240.0, 0.0) == 0.0);
}
