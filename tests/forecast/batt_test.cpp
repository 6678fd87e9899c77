// Carding as the forecast tells it: the recipe's passes on the recipe's carder.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <random>
#include <string>

#include "forecast/batt.hpp"
#include "place.hpp"
#include "recipe/file.hpp"

using namespace battwright;

namespace {

const std::filesystem::path blends = std::filesystem::path(battwright::testing::source_dir()) / "blends";

forecast::Forecast example(const char* name) {
    const auto& catalogue = fibre::Catalogue::builtin();
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    const auto recipe = recipe::read_file(blends / name, catalogue);
    REQUIRE(recipe.has_value());
    auto forecast = forecast::forecast(*recipe, bench);
    REQUIRE(forecast.has_value());
    return *forecast;
}

}  // namespace

TEST_CASE("each pass mixes further: streaky, then heathered or nearer to solid") {
    const auto batt = forecast::batt_of(example("harbour-heather.toml"));
    REQUIRE(batt.measures.size() == 3);
    for (std::size_t i = 1; i < batt.measures.size(); ++i) {
        CHECK(batt.measures[i].intensity < batt.measures[i - 1].intensity);
        CHECK(batt.measures[i].strip_variation_de00 < batt.measures[i - 1].strip_variation_de00);
        CHECK(batt.measures[i].ibi < batt.measures[i - 1].ibi);
        CHECK(batt.measures[i].ibi >= 1.0);  // 1 is a random blend (Coplan & Klein 1955)
        CHECK(batt.measures[i].look >= batt.measures[i - 1].look);
    }
    // Common practice, no source: one pass leaves stripes or streaks, three make a heather or more.
    CHECK(batt.measures.front().look <= carding::Look::streaky);
    CHECK(batt.measures.back().look >= carding::Look::heathered);
}

TEST_CASE("the same forecast gives the same batt on one thread and on four") {
    const auto forecast = example("kelp-and-brass.toml");
    const auto one = forecast::batt_of(forecast, {2, true, 1});
    const auto four = forecast::batt_of(forecast, {2, true, 4});
    REQUIRE(one.passes.size() == 2);
    CHECK(one.passes.back().field.shares == four.passes.back().field.shares);
    CHECK(one.measures.back().strip_variation_de00 == four.measures.back().strip_variation_de00);
}

TEST_CASE("passes_for names the first pass at which the simulated batt has that look") {
    const auto forecast = example("harbour-heather.toml");
    const auto wanted = forecast::passes_for(forecast, carding::Look::heathered);
    REQUIRE(wanted.passes.has_value());
    const auto batt = forecast::batt_of(forecast, {*wanted.passes, true, 0});
    CHECK(batt.measures.back().look >= carding::Look::heathered);
    if (*wanted.passes > 1)
        CHECK(batt.measures[static_cast<std::size_t>(*wanted.passes) - 2].look < carding::Look::heathered);
}

TEST_CASE("what is weighed out over the batts is the recipe, on the scale's step") {
    const auto f = example("kelp-and-brass.toml");
    CHECK(f.weigh_out.batts == 2);  // 70 g on a drum that holds 60 g
    double all = 0.0;
    for (std::size_t b = 0; b < f.weigh_out.batts; ++b)
        for (std::size_t i = 0; i < f.components.size(); ++i) all += f.weigh_out.at(b, i);
    CHECK(all == doctest::Approx(f.total_grams));
}

TEST_CASE("the yarn weighs less than the batt and its length follows from its tex") {
    const auto f = example("harbour-heather.toml");
    CHECK(f.yarn.yarn_grams < f.total_grams);
    CHECK(f.yarn.yarn_grams > 0.8 * f.total_grams);
    CHECK(f.yarn.length_m == doctest::Approx(1000.0 * f.yarn.yarn_grams / f.yarn.tex));  // ISO 1144
    CHECK(f.yarn.length_low_m < f.yarn.length_m);
    CHECK(f.yarn.length_m < f.yarn.length_high_m);
}

TEST_CASE("any recipe can be carded in any way: mass is kept and no share is negative") {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto& kinds = catalogue.kinds();
    for (unsigned seed = 501; seed <= 530; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto up_to = [&](int most) { return std::uniform_int_distribution<int>(0, most)(random); };
        recipe::Recipe recipe;
        recipe.name = "random";
        recipe.carding.passes = 1 + up_to(3);
        recipe.carding.strips = 1 + up_to(7);
        recipe.carding.feed = static_cast<recipe::Manner>(up_to(recipe::manner_count - 1));
        recipe.carding.refeed = static_cast<recipe::Refeed>(up_to(recipe::refeed_count - 1));
        const int count = 1 + up_to(5);
        for (int i = 0; i < count; ++i) {
            recipe::Component component;
            component.name = "lot " + std::to_string(i);
            component.content = {
                {kinds[static_cast<std::size_t>(up_to(static_cast<int>(kinds.size()) - 1))].id, 100.0}};
            component.amount = measure::Mass{1.0 + up_to(40), measure::MassUnit::gram};
            component.add_on_pass = up_to(1) == 0 ? 1 : recipe::last_pass;
            recipe.components.push_back(component);
        }
        forecast::Bench bench;
        bench.catalogue = &catalogue;
        const auto f = forecast::forecast(recipe, bench);
        REQUIRE_MESSAGE(f.has_value(), measure::to_line(f.error()));
        const auto batt = forecast::batt_of(*f, {0, true, 0});
        REQUIRE_FALSE(batt.passes.empty());
        const auto& field = batt.passes.back().field;
        double total = 0.0;
        for (const auto& portion : batt.portions) total += portion.grams;
        for (std::size_t p = 0; p < batt.portions.size(); ++p)
            CHECK(carding::mean_share(field, p) ==
                  doctest::Approx(batt.portions[p].grams / total).epsilon(1e-9));
        CHECK(*std::min_element(field.shares.begin(), field.shares.end()) >= 0.0);
    }
}

TEST_CASE("what the passes lose is not in the batt after the last one: by each portion's own short fibre") {
    // The balance of mass: what is left over all portions is the share the forecast keeps.
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto recipe = recipe::read_text(
        "format = 1\n[[component]]\nfibre = \"corriedale\"\ncolour = \"#efe9dc\"\nweight = \"30 "
        "g\"\n[[component]]\nfibre = \"recycled-cotton\"\ncolour = \"#30508a\"\nweight = \"20 "
        "g\"\n[carding]\npasses = 5\n",
        "lost.toml", catalogue);
    REQUIRE(recipe.has_value());
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    const auto made = forecast::forecast(*recipe, bench);
    REQUIRE(made.has_value());
    const auto batt = forecast::batt_of(*made);
    double left = 0.0;
    for (const auto& portion : batt.portions) left += portion.grams;
    CHECK(left / 50.0 == doctest::Approx(made->wear.kept_share).epsilon(1e-9));
    const auto& field = batt.passes.back().field;
    CHECK(carding::mean_share(field, 1) == doctest::Approx(batt.portions[1].grams / left).epsilon(1e-9));
    CHECK(carding::mean_share(field, 1) < 0.4 - 0.01);
}
