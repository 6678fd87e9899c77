// Labelling a skein nobody labelled.
#include "yarn/unknown.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "yarn/count.hpp"
#include "yarns.hpp"

using namespace yarns;
using doctest::Approx;
using yarn::Skein;

namespace {

Skein counted(double turns, double round_m, double grams) {
    Skein skein;
    skein.turns = turns;
    skein.circumference_m = round_m;
    skein.grams = grams;
    return skein;
}
yarn::SkeinLabel label(const Skein& skein) {
    const auto label = yarn::label_of(skein);
    REQUIRE(label.has_value());
    return *label;
}
std::string field_of(const Skein& skein) {
    const auto label = yarn::label_of(skein);
    REQUIRE_FALSE(label.has_value());
    CHECK_FALSE(label.error().mend.empty());
    CHECK(measure::to_line(label.error()).find('\n') == std::string::npos);
    return label.error().where;
}

}  // namespace

TEST_CASE("turns round a winder and a weight") {
    // By definition: 120 turns of 1.5 m are 180 m, and 72 g of them are 400 tex.
    const auto found = label(counted(120, 1.5, 72));
    CHECK(found.length_m == Approx(180.0));
    CHECK(found.tex == Approx(400.0));
    CHECK_FALSE(found.tex_from_wraps);
    CHECK(found.wpi_from_tex);
    CHECK(found.tex_low == Approx(400.0));
    CHECK(found.tex_high == Approx(400.0));
    // Common practice: 12 wpi is about 1,246 yd/lb, that is 398 tex; it lies in the range.
    CHECK(found.wpi_low < 12.0);
    CHECK(found.wpi_high > 12.0);
    CHECK(found.length_low_m == found.length_m);
    CHECK_FALSE(found.check.has_value());
}

TEST_CASE("a weight and a weighed sample alone") {
    Skein skein;
    skein.grams = 96.0;
    skein.sample_m = 2.0;
    skein.sample_grams = 0.8;
    const auto found = label(skein);
    CHECK(found.tex == Approx(400.0));
    CHECK(found.length_m == Approx(240.0));
    skein.grams.reset();  // the grist is known without it, the length is not
    CHECK(label(skein).tex == Approx(400.0));
    CHECK(label(skein).length_m == 0.0);
}

TEST_CASE("wraps alone give a grist with its range, and say that it is a guess") {
    Skein skein;
    skein.wpi = 12.0;
    skein.grams = 100.0;
    const auto found = label(skein);
    CHECK(found.tex_from_wraps);
    CHECK(found.tex_low < found.tex);
    CHECK(found.tex_high > found.tex);
    CHECK(found.length_m == Approx(100000.0 / found.tex));
    CHECK(found.length_low_m == Approx(100000.0 / found.tex_high));
    CHECK(found.length_high_m == Approx(100000.0 / found.tex_low));
    // A range of ratios: the guess lies in its middle, as many times over the low end as under the high one.
    CHECK(found.tex / found.tex_low == Approx(found.tex_high / found.tex).epsilon(1e-6).scale(0.0));
    // Spinners' table (common practice): 12 wpi at 1,200 yd/lb lies in the range.
    CHECK(yarn::yards_per_pound(found.tex_high) < 1200.0);
    CHECK(yarn::yards_per_pound(found.tex_low) > 1200.0);
}

TEST_CASE("the three agree, or it is said which way they do not") {
    Skein skein = counted(120, 1.5, 72);
    skein.wpi = 12.0;
    REQUIRE(label(skein).check.has_value());
    CHECK_FALSE(label(skein).check->disagrees);
    CHECK(label(skein).check->text.empty());

    skein.wpi = 36.0;  // three times as fine
    const auto dense = *label(skein).check;
    CHECK(dense.disagrees);
    CHECK(dense.z < 0.0);
    CHECK(std::log(dense.loft) == Approx(std::log(2500.0) - yarn::log_m_per_kg_at_wraps(36.0, skein.makeup)));
    CHECK(dense.text.find("pulled tight") != std::string::npos);
    CHECK(dense.text.find("36") != std::string::npos);

    skein.wpi = 4.0;
    const auto lofty = *label(skein).check;
    CHECK(lofty.disagrees);
    CHECK(lofty.z > 0.0);
    CHECK(lofty.text.find("far apart") != std::string::npos);
}

TEST_CASE("the check passes the spinners' tables") {
    // Both tables of the project's check values, common practice, no source.
    for (const auto& [wpi, yards] : std::vector<std::pair<double, double>>{{5, 300},
                                                                           {6, 400},
                                                                           {8, 500},
                                                                           {9, 800},
                                                                           {11, 1000},
                                                                           {12, 1200},
                                                                           {15, 1800},
                                                                           {16, 2000},
                                                                           {18, 2400},
                                                                           {19, 2600},
                                                                           {14, 1600},
                                                                           {14, 1900},
                                                                           {11, 1200},
                                                                           {9, 750},
                                                                           {9, 850}}) {
        const double tex = yarn::tex_from(yards, yarn::CountSystem::yards_per_pound);
        CHECK_FALSE(yarn::hold_together(wpi, tex, {}).disagrees);
    }
    // z is in units of strangers' spread: at one standard deviation of it it is 1.
    const double sd = std::hypot(yarn::loft_habit_log_sd, yarn::loft_chance_log_sd, yarn::law_centre_se);
    const double tex = yarn::tex_of_log_m_per_kg(yarn::log_m_per_kg_at_wraps(14.0, {}) + sd);
    CHECK(yarn::hold_together(14.0, tex, {}).z == Approx(1.0));
}

TEST_CASE("a twist to start from: the ply's for a plied yarn, the single's for a single") {
    Skein skein = counted(120, 1.5, 72);
    skein.makeup.plies = 1;
    const double single = label(skein).turns_per_m;
    skein.makeup.plies = 2;
    const double two = label(skein).turns_per_m;
    CHECK(single > 0.0);
    // Two singles of half the weight take root two of the turns, and their ply two thirds of that.
    CHECK(two == Approx(single * std::sqrt(2.0) * 2.0 / 3.0).epsilon(0.05).scale(0.0));
    CHECK(label(skein).turns_per_inch == Approx(two * 0.0254));
}

TEST_CASE("bad input is one line that names the field") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(field_of(counted(120, 1.5, 0.0)) == "weight");
    CHECK(field_of(counted(120, 1.5, -3.0)) == "weight");
    CHECK(field_of(counted(120, 1.5, nan)) == "weight");
    CHECK(field_of(counted(0, 1.5, 72)) == "turns");
    CHECK(field_of(counted(120, 0.0, 72)) == "round");
    CHECK(field_of(counted(120, 150.0, 72)) == "round");  // centimetres for metres
    CHECK(field_of(counted(2, 0.5, 900.0)) == "weight");  // 900 kg a kilometre
    // 63 mg of 100 m are 0.63 tex, what one wool fibre of 25 um weighs (1.31 g/cm3).
    CHECK(measure::to_line(yarn::label_of(counted(100, 1.0, 0.063)).error()).find("0.63 g a kilometre") !=
          std::string::npos);
    Skein skein = counted(120, 1.5, 72);
    skein.wpi = 400.0;
    CHECK(field_of(skein) == "wpi");
    skein.wpi = 0.0;
    CHECK(field_of(skein) == "wpi");
    skein.wpi = 12.0;
    skein.makeup.plies = 0;
    CHECK(field_of(skein) == "plies");
    skein.makeup.plies = 2;
    skein.makeup.diameter_um = 0.0;
    CHECK(field_of(skein) == "diameter");

    Skein half = counted(120, 1.5, 72);
    half.circumference_m.reset();
    CHECK(field_of(half) == "round");
    half.turns.reset();
    CHECK(field_of(half) == "skein");
    half.sample_m = 2.0;
    CHECK(field_of(half) == "sample");
    half.sample_grams = 0.0;
    CHECK(field_of(half) == "sample weight");
    Skein unweighed = counted(120, 1.5, 72);
    unweighed.grams.reset();
    CHECK(field_of(unweighed) == "weight");
}
