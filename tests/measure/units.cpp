#include "measure/units.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "seed.hpp"

namespace measure = battwright::measure;
using measure::MassUnit;

namespace {

double grams(std::string_view text) {
    const auto mass = measure::parse_mass(text);
    REQUIRE_MESSAGE(mass.has_value(), text);
    return mass->grams;
}

double millimetres(std::string_view text) {
    const auto length = measure::parse_length(text);
    REQUIRE_MESSAGE(length.has_value(), text);
    return length->millimetres;
}

template <class T>
std::string complaint(const measure::Expected<T>& value) {
    REQUIRE_FALSE(value.has_value());
    return measure::to_line(value.error());
}

}  // namespace

TEST_CASE("pound, ounce, yard and inch are exact") {
    // International yard and pound agreement, 1959.
    CHECK(grams("1 lb") == 453.59237);
    CHECK(grams("1 oz") == 28.349523125);
    CHECK(measure::parse_yarn_length_metres("1 yd").value() == 0.9144);
    CHECK(millimetres("1 in") == 25.4);
    CHECK(grams("16 oz") == grams("1 lb"));
    // 36 inches make a yard, by the same agreement.
    CHECK(millimetres("36 in") == doctest::Approx(914.4).epsilon(1e-15));
}

TEST_CASE("yards per pound at one tex, and the counts that follow") {
    // tex = grams per 1,000 m (ISO 1144). By the definitions of 1959 one tex is 453.59237 * 1000 / 0.9144 =
    // 496,054.648 yards per pound.
    const double yards_of_one_pound = grams("1 lb") * 1000.0 / measure::metres_per_yard;
    CHECK(yards_of_one_pound == doctest::Approx(496054.648).epsilon(1e-8));
    // Hanks of 560 yd (worsted) and 840 yd (cotton), counts by definition: Nw = 885.8 / tex, Ne = 590.5 /
    // tex.
    CHECK(yards_of_one_pound / 560.0 == doctest::Approx(885.8).epsilon(1e-4));
    CHECK(yards_of_one_pound / 840.0 == doctest::Approx(590.5).epsilon(1e-4));
}

TEST_CASE("weights as people write them") {
    CHECK(grams("28g") == 28.0);
    CHECK(grams(" 28  grams ") == 28.0);
    CHECK(grams("0.1 kg") == 100.0);
    CHECK(grams("3.5 oz") == 3.5 * measure::grams_per_ounce);
    CHECK(grams("3 1/2 oz") == 3.5 * measure::grams_per_ounce);
    CHECK(grams("3\u00bd oz") == 3.5 * measure::grams_per_ounce);
    CHECK(grams("\u00bc lb") == measure::grams_per_pound / 4.0);
    CHECK(grams("1/2 lb.") == measure::grams_per_pound / 2.0);
    CHECK(grams(".5 OZ") == measure::grams_per_ounce / 2.0);
    CHECK(grams("0 g") == 0.0);
    CHECK(grams("2 Pounds") == 2.0 * measure::grams_per_pound);
    CHECK(measure::parse_mass("3 oz")->unit == MassUnit::ounce);
}

TEST_CASE("lengths, yarn lengths, percentages, parts and diameters") {
    CHECK(millimetres("95 mm") == 95.0);
    CHECK(millimetres("9.5 cm") == 95.0);
    CHECK(millimetres("3 3/4 in") == doctest::Approx(95.25));
    CHECK(millimetres("4\"") == doctest::Approx(101.6));
    CHECK(measure::parse_yarn_length_metres("400 m").value() == 400.0);
    CHECK(measure::parse_yarn_length_metres("437 yards").value() == doctest::Approx(399.5928));
    CHECK(measure::parse_percent("60 %").value() == 60.0);
    CHECK(measure::parse_percent("60%").value() == 60.0);
    CHECK(measure::parse_percent("12.5 per cent").value() == 12.5);
    CHECK(measure::parse_percent("140 percent").value() == 140.0);
    CHECK(measure::parse_parts("3").value() == 3.0);
    CHECK(measure::parse_parts("2 parts").value() == 2.0);
    CHECK(measure::parse_parts("1/3").value() == 1.0 / 3.0);
    CHECK(measure::parse_diameter_micrometres("21.5 micron").value() == 21.5);
    CHECK(measure::parse_diameter_micrometres("21 \u00b5m").value() == 21.0);
    CHECK(measure::parse_quantity("12 wpi", "thickness", "12 wpi")->unit == "wpi");
}

TEST_CASE("what cannot be read is explained") {
    CHECK(complaint(measure::parse_mass("1,5 oz")) ==
          "the weight \"1,5 oz\" has a comma in its number; write a point for the decimal mark, as in \"1.5 "
          "oz\"");
    CHECK(complaint(measure::parse_mass("28")) ==
          "the weight \"28\" has no unit; add g, kg, oz or lb, as in \"25 g\"");
    CHECK(complaint(measure::parse_mass("28 gulls")).find("unknown unit \"gulls\"") != std::string::npos);
    CHECK(complaint(measure::parse_mass("-4 g")).find("the weight is negative: \"-4 g\"") !=
          std::string::npos);
    CHECK(complaint(measure::parse_mass("\u22124 g")).find("negative") != std::string::npos);
    CHECK(complaint(measure::parse_mass("")).find("is empty") != std::string::npos);
    CHECK(complaint(measure::parse_mass("some")).find("does not start with a number") != std::string::npos);
    CHECK(complaint(measure::parse_mass("nan g")).find("does not start with a number") != std::string::npos);
    CHECK(complaint(measure::parse_mass("inf g")).find("does not start with a number") != std::string::npos);
    CHECK(complaint(measure::parse_mass("1/0 g")).find("not a finite number") != std::string::npos);
    CHECK(complaint(measure::parse_mass("0/0 g")).find("not a finite number") != std::string::npos);
    CHECK(complaint(measure::parse_mass("1e999 g")).find("number") != std::string::npos);
    CHECK(complaint(measure::parse_mass("1e308 kg")).find("too large") != std::string::npos);
    CHECK(complaint(measure::parse_length("95")).find("add mm, cm or in") != std::string::npos);
    CHECK(complaint(measure::parse_percent("60")).find("add %") != std::string::npos);
    CHECK(complaint(measure::parse_parts("3 g")).find("unknown unit") != std::string::npos);
    CHECK(complaint(measure::parse_yarn_length_metres("4 km")).find("use m or yd") != std::string::npos);
}

TEST_CASE("printed for a person") {
    CHECK(measure::print_mass(28.0, MassUnit::gram) == "28 g");
    CHECK(measure::print_mass(3.5, MassUnit::gram) == "3.5 g");
    CHECK(measure::print_mass(123.45, MassUnit::gram) == "123 g");
    CHECK(measure::print_mass(0.254, MassUnit::gram) == "0.25 g");
    CHECK(measure::print_mass(1.25 * measure::grams_per_ounce, MassUnit::ounce) == "1.25 oz");
    CHECK(measure::print_mass(0.1, MassUnit::ounce) == "0.0035 oz");
    CHECK(measure::print_mass(0.1, MassUnit::pound) == "0.00022 lb");
    CHECK(measure::print_mass(2.0, MassUnit::ounce) == "0.071 oz");
    CHECK(measure::print_mass(0.0, MassUnit::ounce) == "0 oz");
    CHECK(measure::print_mass(std::nan(""), MassUnit::ounce) == "? oz");
    CHECK(measure::print_mass(-0.0, MassUnit::gram) == "0 g");
    CHECK(measure::print_mass(-0.001, MassUnit::gram) == "0 g");
    CHECK(measure::print_mass(std::nan(""), MassUnit::gram) == "? g");
    CHECK(measure::print_length(95.4, measure::LengthUnit::millimetre) == "95 mm");
    CHECK(measure::print_length(95.25, measure::LengthUnit::inch) == "3.75 in");
    CHECK(measure::print_yarn_length(400.0, measure::YarnLengthUnit::yard) == "437 yd");
    CHECK(measure::print_percent(33.333) == "33.3 %");
    CHECK(measure::print_percent(0.054) == "0.05 %");
}

TEST_CASE("written for a file") {
    CHECK(measure::write_mass({3.5 * measure::grams_per_ounce, MassUnit::ounce}) == "3.5 oz");
    CHECK(measure::write_mass({42.0, MassUnit::gram}) == "42 g");
    CHECK(measure::write_mass({100.0, MassUnit::kilogram}) == "0.1 kg");
    CHECK(measure::write_length({95.25, measure::LengthUnit::inch}) == "3.75 in");
    CHECK(measure::write_number(0.1) == "0.1");
    CHECK(measure::write_number(1e6) == "1000000");
    CHECK(measure::write_number(-0.0) == "0");
    CHECK(measure::write_percent(1.0 / 3.0) == "0.3333333333333333 %");
}

TEST_CASE("a number written reads back to the last bit") {
    auto random = battwright::testing::seeded();
    for (int i = 0; i < 20000; ++i) {
        const double size = std::pow(10.0, battwright::testing::uniform(random, -12.0, 20.0));
        const double value = size * battwright::testing::uniform(random, -1.0, 1.0);
        REQUIRE(std::stod(measure::write_number(value)) == value);
    }
}

TEST_CASE("a weight or length somebody wrote comes back to the last bit, in its unit") {
    auto random = battwright::testing::seeded();
    for (int i = 0; i < 20000; ++i) {
        const auto unit = static_cast<MassUnit>(battwright::testing::whole(random, 0, 3));
        const double value = battwright::testing::uniform(random, 0.0, 2000.0);
        const measure::Mass mass{measure::grams_from(value, unit), unit};
        const auto mass_again = measure::parse_mass(measure::write_mass(mass));
        REQUIRE(mass_again->grams == mass.grams);
        REQUIRE(mass_again->unit == unit);
        const auto length_unit = static_cast<measure::LengthUnit>(battwright::testing::whole(random, 0, 2));
        const measure::Length length{measure::millimetres_from(value, length_unit), length_unit};
        const auto length_again = measure::parse_length(measure::write_length(length));
        REQUIRE(length_again->millimetres == length.millimetres);
        REQUIRE(length_again->unit == length_unit);
    }
}

TEST_CASE("a weight computed elsewhere settles after one writing") {
    auto random = battwright::testing::seeded();
    for (int i = 0; i < 20000; ++i) {
        const measure::Mass mass{battwright::testing::uniform(random, 0.01, 5000.0), MassUnit::ounce};
        const std::string once = measure::write_mass(mass);
        const auto again = measure::parse_mass(once);
        REQUIRE(again->grams == doctest::Approx(mass.grams).epsilon(1e-15));
        REQUIRE(measure::write_mass(*again) == once);
    }
}
