// What people write and read, from both sides of each border.
#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>
#include <utility>

#include "measure/complaint.hpp"
#include "measure/count.hpp"
#include "measure/nearest.hpp"
#include "measure/replace.hpp"
#include "measure/save.hpp"
#include "measure/units.hpp"

namespace measure = battwright::measure;
namespace fs = std::filesystem;
using measure::LengthUnit;
using measure::MassUnit;
using measure::YarnLengthUnit;

TEST_CASE("each fraction that is one character is worth what the Unicode Character Database says") {
    for (const auto& [text, value] : {std::pair{"\u00bc", 1.0 / 4.0},
                                      {"\u00bd", 1.0 / 2.0},
                                      {"\u00be", 3.0 / 4.0},
                                      {"\u2153", 1.0 / 3.0},
                                      {"\u2154", 2.0 / 3.0},
                                      {"\u215b", 1.0 / 8.0},
                                      {"\u215c", 3.0 / 8.0},
                                      {"\u215d", 5.0 / 8.0},
                                      {"\u215e", 7.0 / 8.0}}) {
        CAPTURE(text);
        CHECK(measure::parse_mass(std::string("2") + text + " g").value().grams ==
              doctest::Approx(2.0 + value));
    }
}

TEST_CASE("three figures, as a kitchen scale and a ruler give") {
    CHECK(measure::print_mass(90.44, MassUnit::gram) == "90.4 g");
    CHECK(measure::print_mass(110.44, MassUnit::gram) == "110 g");
    CHECK(measure::print_mass(1.12 * 1.0, MassUnit::gram) == "1.1 g");
    CHECK(measure::print_mass(0.944, MassUnit::gram) == "0.94 g");
    CHECK(measure::print_mass(90.444 * measure::grams_per_ounce, MassUnit::ounce) == "90.44 oz");
    CHECK(measure::print_mass(110.444 * measure::grams_per_ounce, MassUnit::ounce) == "110.4 oz");
    CHECK(measure::print_mass(1234.44, MassUnit::kilogram) == "1.234 kg");
    CHECK(measure::print_length(9.44, LengthUnit::millimetre) == "9.4 mm");
    CHECK(measure::print_length(11.44, LengthUnit::millimetre) == "11 mm");
    CHECK(measure::print_yarn_length(9.44, YarnLengthUnit::metre) == "9.4 m");
    CHECK(measure::print_yarn_length(11.44, YarnLengthUnit::metre) == "11 m");
    CHECK(measure::print_percent(0.944) == "0.94 %");
    CHECK(measure::print_percent(1.144) == "1.1 %");
    CHECK(measure::print_number(3.14159265, 3) == "3.142");
    CHECK(measure::print_number(2.71828183, 2) == "2.72");
    // A jeweller's scale reads milligrams, 0.00004 oz (common practice, no source): nothing finer is printed.
    CHECK(measure::print_mass(0.0003, MassUnit::ounce) == "0.00001 oz");
    const std::vector<double> thirds{100.0 / 3.0, 100.0 / 3.0, 100.0 / 3.0};
    CHECK(measure::tenths(thirds) == std::vector<double>{33.4, 33.3, 33.3});
}

TEST_CASE("a word three letters off a long one is near it") {
    CHECK(measure::nearest_words("corydale", {"corriedale"}).size() == 1);
    CHECK(measure::nearest_words("cordle", {"corriedale"}).empty());
    CHECK(measure::nearest_words("cor", {"corriedale"}).size() == 1);  // its beginning
    CHECK(measure::nearest_words("co", {"corriedale"}).empty());
}

TEST_CASE("characters that turn the writing round or hide are taken out, at two and three bytes") {
    // Unicode's bidirectional marks and the byte order mark.
    for (const char* mark : {"\u061c", "\u200e", "\u200f", "\u202e", "\u2066", "\ufeff"}) {
        const std::string quoted = measure::quoted(std::string("tide") + mark + "line");
        CHECK(quoted.find(mark) == std::string::npos);
    }
    CHECK(measure::quoted("\u00e9\u2603").find("\u2603") != std::string::npos);
}

TEST_CASE("metres of 100 g: by the definition of tex (ISO 1144)") {
    CHECK(measure::metres_per_100_g(100.0) == doctest::Approx(1000.0));
    CHECK(measure::metres_per_100_g(250.0) == doctest::Approx(400.0));
}

TEST_CASE("what is a recipe and what is a text, by the line every recipe has") {
    const fs::path folder = fs::temp_directory_path() / "battwright-measure-practice";
    fs::create_directories(folder);
    const auto is_recipe = [&](const std::string& bytes) {
        const fs::path path = folder / "one";
        std::ofstream(path, std::ios::binary) << bytes;
        return measure::may_write(path, measure::FileKind::recipe, measure::Replace::yes).has_value();
    };
    const auto comments = [](std::size_t bytes) {
        std::string text;
        while (text.size() < bytes) text += "# low water\n";
        return text;
    };
    CHECK(is_recipe("format=1\n"));
    CHECK(is_recipe("\"format\" = 1\n"));
    CHECK_FALSE(is_recipe("formats = 1\n"));
    // After a long preface, but not after a book.
    CHECK(is_recipe(comments(60000) + "format = 1\n"));
    CHECK_FALSE(is_recipe(comments(70000) + "format = 1\n"));
    // A byte that is no text: only at the very end may it be a character that was cut.
    CHECK_FALSE(
        is_recipe("format = 1\n\xff"
                  "1234"));
    CHECK(is_recipe("format = 1\n\xc3"));
    fs::remove_all(folder);
}
