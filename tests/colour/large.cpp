// Large colour differences against worked values of the model's standard and of its uniform space.
#include "colour/large.hpp"

#include <doctest/doctest.h>

using namespace battwright;
using colour::Viewing;
using doctest::Approx;

TEST_CASE("CIECAM02: worked examples of CIE 159:2004 as published with open implementations") {
    struct Example {
        colour::Xyz xyz;
        Viewing viewing;
        double j, m, hue;
    };
    // The first two: CIE 159:2004, section 9. The others: the examples that go with the colour-science
    // library.
    const Example examples[] = {
        {{19.31, 23.93, 10.14}, {{98.88, 90.0, 32.03}, 200.0, 18.0}, 48.0314, 38.7789, 191.0452},
        {{19.31, 23.93, 10.14}, {{98.88, 90.0, 32.03}, 20.0, 18.0}, 47.6856, 29.7580, 185.3445},
        {{19.01, 20.0, 21.78}, {{95.05, 100.0, 108.88}, 318.31, 20.0}, 41.7311, 0.1088, 219.05},
        {{57.06, 43.06, 31.96}, {{95.05, 100.0, 108.88}, 31.83, 20.0}, 65.9552, 41.6733, 19.5574},
    };
    for (const Example& example : examples) {
        const auto seen = colour::appearance(example.xyz, example.viewing);
        CHECK(seen.j == Approx(example.j).epsilon(2e-5));
        CHECK(seen.m == Approx(example.m).epsilon(2e-3).scale(0.0));
        CHECK(seen.hue_degrees == Approx(example.hue).epsilon(1e-3));
    }
}

TEST_CASE("CIECAM02: white has a lightness of 100 by its definition, on a dim table too") {
    for (const double adapting : {10.0, 63.66, 318.31}) {
        const colour::Xyz white{95.05, 100.0, 108.88};
        CHECK(colour::appearance(white, {white, adapting, 20.0}).j == Approx(100.0).epsilon(1e-9));
    }
}

TEST_CASE("CAM02-LCD: the example that goes with the colour-science library") {
    const colour::LargeSpace first{54.90433134, -0.08450395, -0.06854831};
    const colour::LargeSpace second{54.80352754, -3.96940084, -13.57591013};
    CHECK(colour::cam02_lcd(first, second) == Approx(14.0555464).epsilon(1e-8));
    const auto seen = colour::appearance({19.01, 20.0, 21.78}, {{95.05, 100.0, 108.88}, 318.31, 20.0});
    const auto space = colour::large_space(seen);
    CHECK(space.j == Approx(first.j).epsilon(1e-4));
    CHECK(space.a == Approx(first.a).epsilon(0.02).scale(0.0));
    CHECK(space.b == Approx(first.b).epsilon(0.02).scale(0.0));
}

TEST_CASE("CAM02-LCD's compression of colourfulness and lightness, by hand at strong colours") {
    // Luo, Cui and Li (2006): J' = 1.7 J / (1 + 0.007 J), M' = ln(1 + 0.0053 M) / 0.0053. J = 50, M = 50
    // and 90.
    const colour::LargeSpace at_50 = colour::large_space({50.0, 50.0, 0.0});
    CHECK(at_50.j == Approx(62.963).epsilon(1e-4));
    CHECK(at_50.a == Approx(44.353).epsilon(1e-4));
    CHECK(at_50.b == Approx(0.0));
    CHECK(colour::large_space({50.0, 90.0, 90.0}).b == Approx(73.587).epsilon(1e-4));
}

TEST_CASE("a match is looked at on a light table of 1,000 lux with a grey around that reflects a fifth") {
    // CIE 159:2004: the adapting luminance is E Yb / (100 pi); the grey world's Yb is 20. The 1,000 lux are
    // those that CIE 142:2001 judges small differences under (from memory).
    const Viewing usual;
    CHECK(usual.background_y == 20.0);
    CHECK(usual.adapting_cd_m2 ==
          Approx(1000.0 * usual.background_y / (100.0 * 3.14159265358979)).epsilon(1e-4));
}

TEST_CASE("a match is judged by CIEDE2000 when near, by CAM02-LCD when far, without a step between") {
    const colour::Lab target = colour::lab(colour::parse_hex("#c04080").value());
    const colour::Lab grey = colour::lab(colour::parse_hex("#6a7272").value());
    const colour::Lab pink = colour::lab(colour::parse_hex("#b0587f").value());
    CHECK(colour::match_difference(target, grey) == Approx(colour::cam02_lcd(target, grey)));
    // A grey is no match for a strong pink, and a duller pink is much nearer.
    CHECK(colour::match_difference(target, grey) > 2.0 * colour::match_difference(target, pink));
    double before = 0.0;
    for (double step = 0.0; step <= 1.0; step += 1.0 / 256.0) {
        const colour::Lab between{target.l + step * (grey.l - target.l),
                                  target.a + step * (grey.a - target.a),
                                  target.b + step * (grey.b - target.b)};
        const double now = colour::match_difference(target, between);
        const double de00 = colour::ciede2000(target, between);
        // CIEDE2000 was fitted to differences of up to 5 (CIE 142:2001); at twice that it is left behind.
        if (de00 <= 5.0) CHECK(now == de00);
        if (de00 > 5.3) CHECK(now != de00);
        if (de00 >= 10.0) CHECK(now == Approx(colour::cam02_lcd(target, between)));
        if (de00 > 5.3 && de00 < 9.7) CHECK(now != Approx(colour::cam02_lcd(target, between)).epsilon(1e-12));
        CHECK(now >= before - 1e-9);
        CHECK(now - before < 1.0);
        before = now;
    }
}
