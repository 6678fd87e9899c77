// What makers said of fibre they carded by hand or laid on a board, beside what is forecast for these tools.
// Published reports of makers, found on the open web; the words here are ours, and where no colour, weight or
// number of transfers was given, ours as well. Nothing is tuned on these; the limits written here were set
// with the figures foretold in sight. Of 14 things said 11 are foretold: not the blue's name (told as olive),
// how even the pastels are (told as less even) and the metres of the rainbow (told as fewer). How far a
// card's teeth reach and what a pass leaves of the tufts are habits without a source: with half the reach the
// grey with waste is streaky, with a third more left the pastels stray by 5.8; nothing else said here turns
// on them.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "carding/pull.hpp"
#include "forecast/batt.hpp"
#include "forecast/foretold.hpp"
#include "forecast/without_drum.hpp"

namespace flat_described {

using namespace battwright;
using carding::Look;

namespace {

std::string part(const std::string& fibre, const std::string& colour, double grams) {
    return "[[component]]\nfibre = \"" + fibre + "\"\n" +
           (colour.empty() ? "" : "colour = \"" + colour + "\"\n") + "weight = \"" + std::to_string(grams) +
           " g\"\n";
}

forecast::Forecast told(const std::vector<std::string>& parts, const std::string& carding,
                        const std::string& spinning = {}) {
    std::string text = "format = 1\nname = \"described\"\n";
    for (const std::string& one : parts) text += one;
    return testing::foretold(text + "[carding]\n" + carding +
                             (spinning.empty() ? "" : "[spinning]\n" + spinning));
}

carding::Measures last_told(const char* what, const forecast::Forecast& f) {
    const auto batt = forecast::batt_of(f);
    for (const auto& m : batt.measures)
        MESSAGE(std::string(what) << ", " << m.pass << ": " << carding::described(m) << ", "
                                  << m.strip_variation_de00 << " (chance " << m.chance_de00 << ", fleck "
                                  << m.fleck_de00 << ")");
    return batt.measures.back();
}

double hue_of(const forecast::Forecast& f) {
    const double hue = std::atan2(f.colour.lab.b, f.colour.lab.a) * 180.0 / std::numbers::pi;
    return hue < 0.0 ? hue + 360.0 : hue;
}

constexpr const char *ink = "#1a1716", *cream = "#efe9dc";
const std::string wool = "corriedale", cards = "carder = \"hand-cards\"\npasses = 3\n";

}  // namespace

TEST_CASE("muted blue and golden yellow on hand cards: flecks agree, the blue's name does not") {
    // Contradicts by name (see described_batts_more_test.cpp: hue 108 is an olive); yellow flecks agree.
    const auto half = told({part(wool, "#5d6f8f", 5), part(wool, "#c9a227", 5)}, cards);
    const auto m = last_told("blue and gold", half);
    CHECK(m.fleck == carding::Fleck::salt_and_pepper);
    CHECK(half.weigh_out.batts == 2);  // rolags
    const auto third = told({part(wool, "#5d6f8f", 3.3), part(wool, "#c9a227", 6.7)}, cards);
    CHECK(hue_of(third) < 120.0);
    CHECK(hue_of(told({part(wool, "#1f5fd0", 5), part(wool, "#f2d400", 5)}, cards)) > 120.0);
}

TEST_CASE("a darker yellow with some black, red with black, on hand cards: olive, and a very dark red") {
    const auto olive = told({part(wool, "#b8901c", 9), part(wool, ink, 1)}, cards);
    CHECK(olive.colour.lab.l < 60.0);
    CHECK(hue_of(olive) > 80.0);
    const auto red = told({part(wool, "#b02020", 6), part(wool, ink, 4)}, cards);
    CHECK(red.colour.lab.l < 25.0);
}

TEST_CASE(
    "a board: laid, lifted, folded, laid again, three times: even pastels, a crisp gradient over rolags") {
    // One colour's board of the gradient, 7.3 g.
    const auto f = told({part("merino-medium", "#2f8fb0", 1), part("merino-fine", "#f3efe4", 4),
                         part("nylon", "#f3efe4", 2), part("nylon-trilobal", "#f3efe4", 0.3)},
                        "carder = \"blending-board\"\npasses = 3\nrefeed = \"tear-and-fold\"\nstrips = 2\n"
                        "feed = \"alternating\"\nrepeats = 3\n");
    const auto m = last_told("pastel on a board", f);
    // Contradicts by a hair: she says even, the forecast streaky at 4.1, where heathered begins under 4.
    CHECK(m.strip_variation_de00 < 5.0);
    // The gradient over the rolags is laid along the board on the last pass, or one board a step: here along
    // it. Each rolag is of one colour from end to end, and the next one's is another.
    const auto steps =
        told({part(wool, "#2f8fb0", 10), part(wool, cream, 10)},
             "carder = \"blending-board\"\npasses = 1\nfeed = \"gradient-along\"\nrolags = 5\n");
    const auto batt = forecast::batt_of(steps);
    const auto sequence = carding::sequence_of(batt.passes.front().field, carding::Pull::torn_across, 5, 5.0);
    const std::size_t each = sequence.steps() / 5;
    double before = 1.1;
    for (std::size_t rolag = 0; rolag < 5; ++rolag) {
        double mean = 0.0, widest = 0.0;
        for (std::size_t i = 0; i < each; ++i)
            mean += sequence.at(rolag * each + i)[0] / static_cast<double>(each);
        for (std::size_t i = 0; i < each; ++i)
            widest = std::max(widest, std::abs(sequence.at(rolag * each + i)[0] - mean));
        CHECK(mean < before);
        CHECK(widest < 0.05);
        before = mean;
    }
    CHECK(before < 0.2);
}

TEST_CASE("three colours in layers on hand cards, chain plied: nine rolags, woollen") {
    const auto f =
        told({part("bluefaced-leicester", "#b02020", 25), part("bluefaced-leicester", "#e8c520", 25),
              part("bluefaced-leicester", "#2040a0", 23.7)},
             "carder = \"hand-cards\"\npasses = 3\n",
             "preparation = \"woollen\"\nplying = \"chain\"\nthickness = \"8 wpi\"\n");
    MESSAGE("rainbow: " << f.weigh_out.batts << " rolags of " << f.plan.batt_grams << " g; "
                        << f.yarn.length_low_m << " to " << f.yarn.length_high_m << " m, she had 209");
    CHECK(f.weigh_out.batts >= 9);
    CHECK(f.yarn.length_high_m < 209.0);  // contradicts
    CHECK(f.yarn.preparation == recipe::Preparation::woollen);
}

TEST_CASE("waste on hand cards: tweedy when its specks differ enough") {
    const auto pink = last_told(
        "black, moorit and pink waste",
        told({part(wool, ink, 10), part(wool, "#4a3426", 10), part("wool-neps", "#d77a92", 2)}, cards));
    CHECK(pink.fleck == carding::Fleck::tweedy);
    // Grey wool with blue and rust carding waste, which is tufts and no neps: "more variegated than tweedy".
    const auto rust =
        last_told("grey with blue and rust waste",
                  told({part("ryeland", "#8a8a86", 16), part(wool, "#3a5a8a", 2), part(wool, "#a4552a", 2)},
                       "carder = \"hand-cards\"\npasses = 2\n"));
    CHECK(rust.fleck != carding::Fleck::tweedy);
    CHECK(rust.look >= Look::heathered);
}

TEST_CASE("cashmere with tussah, and with fine merino, on hand cards: blended better than feared") {
    // By hand neither is much broken, nor kept by a licker-in. How many transfers she made is not told; two
    // are what the forecast says cashmere bears.
    for (const char* other : {"tussah-silk", "merino-fine"}) {
        CAPTURE(other);
        const auto f =
            told({part("cashmere", "", 5), part(other, "", 5)}, "carder = \"hand-cards\"\npasses = 2\n");
        const auto drum = told({part("cashmere", "", 5), part(other, "", 5)}, "passes = 2\n");
        CHECK(f.wear.length_share > drum.wear.length_share);
        for (const char* code : {"licker-in", "over-carding", "holds-less", "over-load"})
            CHECK(std::none_of(f.findings.begin(), f.findings.end(),
                               [&](const auto& finding) { return finding.code == code; }));
        CHECK(last_told(other, f).look >= Look::heathered);
    }
}

TEST_CASE("by hand all that is weighed out is laid, at each place that it is given") {
    const std::string tide = part(wool, "#2f8fb0", 3) + "name = \"tide\"\n",
                      sand = part(wool, cream, 4) + "name = \"sand\"\n";
    const std::string places =
        "{ what = \"tide\", across = \"left third\", share = \"50 %\" }, { what = \"tide\", across = \"right "
        "third\", share = \"50 %\" }";
    for (const char* tool : {"blending-board", "hand-cards", "table-small"}) {
        CAPTURE(tool);
        const auto grams_of = [](const forecast::Forecast& f, std::size_t component) {
            double grams = 0.0;
            for (const auto& step : f.plan.steps)
                if (step.kind == carding::StepKind::feed && step.component == component) grams += step.grams;
            return grams;
        };
        const auto f =
            told({tide, sand}, std::string("carder = \"") + tool +
                                   "\"\npasses = 1\nlay = [{ what = \"sand\" }, " + places + "]\n");
        REQUIRE(f.plan.batts == 1);
        CHECK(grams_of(f, 0) == doctest::Approx(3.0));
        CHECK(grams_of(f, 1) == doctest::Approx(4.0));
        bool both = false;
        for (const auto& step : f.plan.steps)
            if (step.component == 0 &&
                step.text.find("at 2 places, 1.5 g at each: from 0 mm to ") != std::string::npos)
                both = step.layings.size() == 2;
        CHECK(both);
    }
}

TEST_CASE("places lost on a board are those that the simulated batt loses, whichever way it goes back") {
    // Stripes narrower than the strips across it (strips on edge keep what is wider), and two halves along
    // it.
    std::string stripes;
    for (const char* place : {"0-12.5 %", "25-37.5 %", "50-62.5 %", "75-87.5 %"})
        stripes += std::string("{ what = \"tide\", share = \"25 %\", across = \"") + place + "\" },";
    for (const char* place : {"12.5-25 %", "37.5-50 %", "62.5-75 %", "87.5-100 %"})
        stripes += std::string("{ what = \"sand\", share = \"25 %\", across = \"") + place + "\" },";
    const std::string halves =
        "{ what = \"tide\", along = \"first half\" }, { what = \"sand\", along = \"50-100 %\" }";
    for (const bool across : {true, false}) {
        for (const auto& row : recipe::refeeds) {
            const auto f =
                told({part(wool, "#2f8fb0", 10) + "name = \"tide\"\n",
                      part(wool, cream, 10) + "name = \"sand\"\n"},
                     "carder = \"blending-board\"\npasses = 2\nstrips = 4\nrefeed = \"" +
                         std::string(row.word) + "\"\nlay = [" + (across ? stripes : halves) + "]\n");
            CAPTURE(across);
            CAPTURE(row.word);
            const auto field = forecast::batt_of(f).passes.back().field;
            const auto share = [&](double from, double to) {
                return carding::box_mean(field, across ? carding::Box{0.0, 1.0, from, to, 0.0, 1.0}
                                                       : carding::Box{from, to, 0.0, 1.0, 0.0, 1.0})[0];
            };
            const double apart =
                across ? share(0.25, 0.375) - share(0.375, 0.5) : share(0.0, 0.25) - share(0.75, 1.0);
            const bool lost = std::any_of(f.findings.begin(), f.findings.end(),
                                          [](const auto& finding) { return finding.code == "places-lost"; });
            CAPTURE(apart);
            CHECK((lost ? apart < 0.1 : apart > 0.5));
        }
    }
}

TEST_CASE("no sentence about a board or hand cards speaks of a drum, a tray or a licker-in") {
    const auto& kinds = fibre::Catalogue::builtin().kinds();
    unsigned random = 7;
    const auto next = [&](std::size_t n) {
        random = random * 1664525u + 1013904223u;
        return static_cast<std::size_t>(random >> 8) % n;
    };
    for (int i = 0; i < 300; ++i) {
        std::vector<std::string> parts;
        std::vector<std::string> used;
        for (std::size_t n = 1 + next(4); n > 0; --n) {
            const std::string& id = kinds[next(kinds.size())].id;
            if (std::find(used.begin(), used.end(), id) != used.end()) continue;
            used.push_back(id);
            parts.push_back(part(id, "#5d6f8f", 1.0 + static_cast<double>(next(30))));
        }
        const bool board = next(2) == 0;
        const auto f = told(parts, std::string("carder = \"") + (board ? "blending-board" : "hand-cards") +
                                       "\"\npasses = " + std::to_string(1 + next(7)) + "\n");
        std::string words;
        for (const auto& finding : f.findings) words += finding.text + ' ' + finding.remedy + '\n';
        for (const auto& step : f.plan.steps) words += step.text + '\n';
        for (const auto& caution : f.plan.cautions) words += caution.text + '\n';
        for (const auto& word : f.weigh_out.words) words += word + '\n';
        for (const char* word : {"drum", "tray", "licker", "Feed ", "feed ", "seam"}) {
            CAPTURE(words);
            CAPTURE(word);
            CHECK(words.find(word) == std::string::npos);
        }
    }
}

TEST_CASE("what is named after a part of the carder keeps its name on a board and on hand cards") {
    // A little black among white: it swallows the rest, or shows as fleck.
    for (const bool board : {true, false}) {
        CAPTURE(board);
        const auto f =
            told({part(wool, ink, 1) + "name = \"tray\"\n",
                  part(wool, "#ffffff", 9) + "name = \"feed of the drum\"\n"},
                 std::string("carder = \"") + (board ? "blending-board" : "hand-cards") + "\"\npasses = 2\n");
        std::string words;
        for (const auto& finding : f.findings) words += finding.text + '\n';
        CAPTURE(words);
        CHECK(words.find(" of tray takes the lightness") != std::string::npos);
        CHECK(words.find("tray is ") != std::string::npos);
        CHECK(words.find(board ? "after two passes" : "after two transfers") != std::string::npos);
        // Fibres of one's own may be called anything.
        const auto said = [&](const std::string& text, const std::vector<std::string>& names) {
            return forecast::without_drum(text, names, f.carder);
        };
        const std::string surface = board ? "board" : "cards";
        CHECK(said("Feed Barn feed on this drum.", {"Barn feed", "Barn"}) ==
              "Lay Barn feed on this " + surface + ".");
        CHECK(said("Drumlin feed, fed.", {"Drum"}) == "Drumlin lay, laid.");
        CHECK(said("on this drum", {}) == "on this " + surface);
    }
}

}  // namespace flat_described
