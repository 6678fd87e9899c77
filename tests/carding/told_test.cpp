// What a maker is told, step by step, of small recipes whose steps anyone can say beforehand.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "batt_of_text.hpp"
#include "carding/layings.hpp"

using namespace battwright;
using namespace battwright::carding;
using namespace battwright::testing::carded;
using doctest::Approx;

namespace {

std::string two_wools(double first, double second) {
    return wool(first, 80.0, 28.0) + wool(second, 80.0, 34.0, "romney");
}

// All steps of a kind, one after another.
std::vector<Step> steps_of(const Plan& plan, StepKind kind) {
    std::vector<Step> steps;
    for (const Step& step : plan.steps)
        if (step.kind == kind) steps.push_back(step);
    return steps;
}

bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

std::string finding(const std::string& code, const std::string& text) {
    const Laid batt = laid(text);
    for (const auto& found : feeding_findings(batt.recipe, batt.strands, batt.carder, batt.grams))
        if (found.code == code) return found.text;
    return "";
}

}  // namespace

TEST_CASE("a manner written out as a list lays the same fibre in the same places") {
    for (const recipe::MannerRow& row : recipe::manners) {
        CAPTURE(row.word);
        // Slick fibre at an end goes between two halves of a grippy one: a laying of a part.
        const Laid batt = laid(
            wool(20.0, 80.0, 28.0) + wool(20.0, 80.0, 34.0, "romney") +
            "[[component]]\nfibre = \"tussah-silk\"\nweight = \"20 g\"\n[carding]\npasses = 1\nfeed = \"" +
            std::string(row.word) + "\"\n");
        const auto portions = portions_of(batt.recipe, batt.strands);
        const auto meant = lays_of(portions, feed_of(batt.recipe.carding));
        const recipe::Recipe written = written_out(batt.recipe, batt.strands);
        REQUIRE_FALSE(written.carding.layings.empty());
        const auto found = layings_of(written, batt.strands, portions, batt.carder).lays;
        REQUIRE(found.size() == meant.size());
        for (std::size_t i = 0; i < meant.size(); ++i) {
            CAPTURE(i);
            CHECK(found[i].portion == meant[i].portion);
            CHECK(found[i].grams == Approx(meant[i].grams));
            CHECK(found[i].on_drum == meant[i].on_drum);
            for (const auto span : {&Lay::across, &Lay::round}) {
                CHECK((found[i].*span).from == Approx((meant[i].*span).from));
                CHECK((found[i].*span).to == Approx((meant[i].*span).to));
                CHECK((found[i].*span).soft == Approx((meant[i].*span).soft));
            }
        }
    }
}

TEST_CASE(
    "stripes laid over a quarter of a neighbour: an eighth of a stripe beyond the border, on both sides") {
    const Plan plan = plan_for(
        laid(two_wools(20.0, 20.0) + "[carding]\nfeed = \"stripes\"\npasses = 1\noverlap = \"25 %\"\n"));
    const auto fed = steps_of(plan, StepKind::feed);
    REQUIRE(fed.size() == 2);
    // The drum is 200 mm wide, a stripe 100 mm, its overlap 25 mm: from 12.5 mm before the border on.
    CHECK(fed[0].width_to_mm == Approx(112.5));
    CHECK(fed[1].width_from_mm == Approx(87.5));
}

TEST_CASE("a place round the drum is told in per cent of the way") {
    const Plan halves =
        plan_for(laid(two_wools(20.0, 20.0) + "[carding]\nfeed = \"gradient-round\"\npasses = 1\n"));
    const auto fed = steps_of(halves, StepKind::feed);
    REQUIRE(fed.size() == 2);
    CHECK(says(fed[0].text, "between 0 % and 50 % of the way round"));
    CHECK(says(fed[1].text, "between 50 % and 100 % of the way round"));
    const Plan by_hand = plan_for(
        laid(two_wools(20.0, 4.0) + "[carding]\npasses = 1\nlay = [ { what = \"corriedale\" }, { what = "
                                    "\"romney\", way = \"onto the drum\", round = \"first quarter\" } ]\n"));
    CHECK(says(steps_of(by_hand, StepKind::feed).back().text, "between 0 % and 25 % of the way round"));
}

TEST_CASE("two wools laid turn about, twice: two parts of each, in turn") {
    const std::string each =
        "{ what = \"corriedale\", weight = \"10 g\" }, { what = \"romney\", weight = \"5 g\" }";
    const Plan plan = plan_for(
        laid(two_wools(20.0, 10.0) + "[carding]\npasses = 1\nlay = [ " + each + ", " + each + " ]\n"));
    const auto fed = steps_of(plan, StepKind::feed);
    REQUIRE(fed.size() == 2);
    CHECK(fed[0].grams == Approx(20.0));
    for (const Step& step : fed) CHECK(says(step.text, "in 2 parts in turn with"));
}

TEST_CASE("what is laid when the batt goes back the first time says where: under, between or over it") {
    const auto later = [](const char* lies) {
        const Plan plan = plan_for(laid(two_wools(30.0, 5.0) +
                                        "[carding]\npasses = 2\nlay = [ { what = \"corriedale\" }, { what = "
                                        "\"romney\", pass = 2, lies = \"" +
                                        lies + "\" } ]\n"));
        return steps_of(plan, StepKind::feed).back().text;
    };
    CHECK(says(later("under"), "on the bare drum before the batt goes back"));
    CHECK(says(later("over"), "on top of the batt when all of it is in"));
    CHECK_FALSE(says(later("between"), "the batt"));
}

TEST_CASE("what comes late between two halves that lie on one another goes in when half of the stack is in") {
    const Plan plan = plan_for(
        laid(two_wools(30.0, 5.0) + "add_on_pass = 2\n[carding]\npasses = 2\nrefeed = \"halves\"\n"));
    const auto again = steps_of(plan, StepKind::feed_again);
    REQUIRE(again.size() == 2);
    CHECK(again[0].grams == Approx(15.0));
    CHECK(again[1].grams == Approx(15.0));
    CHECK(says(again[0].text, "stop when half of it is in"));
    CHECK(says(again[1].text, "the rest"));
}

TEST_CASE("on a board what comes on the second pass is laid then, when half of the batt is back") {
    const Plan plan = plan_for(
        laid(two_wools(20.0, 5.0) + "add_on_pass = 2\n[carding]\ncarder = \"blending-board\"\npasses = 2\n"));
    const auto fed = steps_of(plan, StepKind::feed);
    REQUIRE(fed.size() == 2);
    CHECK(fed[0].pass == 1);
    CHECK_FALSE(says(fed[0].text, "back"));
    CHECK(fed[1].pass == 2);
    CHECK(fed[1].grams == Approx(5.0));
    CHECK(says(fed[1].text, "when half of it is back"));
}

TEST_CASE("places that the second pass takes away, on a drum and on a board") {
    const auto sides = [](const char* carding) {
        return two_wools(20.0, 20.0) + "[carding]\npasses = 2\n" + carding +
               "lay = [ { what = \"corriedale\", across = \"left half\", overlap = \"20 mm\" }, { what = "
               "\"romney\", across = \"right half\", overlap = \"20 mm\" } ]\n";
    };
    CHECK(says(finding("places-lost", sides("")), "loses it on pass 2"));
    CHECK(finding("places-lost", sides("refeed = \"own-places\"\n")).empty());
    CHECK(says(finding("places-lost", sides("carder = \"blending-board\"\nrefeed = \"quarter-turn\"\n")),
               "loses it on pass 2"));
    CHECK(finding("places-lost", sides("carder = \"blending-board\"\nrefeed = \"own-places\"\n")).empty());
}

TEST_CASE("two wools laid edge to edge by hand come off as two batts") {
    const auto sides = [](const char* right) {
        return two_wools(20.0, 20.0) +
               "[carding]\npasses = 1\nlay = [ { what = \"corriedale\", across = \"0-100 mm\" }, { what = "
               "\"romney\", across = \"" +
               right + "\" } ]\n";
    };
    CHECK(says(finding("stripes-apart", sides("100-200 mm")), "2 narrow batts"));
    CHECK(finding("stripes-apart", sides("80-200 mm")).empty());
}

TEST_CASE("stripes are lost by the way back of the second pass, whatever the third's") {
    const auto stripes = [](const char* refeed) {
        return two_wools(20.0, 20.0) + "[carding]\nfeed = \"stripes\"\npasses = 3\nrefeed = " + refeed + "\n";
    };
    CHECK(says(finding("stripes-lost", stripes("[\"halves\", \"own-places\"]")), "goes back half on half"));
    CHECK(finding("stripes-lost", stripes("[\"own-places\", \"halves\"]")).empty());
}

TEST_CASE("the licker-in's share is told in per cent: an eighth of an inch-long down") {
    CHECK(says(finding("licker-in", wool(20.0, 25.4, 16.0, "cashmere") + wool(40.0, 80.0, 28.0)),
               "about 13 % stays there"));
}
