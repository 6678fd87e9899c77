// Batts that their makers described on their own pages: what went in, how it was fed, how often it went
// through, and what came of it. Published reports of makers, found on the open web; the words here are ours,
// and where no colour was given, ours as well. No limit is set by any one of them.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "forecast/batt.hpp"
#include "forecast/foretold.hpp"

using namespace battwright;

namespace {

struct Went {
    const char* fibre;
    const char* colour;
    double grams;
    int on_pass = 1;
};
struct Described {
    const char* what;
    std::vector<Went> in;
    std::string carding;  // lines of the recipe's table
};

forecast::Forecast forecast_of(const Described& batt) {
    std::string text = "format = 1\nname = \"described\"\n";
    for (const Went& went : batt.in) {
        text += "\n[[component]]\nfibre = \"" + std::string(went.fibre) + "\"\ncolour = \"" + went.colour +
                "\"\nweight = \"" + std::to_string(went.grams) + " g\"\n";
        if (went.on_pass > 1) text += "add_on_pass = " + std::to_string(went.on_pass) + "\n";
    }
    return testing::foretold(text + "\n[carding]\n" + batt.carding);
}

std::vector<carding::Measures> carded(const Described& batt) {
    const auto measures = forecast::batt_of(forecast_of(batt)).measures;
    for (const auto& m : measures)
        MESSAGE(std::string(batt.what) << ", pass " << m.pass << ": " << carding::described(m) << ", "
                                       << m.strip_variation_de00 << " (chance " << m.chance_de00 << ")");
    return measures;
}

const carding::Measures& after(const std::vector<carding::Measures>& passes, int pass) {
    for (const auto& m : passes)
        if (m.pass == pass) return m;
    FAIL("no such pass");
    return passes.front();
}

using carding::Look;
constexpr const char *black = "#1a1716", *white = "#efe9dc";

}  // namespace

TEST_CASE(
    "black alpaca and white merino, 28 g in alternating chunks: even at three passes, homogeneous at four") {
    const auto m = carded({"black and white",
                           {{"alpaca", black, 14}, {"merino-fine", white, 14}},
                           "passes = 4\nfeed = \"alternating\"\n"});
    CHECK(after(m, 1).look < Look::heathered);
    CHECK(after(m, 3).look == Look::heathered);
    CHECK(after(m, 3).strip_variation_de00 < 1.5);
    CHECK(after(m, 4).look == Look::near_solid);
    CHECK(after(m, 4).fleck ==
          carding::Fleck::salt_and_pepper);  // black and white fibres stay black and white
}

TEST_CASE(
    "three colours of one longwool: layers apart, alternating far more blended; heather at 3, blended at 4") {
    const std::vector<Went> three{{"bluefaced-leicester", "#8a2b4a", 20},
                                  {"bluefaced-leicester", "#2f6f8f", 20},
                                  {"bluefaced-leicester", "#d8b24a", 20}};
    const auto layers = carded({"single layers", three, "passes = 4\n"});
    const auto alternating = carded({"alternating", three, "passes = 4\nfeed = \"alternating\"\n"});
    CHECK(after(layers, 1).look == Look::striped);
    CHECK(after(alternating, 1).strip_variation_de00 < after(layers, 1).strip_variation_de00 / 3.0);
    CHECK(after(layers, 3).look == Look::heathered);
    CHECK(after(alternating, 3).look == Look::heathered);
    CHECK(after(alternating, 4).look == Look::near_solid);
}

TEST_CASE(
    "natural brown and white shetland: four passes; dark and white half and half: nearly even at three") {
    const auto m =
        carded({"shetland", {{"shetland", "#4a3426", 25}, {"shetland", white, 25}}, "passes = 4\n"});
    CHECK(after(m, 2).look < Look::near_solid);
    CHECK(after(m, 3).look == Look::heathered);
    CHECK(after(m, 3).strip_variation_de00 < 2.0);
    CHECK(after(m, 4).look == Look::near_solid);
}

TEST_CASE("two strong colours, 30 g: from the fifth pass to the sixth little changes") {
    for (const auto& [one, other] :
         {std::pair{"#e8c520", "#5a2d82"}, {"#b02020", "#2d7a3a"}, {"#2040a0", "#e07818"}}) {
        const auto m =
            carded({"two colours", {{"corriedale", one, 15}, {"corriedale", other, 15}}, "passes = 6\n"});
        CHECK(after(m, 3).look == Look::heathered);
        CHECK(after(m, 4).look == Look::heathered);
        CHECK(after(m, 6).look == Look::near_solid);
        CHECK(after(m, 5).strip_variation_de00 - after(m, 6).strip_variation_de00 < 0.1);
    }
}

TEST_CASE(
    "a base, then alternating pinches of two purples and a pale yellow: one pass, heathered with pale "
    "flecks") {
    const auto m = carded(
        {"pinches",
         {{"corriedale", "#3a1d52", 11.2}, {"corriedale", "#9a7fc0", 11.2}, {"corriedale", "#efe3a0", 5.6}},
         "carder = \"table-small\"\npasses = 1\nfeed = \"alternating\"\n"});
    CHECK(after(m, 1).look == Look::heathered);
    CHECK(after(m, 1).fleck == carding::Fleck::salt_and_pepper);
}

TEST_CASE("too bright a yellow with white, in alternating layers: an even softened yellow at three or four") {
    const auto m = carded({"yellow",
                           {{"corriedale", "#f2d400", 28}, {"corriedale", "#f3efe4", 8.5}},
                           "passes = 4\nfeed = \"alternating\"\n"});
    CHECK(after(m, 3).look == Look::near_solid);
}

TEST_CASE("silk added on the second pass: at three still not incorporated, several more wanted") {
    const auto m = carded(
        {"silk late", {{"merino-medium", "#5a2d82", 40}, {"tussah-silk", "#e07aa0", 10, 2}}, "passes = 5\n"});
    CHECK(after(m, 3).look < Look::near_solid);
    CHECK(after(m, 4).look < Look::near_solid);
}

TEST_CASE(
    "yellow, blue and purple fed in chunks: the maker wanted 12 to 15 passes, the forecast says fewer") {
    // Contradicts: near solid is forecast from the fifth pass on. What she saw close up, colours still
    // visible, is told as salt and pepper.
    const auto m =
        carded({"chunks",
                {{"corriedale", "#e8c520", 10}, {"corriedale", "#2040a0", 10}, {"corriedale", "#5a2d82", 10}},
                "passes = 15\nfeed = \"dabs\"\n"});
    CHECK(after(m, 1).look == Look::striped);
    CHECK(after(m, 4).look < Look::near_solid);
    CHECK(after(m, 15).fleck == carding::Fleck::salt_and_pepper);
}

TEST_CASE("specks of waste in a batt: tweedy, never near solid") {
    const auto m =
        carded({"waste", {{"corriedale", "#8a8a86", 40}, {"wool-neps", "#b4552a", 4}}, "passes = 3\n"});
    CHECK(carding::described(after(m, 3)).find("tweedy") == 0);
    CHECK(carding::described(after(m, 3)).find("near solid") == std::string::npos);
}

TEST_CASE("very short alpaca stays in the licker-in: no step spreads it on the tray") {
    Described batt{"short", {{"alpaca", black, 10}, {"corriedale", white, 20}}, "passes = 3\n"};
    auto f = forecast_of(batt);
    auto recipe = f.recipe;
    recipe.components[0].staple = measure::Length{20.0, measure::LengthUnit::millimetre};
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    f = *forecast::forecast(recipe, bench);
    bool found = false;
    for (const auto& finding : f.findings) found = found || finding.code == "licker-in";
    CHECK(found);
    for (const auto& step : f.plan.steps) {
        if (step.kind != carding::StepKind::feed || step.component != 0) continue;
        CHECK(step.text.find("on the tray") == std::string::npos);
        CHECK(step.text.find("onto the drum") != std::string::npos);
    }
}

TEST_CASE("three stripes edge to edge come off as three batts; laid over half of each other they hold") {
    Described batt{
        "stripes",
        {{"corriedale", "#22324f", 19}, {"corriedale", "#7d6a86", 19}, {"corriedale", "#e4a77a", 19}},
        "passes = 1\nfeed = \"stripes\"\noverlap = \"0 %\"\n"};
    const auto has = [](const forecast::Forecast& f, const char* code) {
        for (const auto& finding : f.findings)
            if (finding.code == code) return true;
        return false;
    };
    CHECK(has(forecast_of(batt), "stripes-apart"));
    batt.carding = "passes = 1\nfeed = \"stripes\"\n";
    CHECK_FALSE(has(forecast_of(batt), "stripes-apart"));
    CHECK_FALSE(has(forecast_of(batt), "stripes-lost"));
    batt.carding = "passes = 2\nfeed = \"stripes\"\n";
    CHECK(has(forecast_of(batt), "stripes-lost"));
    batt.carding = "passes = 2\nfeed = \"stripes\"\nrefeed = \"own-places\"\n";
    CHECK_FALSE(has(forecast_of(batt), "stripes-lost"));
}

TEST_CASE("four colours in layers, strips turned on edge: even stripes that hold together") {
    const auto m = carded({"on edge",
                           {{"corriedale", "#5a2d82", 15},
                            {"corriedale", "#888888", 15},
                            {"corriedale", "#b02020", 15},
                            {"corriedale", white, 15}},
                           "passes = 2\nrefeed = \"on-edge\"\n"});
    CHECK(after(m, 2).look == Look::striped);
}

TEST_CASE("recycled cotton loses more after eight passes than after one, and fibre grows shorter") {
    Described batt{"cotton", {{"corriedale", white, 30}, {"recycled-cotton", "#30508a", 20}}, "passes = 1\n"};
    const auto once = forecast_of(batt);
    batt.carding = "passes = 8\n";
    const auto often = forecast_of(batt);
    CHECK(often.wear.kept_share < once.wear.kept_share - 0.02);
    CHECK(often.wear.length_share < once.wear.length_share);
    CHECK(once.wear.length_share > 0.9);
}
