// Thickness in wraps and by name, and the spinners' tables (common practice, no source) beside the law.
#include "yarn/thickness.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "yarn/calibration.hpp"
#include "yarn/count.hpp"
#include "yarn/law.hpp"
#include "yarns.hpp"

using namespace yarns;
using doctest::Approx;

namespace {

struct Row {
    double wpi, yards_per_pound;
};
// Spinners' table of wraps and yards, low end with low end, and skein labels.
const std::vector<Row> usual_rows{{5, 300},   {6, 400},   {8, 500},   {9, 800}, {11, 1000}, {12, 1200},
                                  {14, 1600}, {14, 1900}, {11, 1200}, {9, 750}, {9, 850},   {15, 1800}};
const std::vector<Row> fine_rows{{16, 2000}, {18, 2400}, {19, 2600}};

double over_law(const Row& row) {
    const double tex = yarn::tex_from(row.yards_per_pound, yarn::CountSystem::yards_per_pound);
    return std::log(1e6 / tex) - yarn::log_m_per_kg_at_wraps(row.wpi, {});
}
double half_width() {
    return yarn::half_width_80_percent(yarn::Calibration().in_hand(Preparation::semi_woollen),
                                       yarn::law_centre_se);
}

}  // namespace

TEST_CASE("compact diameters per inch are two to three times the relaxed wraps") {
    // Common practice: the two are not one quantity. Real skeins put a little more air into it than the
    // tables do in coarse yarns, less in fine ones.
    for (const double tex : {200.0, 400.0, 900.0}) {
        const double ratio =
            yarn::compact_diameters_per_inch(tex, yarn::ashenhurst_soft_woollen) / yarn::wpi_of_tex(tex, {});
        CHECK(ratio > 1.7);
        CHECK(ratio < 3.0);
    }
}

TEST_CASE(
    "the spinners' tables lie in the range of real skeins where yarn is usual, and promise too much "
    "where it is fine") {
    for (const Row& row : usual_rows) {
        CAPTURE(row.wpi);
        CAPTURE(row.yards_per_pound);
        CHECK(std::abs(over_law(row)) < half_width());
    }
    for (const Row& row : fine_rows) {
        CAPTURE(row.wpi);
        CHECK(over_law(row) > std::log(1.5));
    }
}

TEST_CASE("every name is known, whatever its case, and shown in both systems") {
    for (const recipe::ThicknessName& name : recipe::thickness_names()) {
        CAPTURE(name.word);
        const yarn::ThicknessClass* found = yarn::class_named(name.word);
        REQUIRE(found != nullptr);
        CHECK(found->number == name.number);
        CHECK(yarn::class_of_wpi(name.usual_wpi).number == name.number);
        CHECK(yarn::both_names(*found, name.word).find(found->name) != std::string::npos);
        CHECK(yarn::both_names(*found, name.word).find(std::to_string(found->number)) != std::string::npos);
    }
    // Craft Yarn Council system, as commonly tabulated: the trade words of each number.
    const auto number = [](const char* word) { return yarn::class_named(word)->number; };
    CHECK(number("Lace") == 0);
    CHECK(number("light fingering") == 1);
    CHECK(number("SOCK") == 1);
    CHECK(number("sport") == 2);
    CHECK(number("dk") == 3);
    CHECK(number("worsted") == 4);
    CHECK(number("aran") == 4);
    CHECK(number("bulky") == 5);
    CHECK(number("super-bulky") == 6);
    CHECK(number("class 7") == 7);
    CHECK(number("4 ply") == 1);
    CHECK(number("8ply") == 3);
    CHECK(number("12-ply") == 5);
    CHECK(yarn::class_named("class 8") == nullptr);
    CHECK(yarn::class_named("7-ply") == nullptr);
    CHECK(yarn::both_names(*yarn::class_named("sport"), "sport") == "sport (fine, 2)");
    CHECK(yarn::both_names(*yarn::class_named("fine")) == "fine, 2 (sport or 5-ply)");
    // A way of spinning has that name too.
    CHECK(yarn::both_names(*yarn::class_named("worsted"), "worsted") == "worsted weight (medium, 4)");
}

TEST_CASE("classes come from the wraps") {
    // Craft Yarn Council system as commonly tabulated: 18+, 14-17, 12-13, 11, 9, 7, 5-6.
    const auto name = [](double wpi) { return std::string(yarn::class_of_wpi(wpi).name); };
    CHECK(name(18.0) == "lace");
    CHECK(name(40.0) == "lace");
    CHECK(name(17.0) == "super fine");
    CHECK(name(14.0) == "super fine");
    CHECK(name(13.0) == "fine");
    CHECK(name(12.0) == "fine");
    CHECK(name(11.0) == "light");
    CHECK(name(9.0) == "medium");
    CHECK(name(7.0) == "bulky");
    CHECK(name(6.0) == "super bulky");
    CHECK(name(5.0) == "super bulky");
    CHECK(name(3.0) == "jumbo");
    // The names are those a recipe may write, in the same order, and each holds its own typical wraps.
    REQUIRE(yarn::thickness_classes().size() == recipe::thickness_classes().size());
    for (std::size_t i = 0; i < yarn::thickness_classes().size(); ++i) {
        const yarn::ThicknessClass& c = yarn::thickness_classes()[i];
        CHECK(c.name == recipe::thickness_classes()[i]);
        CHECK(yarn::class_named(c.name) == &c);
        CHECK(name(c.typical_wpi) == c.name);
    }
    CHECK(yarn::class_named("thick as a hawser") == nullptr);
    // Encyclopaedia table of the system: fine is 300-400 m in 100 g.
    CHECK(yarn::class_named("fine")->metres_per_100_g_low == 300.0);
    CHECK(yarn::class_named("fine")->metres_per_100_g_high == 400.0);
    CHECK_FALSE(yarn::class_named("super bulky")->metres_per_100_g_low.has_value());
}
