// Numbers against the C and C++ libraries' own, which print and read by other means than ours.
#include <doctest/doctest.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <random>

#include "text/numbers.hpp"

using namespace battwright;

namespace {

std::string printed(const char* format, int places, double value) {
    std::array<char, 400> text{};
    std::snprintf(text.data(), text.size(), format, places, value);
    return text.data();
}

std::string shortest_fixed(double value) {
    std::array<char, 400> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed).ptr;
    return {text.data(), end};
}

// Sizes a recipe may hold, spread evenly over their logarithm.
std::vector<double> everyday_values(int count) {
    std::mt19937_64 random(20);
    std::uniform_real_distribution<double> power(-5.0, 14.9), coin(0.0, 1.0);
    std::vector<double> values;
    for (int i = 0; i < count; ++i) {
        double value = std::pow(10.0, power(random));
        if (i % 2 == 0) value = std::round(value * 100.0) / 100.0;
        if (value < 1e-5) continue;
        values.push_back(coin(random) < 0.3 ? -value : value);
    }
    return values;
}

}  // namespace

TEST_CASE("number and figures print as the C library does") {
    for (const double value : everyday_values(4000)) {
        for (const int places : {0, 1, 3}) {
            CHECK(text::number(value, places) == printed("%.*f", places, value));
            CHECK(text::figures(value, places + 1) == printed("%.*g", places + 1, value));
        }
    }
    CHECK(text::number(0.125, 2) == "0.12");  // a tie goes to the even digit, IEEE 754
    CHECK(text::number(2.5) == "2");
}

TEST_CASE("shortest is the shortest that reads back, without an exponent") {
    for (const double value : everyday_values(20000)) {
        const std::string text = text::shortest(value);
        CHECK(text == shortest_fixed(value));
        CHECK(text::read_decimal(text) == value);
    }
    CHECK(text::shortest(-0.0) == "0");
    CHECK(text::shortest(1e-5) == "0.00001");
    CHECK(text::shortest(9.5e-5) == "0.000095");
    CHECK(text::shortest(1e-7) == "1e-07");
    CHECK(text::shortest(2.5e22) == "2.5e+22");
}

TEST_CASE("rounded leaves off what says nothing") {
    CHECK(text::rounded(5.0, 1) == "5");
    CHECK(text::rounded(5.25, 1) == "5.3");
    CHECK(text::rounded(-0.01, 1) == "0");
    CHECK(text::rounded(NAN, 1) == "?");
}

TEST_CASE("to_figures is what the C library reads back of as many figures") {
    for (const double value : everyday_values(2000)) {
        for (const int figures : {1, 4, 9, 17})
            CHECK(text::to_figures(value, figures) ==
                  std::strtod(printed("%.*e", figures - 1, value).c_str(), nullptr));
    }
}

TEST_CASE("take_decimal takes what from_chars takes, and no more") {
    for (const std::string given : {"3 g",   "3.5oz",
                                    ".5",    "5.",
                                    "1e3",   "1e3x",
                                    "3ends", "2e+",
                                    "1/2",   "0x10",
                                    "007",   "1.2.3",
                                    "1,5",   "",
                                    ".",     "e5",
                                    "inf",   "nan",
                                    "+1",    "12 wpi",
                                    "1e999", "99999999999999999999",
                                    "4e-320"}) {
        CAPTURE(given);
        double expected = 0.0;
        const auto [end, error] = std::from_chars(given.data(), given.data() + given.size(), expected);
        const bool word = given == "inf" || given == "nan";
        std::string_view rest = given;
        const auto taken = text::take_decimal(rest);
        REQUIRE(taken.has_value() == (error == std::errc{} && !word));
        if (!taken) {
            CHECK(rest == given);
            continue;
        }
        CHECK(*taken == expected);
        CHECK(rest.data() == end);
    }
}

TEST_CASE("read_decimal wants the whole text") {
    CHECK(text::read_decimal("-20.5") == -20.5);
    CHECK(text::read_decimal("+3") == 3.0);
    for (const char* bad : {"", "-", "--1", "3 ", "3g", "1e", "nan"}) CHECK_FALSE(text::read_decimal(bad));
}

TEST_CASE("no exponent for everyday sizes, and no rounding where a double has no such decimals left") {
    using battwright::text::rounded;
    using battwright::text::shortest;
    CHECK(shortest(9e14) == "900000000000000");
    CHECK(shortest(9e15) == "9000000000000000");
    CHECK(shortest(1.1e16).find('e') != std::string::npos);
    CHECK(shortest(1.1e-5) == "0.000011");
    CHECK(shortest(0.9e-5).find('e') != std::string::npos);
    CHECK(rounded(9e11 + 0.55, 1) == "900000000000.6");
    CHECK(rounded(1.1e12 + 0.55, 1) == "1100000000000.55");
}
