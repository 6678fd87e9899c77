// What the colours of a batt do to one another. The limits are common practice, no source: a batt on either
// side of each. The differences beside them were worked out apart from the program, from CIE's tables.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "forecast/forecast.hpp"
#include "forecast/foretold.hpp"

using namespace battwright;

namespace {

struct Dyed {
    const char* colours;  // "#1040c0", or several with a space between, in equal shares
    int grams;
};

const staple::Finding* found_in(const forecast::Forecast& f, const std::string& code) {
    for (const auto& finding : f.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

forecast::Forecast of_colours(const std::vector<Dyed>& parts, const std::string& carding) {
    std::string text = "format = 1\n";
    for (const Dyed& part : parts) {
        const std::string colours = part.colours;
        const std::size_t gap = colours.find(' ');
        text += "[[component]]\nfibre = \"corriedale\"\nweight = \"" + std::to_string(part.grams) + " g\"\n";
        text += gap == std::string::npos ? "colour = \"" + colours + "\"\n"
                                         : "colours = [{ colour = \"" + colours.substr(0, gap) +
                                               "\", share = \"50 %\" }, { colour = \"" +
                                               colours.substr(gap + 1) + "\", share = \"50 %\" }]\n";
    }
    return testing::foretold(text + "[carding]\n" + carding);
}

bool says(const char* code, const std::vector<Dyed>& parts, const std::string& carding = "passes = 3") {
    return found_in(of_colours(parts, carding), code) != nullptr;
}

}  // namespace

TEST_CASE("colour-greys: across the wheel, strong, and most of it lost") {
    const char* code = "colour-greys";
    // Kept 32 % of its chroma, 123 degrees apart; 10 % at 111 degrees; 37 %; then more, and 25 % at 98
    // degrees.
    CHECK(says(code, {{"#c02020", 25}, {"#2080d0", 25}}));
    CHECK(says(code, {{"#1040c0", 25}, {"#e05010", 25}}));
    CHECK(says(code, {{"#e05010", 25}, {"#208080", 25}}));
    CHECK_FALSE(says(code, {{"#e05010", 25}, {"#30a0a0", 25}}));
    // Red and green make brown (common practice, no source), and a maker is told so.
    CHECK(says(code, {{"#d03030", 25}, {"#208040", 25}}));
    CHECK_FALSE(says(code, {{"#c02020", 25}, {"#1040c0", 25}}));
    // A chroma of 29 put in, and one of 20.
    CHECK(says(code, {{"#b06858", 25}, {"#58988a", 25}}));
    CHECK_FALSE(says(code, {{"#906050", 25}, {"#507870", 25}}));
    // Eleven parts of a hundred are enough for a pair: orange and four blues.
    CHECK(says(code, {{"#e05010", 56}, {"#1040c0", 11}, {"#1242c2", 11}, {"#1444c4", 11}, {"#1646c6", 11}}));
    // Carded once, or laid apart, they stay side by side.
    CHECK_FALSE(says(code, {{"#1040c0", 25}, {"#e05010", 25}}, "passes = 1"));
    CHECK(says(code, {{"#1040c0", 25}, {"#e05010", 25}}, "passes = 2"));
    CHECK_FALSE(says(code, {{"#1040c0", 25}, {"#e05010", 25}}, "feed = \"stripes\""));
    const auto three = of_colours({{"#1040c0", 25}, {"#e05010", 25}}, "passes = 3");
    const auto* finding = found_in(three, code);
    REQUIRE(finding != nullptr);
    CHECK(finding->text.find("111 degrees") != std::string::npos);
    CHECK(finding->text.find("(#1040c0) and Corriedale (#e05010)") != std::string::npos);
    CHECK(finding->remedy.find("stop a pass earlier") != std::string::npos);
    const auto two = of_colours({{"#1040c0", 25}, {"#e05010", 25}}, "passes = 2");
    CHECK(found_in(two, code)->remedy.find("stop a pass earlier") == std::string::npos);
}

TEST_CASE("dark-swallows: a little black takes the lightness of much white") {
    const char* code = "dark-swallows";
    // Off-white loses 22 of L* to 6.5 % of black, 18 to 5 %, 26 to 24 % of a grey of L* 39.
    CHECK(says(code, {{"#f0ece4", 935}, {"#141414", 65}}));
    CHECK_FALSE(says(code, {{"#f0ece4", 95}, {"#141414", 5}}));
    CHECK(says(code, {{"#f0ece4", 80}, {"#5a4a3c", 20}}));
    CHECK_FALSE(says(code, {{"#f0ece4", 76}, {"#5c5c5c", 24}}));
    // More than a quarter is no longer a little of it.
    CHECK(says(code, {{"#f0ece4", 76}, {"#141414", 24}}));
    CHECK_FALSE(says(code, {{"#f0ece4", 72}, {"#141414", 28}}));
    const auto f = of_colours({{"#f0ece4", 90}, {"#141414", 10}}, "passes = 3");
    const auto* finding = found_in(f, code);
    REQUIRE(finding != nullptr);
    CHECK(finding->action == staple::Remedy::lower_share);
    // 2.9 % of it takes 12 of L*.
    CHECK(finding->action_value == doctest::Approx(2.9).epsilon(0.05).scale(0.0));
    CHECK(finding->text.find("10 % of") != std::string::npos);
    CHECK(finding->remedy.find("3 % of it") != std::string::npos);
}

TEST_CASE("streaks-do-not-show: laid apart, and hardly different") {
    const char* code = "streaks-do-not-show";
    CHECK(says(code, {{"#808080", 25}, {"#8e8e8e", 25}}, "feed = \"stripes\""));
    CHECK_FALSE(says(code, {{"#808080", 25}, {"#929292", 25}}, "feed = \"stripes\""));  // 6.4 apart
    CHECK_FALSE(says(code, {{"#808080", 25}, {"#8e8e8e", 25}}));
    CHECK_FALSE(says(code, {{"#808080", 25}}, "feed = \"stripes\""));
}

TEST_CASE("fleck-shows: a little of a very different value, carded little") {
    const char* code = "fleck-shows";
    CHECK(says(code, {{"#444444", 90}, {"#f0ece4", 10}}, "passes = 2"));  // 65 of L* apart
    CHECK(says(code, {{"#f0ece4", 90}, {"#444444", 10}}, "passes = 1"));
    CHECK_FALSE(says(code, {{"#555555", 90}, {"#f0ece4", 10}}, "passes = 2"));
    CHECK_FALSE(says(code, {{"#444444", 84}, {"#f0ece4", 16}}, "passes = 2"));
    CHECK_FALSE(says(code, {{"#444444", 90}, {"#f0ece4", 10}}, "passes = 3"));
    CHECK_FALSE(says(code, {{"#444444", 90}, {"#f0ece4", 10}}, "passes = 2\nfeed = \"stripes\""));
    CHECK(found_in(of_colours({{"#444444", 90}, {"#f0ece4", 10}}, "passes = 2"), code)->action_value == 3.0);
}

TEST_CASE("parts-in-other-light: a heather of two dyes beside its match of one") {
    const char* code = "parts-in-other-light";
    // Alike in daylight within 1.1, and 4.2 apart in lamplight when that is taken out.
    CHECK(says(code, {{"#bd69fe #a6eb8c", 25}, {"#b29cbb", 25}}));
    // 2.4 apart in lamplight.
    CHECK(says(code, {{"#1040c0 #f0d020", 25}, {"#3f6f6f", 25}}));
    // Not alike to begin with, by 2.7.
    CHECK_FALSE(says(code, {{"#bd69fe #a6eb8c", 25}, {"#b8a2c1", 25}}));
    // One dye each: no pair of smooth reflectances that match part.
    CHECK_FALSE(says(code, {{"#ae98b7", 25}, {"#b09ab9", 25}}));
}
