#include <doctest/doctest.h>

#include <cctype>
#include <vector>

#include "text/words.hpp"

using namespace battwright;

TEST_CASE("lower is the C library's in the C locale, byte for byte") {
    for (int byte = 0; byte < 256; ++byte) {
        const char c = static_cast<char>(byte);
        CHECK(static_cast<unsigned char>(text::lower(c)) == std::tolower(byte));
    }
    CHECK(text::lower("Wensleydale \u00c9") == "wensleydale \u00c9");
    CHECK(text::capitalised("blue") == "Blue");
    CHECK(text::capitalised("\u00e9") == "\u00e9");
    CHECK(text::capitalised("").empty());
}

TEST_CASE("same_word minds length and nothing of case") {
    CHECK(text::same_word("D65", "d65"));
    CHECK_FALSE(text::same_word("D65", "D6"));
    CHECK_FALSE(text::same_word("A", "B"));
}

TEST_CASE("trimmed takes the blanks around and none within") {
    CHECK(text::trimmed(" \tharbour mist\r\n") == "harbour mist");
    CHECK(text::trimmed(" \t ").empty());
    CHECK(text::trimmed("").empty());
}

TEST_CASE("a list says its joint once, before the last") {
    const std::vector<std::string> three{"kelp", "gull", "tide"};
    CHECK(text::listed(three) == "kelp, gull and tide");
    CHECK(text::listed(three, "or") == "kelp, gull or tide");
    CHECK(text::listed(std::span(three).first(2)) == "kelp and gull");
    CHECK(text::listed(std::span(three).first(1)) == "kelp");
    CHECK(text::listed({}).empty());
}

TEST_CASE("one is singular, nought and many are plural") {
    CHECK(text::counted(0, "pass", "passes") == "0 passes");
    CHECK(text::counted(1, "pass", "passes") == "1 pass");
    CHECK(text::counted(3, "pass", "passes") == "3 passes");
}

TEST_CASE("a file stem holds letters, digits and single hyphens") {
    CHECK(text::file_stem("Kelp & Brass", "batt") == "kelp-brass");
    CHECK(text::file_stem("  ../Tide 2  ", "batt") == "tide-2");
    CHECK(text::file_stem("\u00e9\u00e8", "batt") == "batt");
}
