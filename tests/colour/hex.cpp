#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "colour/optics.hpp"
#include "colour/spaces.hpp"

namespace {

using namespace battwright;
using namespace battwright::colour;

void complains(const std::string& text, const std::string& part) {
    CAPTURE(text);
    const auto colour = parse_hex(text);
    REQUIRE_FALSE(colour.has_value());
    const std::string line = measure::to_line(colour.error());
    CAPTURE(line);
    CHECK(line.find(part) != std::string::npos);
    CHECK(line.find("#2f5d50") != std::string::npos);  // shows what is wanted
    CHECK(line.find('\n') == std::string::npos);
}

}  // namespace

// Source: CSS Color Module Level 4, hexadecimal notation: "#abc" doubles each digit.
TEST_CASE("hexadecimal colours are read in both lengths and both cases") {
    CHECK(*parse_hex("#2f5d50") == Srgb{47 / 255.0, 93 / 255.0, 80 / 255.0});
    CHECK(*parse_hex("#2F5D50") == *parse_hex("#2f5d50"));
    CHECK(*parse_hex("#abc") == *parse_hex("#aabbcc"));
    CHECK(*parse_hex("  #ffffff ") == Srgb{1, 1, 1});
}

TEST_CASE("every 8-bit value survives the round trip") {
    for (int v = 0; v < 256; ++v) {
        const Srgb c{v / 255.0, (255 - v) / 255.0, ((v * 7) % 256) / 255.0};
        CHECK(*parse_hex(hex(c)) == c);
    }
}

TEST_CASE("hex clips, rounds and never fails") {
    CHECK(hex({-1, 2, 0.5}) == "#00ff80");
    CHECK(hex({0.499 / 255, 0.501 / 255, std::nan("")}) == "#000100");
}

TEST_CASE("what is not a colour gets one line that shows how") {
    complains("", "empty");
    complains("   ", "empty");
    complains("2f5d50", "does not start with #");
    complains("kelp green", "\"kelp green\"");
    complains("#", "has 0 digits");
    complains("#12345", "has 5 digits");
    complains("#2f5d5080", "has 8 digits");
    complains("#2f5d5g", "other than digits");
    complains("#12\n456", "other than digits");
    complains("#\xff\xff\xff", "other than digits");
}

TEST_CASE("words for lights and optics are read back, whatever the case") {
    for (const Light light : {Light::d65, Light::a, Light::f2}) CHECK(*parse_light(word_for(light)) == light);
    for (const Optics o : {Optics::stearns_noechel, Optics::friele, Optics::kubelka_munk})
        CHECK(*parse_optics(word_for(o)) == o);
    CHECK(*parse_light("d65") == Light::d65);
    CHECK(*parse_optics("Kubelka-Munk") == Optics::kubelka_munk);
}

TEST_CASE("an unknown word gets the list and the nearest") {
    const auto optics = parse_optics("kubelka");
    REQUIRE_FALSE(optics.has_value());
    CHECK(measure::to_line(optics.error()).find("did you mean kubelka-munk?") != std::string::npos);
    const auto light = parse_light("D56");
    REQUIRE_FALSE(light.has_value());
    const std::string line = measure::to_line(light.error());
    CHECK(line.find("\"D56\"") != std::string::npos);
    CHECK(line.find("did you mean D65?") != std::string::npos);
    const auto far = parse_light("candle");
    REQUIRE_FALSE(far.has_value());
    for (const char* word : {"D65", "A", "F2"})
        CHECK(measure::to_line(far.error()).find(word) != std::string::npos);
    CHECK_FALSE(parse_light("").has_value());
}
