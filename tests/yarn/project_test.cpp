// What a project takes, and whether the batt gives it. The table is common practice, no source.
#include "yarn/project.hpp"

#include <doctest/doctest.h>

#include <set>
#include <string>

#include "recipe/recipe.hpp"
#include "yarns.hpp"

using namespace yarns;
using doctest::Approx;
using yarn::Verdict;
using yarn::YarnForecast;

namespace {

const yarn::Project& hat() {
    return *yarn::project_named("hat", "adult");
}
YarnForecast skein(double low, double median, double high, double wpi = 9.0) {
    YarnForecast forecast;
    forecast.length_low_m = low;
    forecast.length_m = median;
    forecast.length_high_m = high;
    forecast.wpi = wpi;
    forecast.batt_grams = 50.0;
    return forecast;
}

}  // namespace

TEST_CASE("the table names every thing asked for, each size once, ranges the right way round") {
    std::set<std::string> things, rows;
    for (const yarn::Project& project : yarn::projects()) {
        things.insert(std::string(project.thing));
        CHECK(rows.insert(std::string(project.thing) + "/" + std::string(project.size)).second);
        CHECK(project.low_m > 0.0);
        CHECK(project.high_m > project.low_m);
        CHECK(yarn::project_named(project.thing, project.size) == &project);
    }
    CHECK(things == std::set<std::string>{"hat", "cowl", "mitts", "socks", "scarf", "shawl", "child's jumper",
                                          "adult's jumper", "blanket"});
    CHECK(yarn::project_named("sail", "main") == nullptr);
    // A recipe is held to the same things and sizes.
    std::set<std::string> known;
    for (const std::string& thing : recipe::purpose_things())
        for (const std::string& size : recipe::purpose_sizes(thing)) known.insert(thing + "/" + size);
    CHECK(known == rows);
    CHECK(recipe::purpose_sizes("sail").empty());
}

TEST_CASE("finer yarn takes more metres, in proportion to the wraps") {
    const auto at_9 = yarn::need_of(hat(), 9.0), at_13 = yarn::need_of(hat(), 13.5);
    CHECK(at_9.low_m == Approx(hat().low_m));
    CHECK(at_13.high_m == Approx(1.5 * at_9.high_m));
    CHECK(yarn::need_of(hat(), *yarn::class_named("medium")).low_m == Approx(hat().low_m));
    CHECK(yarn::need_of(hat(), 20.0).low_m == Approx(hat().low_m * 20.0 / 9.0 * yarn::open_work));
}

TEST_CASE("trade figures for socks and a jumper overlap the table") {
    // Common practice, no source: a pair of adult's socks takes the usual 100 g of super fine sock yarn, that
    // is 350-420 m; an adult's jumper of medium yarn 1,000-1,200 m.
    const auto socks =
        yarn::need_of(*yarn::project_named("socks", "adult"), *yarn::class_named("super fine"));
    CHECK(socks.low_m < 350.0);
    CHECK(socks.high_m > 400.0);
    const auto jumper = yarn::need_of(*yarn::project_named("adult's jumper", "medium"), 9.0);
    CHECK(jumper.low_m < 1000.0);
    CHECK(jumper.high_m > 1200.0);
}

TEST_CASE("enough, likely, hardly, short: by the numbers") {
    // The hat takes 105 to 180 m, 142.5 in the middle.
    CHECK(yarn::enough_for(hat(), skein(185, 230, 290)).verdict == Verdict::enough);
    CHECK(yarn::enough_for(hat(), skein(120, 150, 190)).verdict == Verdict::likely);
    CHECK(yarn::enough_for(hat(), skein(90, 115, 145)).verdict == Verdict::hardly);
    CHECK(yarn::enough_for(hat(), skein(60, 75, 95)).verdict == Verdict::short_of);
    const auto enough = yarn::enough_for(hat(), skein(60, 75, 95));
    CHECK(enough.short_m == Approx(67.5));
    CHECK(enough.short_at_worst_m == Approx(120.0));
    CHECK(enough.more_grams == Approx(50.0 * 67.5 / 75.0));
    CHECK(enough.more_grams_to_be_sure == Approx(50.0 * 120.0 / 60.0));
    CHECK(yarn::enough_for(hat(), skein(185, 230, 290)).more_grams_to_be_sure == 0.0);
    CHECK(yarn::enough_for(hat(), YarnForecast{}).verdict == Verdict::short_of);
    CHECK(yarn::word_for(Verdict::hardly) == "hardly enough");
}

TEST_CASE("card so much, spin it, and it is enough") {
    for (const yarn::Project& project : yarn::projects()) {
        CAPTURE(project.thing);
        const YarnForecast here = spun(plan(of_class("light")), 100.0);
        const auto card = yarn::card_for(project, here);
        CHECK(card.frugal_grams < card.typical_grams);
        CHECK(card.typical_grams < card.sure_grams);
        const YarnForecast sure = spun(plan(of_class("light")), card.sure_grams * (1.0 + 1e-9));
        CHECK(yarn::enough_for(project, sure).verdict == Verdict::enough);
        CHECK(sure.length_low_m == Approx(yarn::need_of(project, here.wpi).high_m));
        const YarnForecast typical = spun(plan(of_class("light")), card.typical_grams * (1.0 + 1e-9));
        CHECK(yarn::enough_for(project, typical).verdict == Verdict::likely);
        // What is missing now is the difference to what the reverse asks for.
        const auto missing = yarn::enough_for(project, here);
        if (missing.more_grams > 0.0) CHECK(100.0 + missing.more_grams == Approx(card.typical_grams));
    }
    CHECK(yarn::card_for(hat(), YarnForecast{}).sure_grams == 0.0);
}
