// More batts that their makers described (see described_batts_test.cpp): hand-carded colours, silk and
// cotton, and what was spun of them. Published reports of makers, found on the open web; the words here are
// ours, and where no colour was given, ours as well. Nothing is tuned on these; where the forecast says
// otherwise the number stands here.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "forecast/batt.hpp"
#include "forecast/foretold.hpp"

namespace more_described {

using namespace battwright;
using carding::Look;

namespace {

forecast::Forecast told(const std::vector<std::string>& components, const std::string& carding,
                        const std::string& spinning = {}) {
    std::string text = "format = 1\nname = \"described\"\n";
    for (const std::string& component : components) text += "[[component]]\n" + component;
    text += "[carding]\n" + carding;
    if (!spinning.empty()) text += "[spinning]\n" + spinning;
    return testing::foretold(text);
}

// No colour: the fibre's own.
std::string of(const std::string& fibre, const std::string& colour, double grams) {
    return "fibre = \"" + fibre + "\"\n" + (colour.empty() ? "" : "colour = \"" + colour + "\"\n") +
           "weight = \"" + std::to_string(grams) + " g\"\n";
}

struct Tone {
    double lightness, chroma, hue;  // hue in degrees: red 30, yellow 95, green 150, blue 270
};
Tone tone_of(const forecast::Forecast& f) {
    const auto& c = f.colour.lab;
    const double hue = std::atan2(c.b, c.a) * 180.0 / std::numbers::pi;
    return {c.l, std::hypot(c.a, c.b), hue < 0.0 ? hue + 360.0 : hue};
}

carding::Measures last_of(const forecast::Forecast& f) {
    return forecast::batt_of(f).measures.back();
}

bool finds(const forecast::Forecast& f, const char* code) {
    return std::any_of(f.findings.begin(), f.findings.end(),
                       [&](const auto& finding) { return finding.code == code; });
}

constexpr const char *blue = "#5d6f8f", *gold = "#c9a227", *ink = "#1a1716", *cream = "#efe9dc";
const std::string wool = "corriedale";

}  // namespace

TEST_CASE("muted blue and golden yellow by hand: its maker saw blue with yellow flecks, the forecast olive") {
    // Contradicts at half and half (hue 108), where a person still named the blue; at two of yellow to one
    // both call it far from green: hue 99. Flecks agree.
    const auto half = told({of(wool, blue, 10), of(wool, gold, 10)}, "passes = 3\n");
    CHECK(tone_of(half).hue == doctest::Approx(108.0).epsilon(0.03));
    CHECK(last_of(half).fleck == carding::Fleck::salt_and_pepper);
    const auto more = told({of(wool, blue, 6.6), of(wool, gold, 13.4)}, "passes = 3\n");
    CHECK(tone_of(more).hue < 110.0);
    CHECK(tone_of(more).hue > 85.0);
}

TEST_CASE("bright blue and bright yellow: green at last") {
    const auto tone = tone_of(told({of(wool, "#1f5fd0", 10), of(wool, "#f2d400", 10)}, "passes = 3\n"));
    CHECK(tone.hue > 120.0);
    CHECK(tone.hue < 190.0);
}

TEST_CASE("a darker yellow with some black is olive; red and black a very dark red") {
    // Olive lies between yellow and green, dark and dull; the forecast's hue of 89 is on its yellow side.
    const auto olive = tone_of(told({of(wool, "#b8901c", 18), of(wool, ink, 2)}, "passes = 3\n"));
    CHECK(olive.lightness < 56.0);
    CHECK(olive.hue > 85.0);
    const auto red = tone_of(told({of(wool, "#b02020", 10), of(wool, ink, 10)}, "passes = 3\n"));
    CHECK(red.lightness < 25.0);
    CHECK(red.chroma > 12.0);
    CHECK((red.hue < 45.0 || red.hue > 350.0));
}

TEST_CASE("one part of colour in seven, with white silk-like fibre: pastel") {
    const auto tone = tone_of(told({of("merino-medium", "#2f8fb0", 1), of("merino-fine", "#f3efe4", 4),
                                    of("nylon", "#f3efe4", 2), of("nylon-trilobal", "#f3efe4", 0.3)},
                                   "passes = 3\n"));
    CHECK(tone.lightness > 80.0);
    CHECK(tone.chroma < 16.0);
}

TEST_CASE("coopworth, merino and tussah, three passes: a homogeneous, muted heather that spins well") {
    const auto f =
        told({of("coopworth", "#6b6258", 14), of("merino-medium", cream, 11.2), of("tussah-silk", "", 2.8)},
             "carder = \"table-small\"\npasses = 3\n");
    CHECK(last_of(f).look == Look::heathered);
    CHECK(last_of(f).strip_variation_de00 < 1.5);
    CHECK(tone_of(f).chroma < 12.0);
    // It was a pleasure to spin: nothing is said against its lengths.
    CHECK_FALSE(finds(f, "length-mismatch"));
}

TEST_CASE("merino and tussah, 78 g: fibre left deep in the cloth is not foreseen") {
    // Contradicts: the maker dug merino and silk out of both drums. What is said is that much-carded fibre
    // fills the drum sooner; that fine slick fibre stays between the teeth is not.
    const auto f =
        told({of("merino-medium", "#23402f", 49.6), of("tussah-silk", "#b08d3c", 28.4)}, "passes = 3\n");
    CHECK(finds(f, "holds-less"));
}

TEST_CASE("bluefaced leicester with mohair and angora, two passes: lumps and lengths are foreseen") {
    const auto f = told({of("bluefaced-leicester", "", 100), of("mohair", "", 20),
                         "blend = [ { fibre = \"angora\", share = \"50 %\" }, { fibre = \"merino-fine\", "
                         "share = \"50 %\" } ]\nweight = \"13 g\"\n"},
                        "passes = 2\n");
    CHECK(finds(f, "length-mismatch"));
    CHECK(finds(f, "licker-in"));
    // Its angora clumped. Clumps of the natural white do not show in the colour, 0.5: the word is about
    // colour alone.
    CHECK(last_of(f).strip_variation_de00 < 1.0);
}

TEST_CASE("cotton between layers, one pass: worked, a little noily") {
    const auto f =
        told({of("cotton", "", 28)}, "carder = \"table-small\"\npasses = 1\nfeed = \"sandwich\"\n");
    CHECK(finds(f, "short-with-nothing-to-hold-it"));
    CHECK_FALSE(finds(f, "over-carding"));
}

TEST_CASE("romney with a very little film: she found the sparkle far too much, the forecast does not") {
    // Contradicts: 3 % of film draws no finding of too much. Thin batts of much-carded fibre are foreseen.
    const auto f = told({of("romney", "#555555", 30), of("sparkle-film", "#c0c0c0", 1)}, "passes = 4\n");
    CHECK(finds(f, "inclusions-too-early"));
    CHECK_FALSE(finds(f, "sparkle-over-limit"));
}

TEST_CASE("three repeats of three layers: banded, and works for fine aligned fibre") {
    const auto f = told({of("bluefaced-leicester", "#7d6a86", 30), of("bamboo-viscose", cream, 9),
                         of("tussah-silk", "", 9), of("merino-fine", "#2f6f8f", 9)},
                        "passes = 1\nfeed = \"alternating\"\nrepeats = 3\n");
    CHECK(last_of(f).look <= Look::streaky);
}

TEST_CASE("blue, black, yellow and white, turned sideways: shifted towards a gentle, earthy range") {
    const auto f =
        told({of(wool, "#2040a0", 15), of(wool, ink, 5), of(wool, "#e8c520", 15), of(wool, cream, 15)},
             "passes = 2\nrefeed = \"sideways\"\n");
    // Far from its blue (chroma 60) and its yellow (82).
    CHECK(tone_of(f).chroma < 15.0);
}

TEST_CASE("six grams of two colours, three passes: a nuance, heathered") {
    const auto f =
        told({of(wool, "#2040a0", 6), of(wool, "#e8c520", 6)}, "carder = \"table-small\"\npasses = 3\n");
    CHECK(last_of(f).look == Look::heathered);
}

TEST_CASE("black and brown wool with snips and pink waste: tweedy") {
    const auto f =
        told({of(wool, ink, 10), of(wool, "#4a3426", 10), of("wool-neps", "#d77a92", 2)}, "passes = 3\n");
    CHECK(carding::described(last_of(f)).find("tweedy") == 0);
}

TEST_CASE("cashmere with tussah, and with fine merino: blended better than feared, the second better still") {
    const auto silk = told({of("cashmere", "", 10), of("tussah-silk", "", 10)}, "passes = 3\n");
    const auto merino = told({of("cashmere", "", 10), of("merino-fine", "", 10)}, "passes = 3\n");
    CHECK(last_of(silk).look >= Look::heathered);
    CHECK(last_of(merino).strip_variation_de00 < last_of(silk).strip_variation_de00);
    CHECK(finds(silk, "length-mismatch"));
    CHECK_FALSE(finds(merino, "length-mismatch"));
}

TEST_CASE("fuchsia, white and pink: the maker says not pink, the forecast says pink") {
    // Contradicts, with dyes nobody described: hue 347, chroma 57.
    const auto tone = tone_of(told(
        {of(wool, "#c71585", 10), of(wool, cream, 10), of("bamboo-viscose", "#f4a6c0", 10)}, "passes = 3\n"));
    CHECK(tone.hue > 330.0);
    CHECK(tone.chroma > 40.0);
}

// Of the three whose thickness was told one is inside the 80 % range, one longer and one shorter: too few to
// speak of coverage, and no bias to one side. For the two others the wraps are ours; the range is 3.3 times
// wide, so that they are inside from 6 to 15 and from 9 to 18 wraps.
TEST_CASE("skeins of described batts: of three of told thickness one is inside the range foretold") {
    struct Spun {
        const char* what;
        std::vector<std::string> in;
        const char* spinning;
        double metres;
        bool inside;
    };
    const std::vector<Spun> all{
        {"alpaca and silk, 27 g, 15 to 16 wpi: 85 m",
         {of("alpaca", cream, 20), of("bombyx-silk", "", 7)},
         "preparation = \"woollen\"\nplies = 2\nthickness = \"15.5 wpi\"\n",
         85.0,
         true},
        {"merinos, tussah and sari silk, 85 g, one strand, wraps not told (9 assumed): 218 m",
         {of("merino-fine", "#5a2d82", 34), of("merino-medium", "#8a2b4a", 34), of("tussah-silk", "", 10),
          of("silk-waste", "#d0307a", 7)},
         "preparation = \"worsted\"\nplies = 1\nthickness = \"9 wpi\"\n",
         218.0,
         true},
        {"blue, white and red, 89 g, wraps not told (12 assumed): 212 m",
         {of(wool, "#2040a0", 30), of(wool, cream, 30), of(wool, "#b02020", 29)},
         "preparation = \"woollen\"\nplies = 2\nthickness = \"12 wpi\"\n",
         212.0,
         true},
        // 2.8 m a gram at 8 wraps, where skeins of that thickness have 1.2: wraps of a pulled yarn.
        {"three colours, chain plied, 73.7 g, 8 wpi: 209 m",
         {of("bluefaced-leicester", "#b02020", 25), of("bluefaced-leicester", "#e8c520", 25),
          of("bluefaced-leicester", "#2040a0", 23.7)},
         "preparation = \"woollen\"\nplying = \"chain\"\nthickness = \"8 wpi\"\n",
         209.4,
         false},
        // A dense hand: 1.1 m a gram for sport, where 2.3 is foretold.
        {"alpaca, 111 g, sport, two strands: 124 m",
         {of("alpaca", "", 111)},
         "preparation = \"woollen\"\nplies = 2\nthickness = \"sport\"\n",
         124.0,
         false}};
    for (const Spun& spun : all) {
        const auto yarn = told(spun.in, "passes = 2\n", spun.spinning).yarn;
        CAPTURE(std::string(spun.what));
        MESSAGE(std::string(spun.what) << "; foretold " << yarn.length_low_m << " to " << yarn.length_high_m);
        CHECK((spun.metres >= yarn.length_low_m && spun.metres <= yarn.length_high_m) == spun.inside);
    }
}

}  // namespace more_described
