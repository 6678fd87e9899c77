// WCAG 2.1 contrast in both themes.
#include "window/kit/theme.hpp"

#include <doctest/doctest.h>

#include <random>

#include "app/settings.hpp"

using namespace battwright;

TEST_CASE("the ratio is WCAG's") {
    // WCAG 2.1: black on white is 21:1; #777777 on white 4.48:1 just fails AA and #767676 4.54:1 just passes
    // (both well known from the working group's techniques; figures from memory).
    const colour::Srgb white{1, 1, 1}, black{0, 0, 0};
    const double seventy_seven = 0x77 / 255.0, seventy_six = 0x76 / 255.0;
    CHECK(window::contrast_ratio(black, white) == doctest::Approx(21.0));
    CHECK(window::contrast_ratio(white, black) == doctest::Approx(21.0));
    CHECK(window::contrast_ratio({seventy_seven, seventy_seven, seventy_seven}, white) ==
          doctest::Approx(4.48).epsilon(0.002));
    CHECK(window::contrast_ratio({seventy_six, seventy_six, seventy_six}, white) ==
          doctest::Approx(4.54).epsilon(0.002));
}

TEST_CASE("text reaches AA on every ground, outlines reach 3:1") {
    for (const auto shade : {window::Shade::light, window::Shade::dark}) {
        const auto pairs = window::contrast_pairs(window::theme_for(shade));
        CHECK(pairs.size() > 20);
        for (const auto& pair : pairs) {
            CAPTURE(pair.name);
            CAPTURE((shade == window::Shade::dark));
            CHECK(window::contrast_ratio(pair.upper, pair.lower) >= pair.least);
        }
    }
}

TEST_CASE("writing on a fibre colour is always readable") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> channel(0.0, 1.0);
    for (int i = 0; i < 500; ++i) {
        const colour::Srgb ground{channel(random), channel(random), channel(random)};
        CHECK(window::contrast_ratio(window::readable_on(ground), ground) >= 4.5);
    }
}
