// Colours by name, held against Pango's own table of the same list of the W3C.
#include "colour/names.hpp"

#include <doctest/doctest.h>
#include <pango/pango.h>

#include <set>

namespace colour = battwright::colour;

namespace {

std::string hex_of(const char* name) {
    const auto read = colour::parse_colour(name);
    REQUIRE_MESSAGE(read.has_value(), name);
    return colour::hex(*read);
}

std::string complaint_of(const char* text) {
    const auto read = colour::parse_colour(text);
    REQUIRE_FALSE(read.has_value());
    return battwright::measure::to_line(read.error());
}

}  // namespace

TEST_CASE("the names of the W3C's list are the colours that Pango knows by them") {
    // CSS Color Module Level 4 has 148 names; seven greys are written twice, and one of 2014 is not in Pango.
    constexpr std::size_t in_css = 141;
    const auto names = colour::colour_names();
    REQUIRE(names.size() > in_css);
    CHECK(std::set<std::string>(names.begin(), names.end()).size() == names.size());
    std::size_t held = 0;
    for (std::size_t i = 0; i < in_css; ++i) {
        CAPTURE(names[i]);
        PangoColor other;
        if (names[i] == "rebeccapurple") continue;
        REQUIRE(pango_color_parse(&other, names[i].c_str()));
        const auto of = [](guint16 value) { return (value >> 8) / 255.0; };
        CHECK(hex_of(names[i].c_str()) == colour::hex({of(other.red), of(other.green), of(other.blue)}));
        ++held;
    }
    CHECK(held == in_css - 1);
    CHECK(hex_of("rebeccapurple") == "#663399");  // CSS Color Module Level 4, 6.1
}

TEST_CASE("a name is read as a person writes it") {
    CHECK(hex_of("dark blue") == "#00008b");
    CHECK(hex_of("Dark-Gray") == hex_of("darkgrey"));
    CHECK(hex_of(" TEAL ") == "#008080");
    CHECK(hex_of("charcoal") == "#343837");  // no name of the W3C's: the survey's
    CHECK(hex_of("#2f5d50") == "#2f5d50");
    CHECK(complaint_of("dark bleu").ends_with("did you mean darkblue?"));
    CHECK(complaint_of("colour of the tide").find("as in \"dark blue\"") != std::string::npos);
    CHECK(complaint_of("2f5d50").find("does not start with #") != std::string::npos);
    CHECK_FALSE(colour::parse_colour("").has_value());
    CHECK_FALSE(colour::parse_colour("#2f5d5").has_value());
}
