// The plan at the carder, from the example recipes and from recipes made for the purpose.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "carding/plan.hpp"
#include "carding/simulate.hpp"
#include "place.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using namespace battwright::carding;

namespace {

struct Batt {
    recipe::Recipe recipe;
    std::vector<recipe::Strand> strands;
    recipe::Carder carder;
};

Batt batt_from(const recipe::Recipe& recipe) {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto masses = recipe::masses_of(recipe);
    REQUIRE(masses.has_value());
    const recipe::Carder* preset = recipe::find_carder(recipe.carding.carder);
    return {recipe, recipe::strands_of(recipe, *masses, catalogue),
            recipe.carding.own ? *recipe.carding.own : *preset};
}

Batt example(const std::string& name) {
    const auto path = std::filesystem::path(battwright::testing::source_dir()) / "blends" / (name + ".toml");
    const auto recipe = recipe::read_file(path, fibre::Catalogue::builtin());
    REQUIRE(recipe.has_value());
    return batt_from(*recipe);
}

Plan plan_for(const Batt& batt, const Feed& feed = {}, std::size_t batts = 1) {
    return plan_of(batt.recipe, batt.strands, batt.carder, feed, batts);
}

double fed(const Plan& plan, std::size_t component) {
    double sum = 0.0;
    for (const Step& step : plan.steps)
        sum += step.kind == StepKind::feed && step.component == component ? step.grams : 0.0;
    return sum;
}

bool has(const Plan& plan, const std::string& code) {
    return std::any_of(plan.cautions.begin(), plan.cautions.end(),
                       [&](const Caution& caution) { return caution.code == code; });
}

}  // namespace

TEST_CASE("every example: all the fibre is fed, steps are in order, times add up") {
    const auto folder = std::filesystem::path(battwright::testing::source_dir()) / "blends";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const Batt batt = example(entry.path().stem().string());
        CAPTURE(entry.path());
        const auto masses = recipe::masses_of(batt.recipe);
        for (int manner = 0; manner < recipe::manner_count; ++manner) {
            for (int refeed = 0; refeed < recipe::refeed_count; ++refeed) {
                const Plan plan =
                    plan_for(batt, {static_cast<Manner>(manner), static_cast<Refeed>(refeed)}, 2);
                double minutes = 0.0;
                for (std::size_t i = 0; i < plan.steps.size(); ++i) {
                    const Step& step = plan.steps[i];
                    CHECK(step.order == static_cast<int>(i) + 1);
                    CHECK((i == 0 || step.pass >= plan.steps[i - 1].pass));
                    CHECK(step.width_to_mm <= batt.carder.width_mm * (1.0 + 1e-9));
                    CHECK_FALSE(step.text.empty());
                    minutes += step.minutes;
                }
                CHECK(plan.minutes_per_batt == doctest::Approx(minutes));
                CHECK(plan.minutes_total == doctest::Approx(2.0 * minutes));
                for (std::size_t c = 0; c < masses->grams.size(); ++c)
                    CHECK(fed(plan, c) == doctest::Approx(masses->grams[c] / 2.0));
                CHECK(has(plan, "teeth"));
            }
        }
    }
}

TEST_CASE("slick fibre goes between grippy layers, neps go in last between the pieces") {
    const Batt silk = example("kelp-and-brass");  // wool, silk in two colours, wool
    const Plan plan = plan_for(silk);
    std::vector<const Step*> first;
    for (const Step& step : plan.steps) {
        if (step.kind == StepKind::feed && step.pass == 1) first.push_back(&step);
    }
    REQUIRE(first.size() >= 3);
    CHECK(first.front()->manner == FeedManner::layer);
    CHECK(first.front()->component != 1);
    CHECK(first.back()->component != 1);
    CHECK(has(plan, "slick"));

    const Plan speckled = plan_for(example("gull-speckle"));
    const auto nep = std::find_if(speckled.steps.begin(), speckled.steps.end(),
                                  [](const Step& s) { return s.kind == StepKind::feed && s.component == 1; });
    REQUIRE(nep != speckled.steps.end());
    CHECK(nep->pass == speckled.passes);
    CHECK(nep->manner == FeedManner::sandwiched);
    CHECK((nep - 1)->kind == StepKind::feed_again);
    CHECK(std::find_if(nep, speckled.steps.end(),
                       [](const Step& s) { return s.kind == StepKind::feed_again; }) != speckled.steps.end());
    CHECK(has(speckled, "lumps"));
    CHECK(has(plan_for(example("phosphor-wake")), "dust"));
}

TEST_CASE("slick fibre at the ends: moved in, or closed in with half of the grippy") {
    std::vector<Portion> portions(3);
    for (auto& portion : portions) portion.grams = 10.0;
    portions[0].slipperiness = portions[2].slipperiness = 0.9;
    const auto moved = first_lays(portions, Manner::layers);
    REQUIRE(moved.size() == 4);
    CHECK(moved.front().portion == 1);
    CHECK(moved.back().portion == 1);
    CHECK(moved.front().grams + moved.back().grams == 10.0);
    portions[2].slipperiness = 0.1;
    const auto three = first_lays(portions, Manner::layers);
    REQUIRE(three.size() == 3);
    CHECK(three[0].portion == 1);
    CHECK(three[1].portion == 0);
    CHECK(three[2].portion == 2);
}

TEST_CASE("stripes: widths side by side by weight") {
    const Plan plan = plan_for(example("kelp-and-brass"), {Manner::stripes_across, Refeed::strips, 8, 0.0});
    double reached = 0.0;
    for (const Step& step : plan.steps) {
        if (step.kind != StepKind::feed) continue;
        CHECK(step.width_from_mm == doctest::Approx(reached));
        CHECK((step.width_to_mm - step.width_from_mm) / 200.0 ==
              doctest::Approx(step.grams / plan.batt_grams));
        reached = step.width_to_mm;
    }
    CHECK(reached == doctest::Approx(200.0));
}

TEST_CASE("finer fibre is fed thinner and takes longer; an over-full drum is said") {
    const Batt silk = example("kelp-and-brass");
    CHECK(has(plan_for(silk), "over-full"));  // 70 g on a drum that takes 60
    CHECK_FALSE(has(plan_for(silk, {}, 2), "over-full"));
    const Plan coarse = plan_for(example("gull-speckle"));
    for (const Step& step : coarse.steps) {
        if (step.kind == StepKind::feed && step.component == 0) CHECK(step.thickness == FeedThickness::plain);
    }
}

TEST_CASE("portions: a component's colours apart, every strand once") {
    const Batt silk = example("kelp-and-brass");
    const auto portions = portions_of(silk.recipe, silk.strands);
    CHECK(portions.size() == 4);
    std::vector<std::size_t> seen;
    double grams = 0.0;
    for (const Portion& portion : portions) {
        seen.insert(seen.end(), portion.strands.begin(), portion.strands.end());
        grams += portion.grams;
    }
    std::sort(seen.begin(), seen.end());
    CHECK(seen.size() == silk.strands.size());
    CHECK(std::adjacent_find(seen.begin(), seen.end()) == seen.end());
    CHECK(grams == doctest::Approx(70.0));
    // A place that is all the silk's first colour and its wool neighbour, half and half.
    const std::vector<double> half{0.5, 0.5, 0.0, 0.0};
    const auto shares = strand_shares(portions, silk.strands, half);
    double sum = 0.0;
    for (const double share : shares) sum += share;
    CHECK(sum == doctest::Approx(1.0));
    CHECK(shares[portions[0].strands.front()] == doctest::Approx(0.5));
    CHECK(shares[portions[3].strands.front()] == 0.0);
}

TEST_CASE("words go out and come back") {
    for (int i = 0; i < recipe::manner_count; ++i)
        CHECK(recipe::parse_manner(word_for(static_cast<Manner>(i))) == static_cast<Manner>(i));
    for (int i = 0; i < recipe::refeed_count; ++i)
        CHECK(recipe::parse_refeed(word_for(static_cast<Refeed>(i))) == static_cast<Refeed>(i));
    CHECK(recipe::parse_manner("strips").error().mend.find("stripes") != std::string::npos);
    CHECK_FALSE(recipe::parse_refeed("").has_value());
}
