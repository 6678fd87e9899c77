// Series and samples.
#include "forecast/series.hpp"

#include <doctest/doctest.h>

#include <numeric>
#include <regex>

#include "forecast/sample.hpp"
#include "recipe/file.hpp"

using namespace battwright;

namespace {

recipe::Recipe stepping(const std::string& more) {
    const std::string text =
        "format = 1\nname = \"Ebb to Flood\"\ntotal = \"50 g\"\n"
        "[[component]]\nname = \"night\"\nfibre = \"corriedale\"\ncolour = \"#22324f\"\nshare = \"80 %\"\n"
        "[[component]]\nname = \"foam\"\nfibre = \"corriedale\"\ncolour = \"#efe9dc\"\nshare = \"15 %\"\n"
        "[[component]]\nname = \"specks\"\nfibre = \"wool-neps\"\ncolour = \"#b4552a\"\nshare = \"5 "
        "%\"\nadd_on_pass = "
        "\"last\"\n";
    const auto recipe = recipe::read_text(text + more, "series.toml", fibre::Catalogue::builtin());
    REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
    return *recipe;
}

forecast::Bench bench_of() {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    return bench;
}

const char* const to_foam =
    "[series]\nbatts = 5\neach = \"20 g\"\nto = [ { what = \"foam\", share = \"95 %\" }, { what = "
    "\"specks\", share = \"5 "
    "%\" } ]\n";

}  // namespace

TEST_CASE("a series steps evenly by weight, each batt whole on the scale") {
    const auto f = *forecast::forecast(stepping(to_foam), bench_of());
    const auto plan = forecast::series_of(f, 0.1);
    REQUIRE(plan.has_value());
    REQUIRE(plan->batts.size() == 5);
    // 80 % of 20 g down to none in four steps: 16, 12, 8, 4, 0.
    const double night[] = {16.0, 12.0, 8.0, 4.0, 0.0};
    for (std::size_t i = 0; i < 5; ++i) {
        CAPTURE(i);
        const auto& grams = plan->batts[i].grams;
        CHECK(grams[0] == doctest::Approx(night[i]));
        CHECK(grams[2] == doctest::Approx(1.0));
        CHECK(std::accumulate(grams.begin(), grams.end(), 0.0) == doctest::Approx(20.0));
    }
    CHECK(plan->grams[0] == doctest::Approx(40.0));
    CHECK(plan->total_grams == doctest::Approx(100.0));
    // Dark fibre holds a blend down: by weight the last step is the widest to the eye.
    CHECK(plan->batts[4].step_de00 > 2.0 * plan->batts[1].step_de00);
}

TEST_CASE("a series by eye has steps alike in CIEDE2000") {
    const auto recipe = stepping(std::string(to_foam) + "steps = \"by eye\"\n");
    const auto f = *forecast::forecast(recipe, bench_of());
    const auto plan = *forecast::series_of(f, 0.01);
    double least = 1e9, most = 0.0;
    for (std::size_t i = 1; i < plan.batts.size(); ++i) {
        least = std::min(least, plan.batts[i].step_de00);
        most = std::max(most, plan.batts[i].step_de00);
    }
    CHECK(most < 1.25 * least);  // straight between neighbours is shorter than along the way of colours
    const auto again = recipe::read_text(recipe::write_text(recipe), "again", fibre::Catalogue::builtin());
    REQUIRE(again.has_value());
    CHECK(again->series == recipe.series);
    CHECK_FALSE(forecast::series_of(*forecast::forecast(stepping(""), bench_of()), 0.1).has_value());
}

TEST_CASE("a sample is as thick on a strip of the drum, and no smaller than what it must hold") {
    const auto f = *forecast::forecast(stepping("[carding]\npasses = 3\n"), bench_of());
    const auto sample = *forecast::sample_of(f, bench_of());
    CHECK(sample.grams < 0.5 * f.total_grams);
    CHECK(sample.width_mm >= 40.0);
    // The same load on the same area, to the scale's steps.
    CHECK(sample.grams / sample.width_mm ==
          doctest::Approx(f.total_grams / f.carder.width_mm).epsilon(0.02).scale(0.0));
    CHECK(sample.colour_off_de00 <= 0.5);
    CHECK(recipe::check(sample.recipe, fibre::Catalogue::builtin()).has_value());
    REQUIRE(sample.passes.size() == 3);
    for (const auto& pass : sample.passes)
        MESSAGE("pass " << pass.number << ": sample " << pass.sample_de00 << ", whole " << pass.whole_de00);
    CHECK(sample.passes[2].sample_de00 ==
          doctest::Approx(sample.passes[2].whole_de00).epsilon(0.35).scale(0.0));
    CHECK_FALSE(sample.differs.empty());
    const auto card = forecast::sample_card(f, sample);
    CHECK(card.find("What came of it") != std::string::npos);
    CHECK(card.find("night") != std::string::npos);

    // A coarse scale makes it larger: 3 steps of 1 g of a component that is 5 %.
    auto coarse = bench_of();
    coarse.scale_step_grams = 0.5;
    const auto larger = *forecast::sample_of(f, coarse);
    CHECK(larger.grams > sample.grams);
    CHECK(larger.component_grams[2] >= 1.5);
    CHECK(larger.set_by.find("scale") != std::string::npos);
}

TEST_CASE("a laid recipe's sample is laid in the same places of its strip") {
    const auto recipe = stepping(
        "[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"night\"\n[[carding.lay]]\nwhat = \"specks\"\n"
        "[[carding.lay]]\nwhat = \"foam\"\nacross = \"150-200 mm\"\n");
    const auto f = *forecast::forecast(recipe, bench_of());
    const auto sample = *forecast::sample_of(f, bench_of());
    const auto& across = sample.recipe.carding.layings[2].across;
    CHECK_FALSE(across.unit.has_value());
    CHECK(across.from == doctest::Approx(75.0));
    CHECK(across.to == doctest::Approx(100.0));
    CHECK(recipe::check(sample.recipe, fibre::Catalogue::builtin()).has_value());
}

TEST_CASE("a sample's fade round the drum stays as long as it is") {
    const auto recipe = stepping(
        "[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"night\"\n[[carding.lay]]\nwhat = \"specks\"\n"
        "[[carding.lay]]\nwhat = \"foam\"\nround = \"first half\"\nfade = \"250 mm\"\n");
    const auto f = *forecast::forecast(recipe, bench_of());
    const auto sample = *forecast::sample_of(f, bench_of());
    REQUIRE(sample.width_mm < f.carder.width_mm);
    const auto& fade = sample.recipe.carding.layings[2].fade;
    REQUIRE(fade.has_value());
    const double round_mm = f.carder.drum_circumference_mm;
    CHECK(fade->share_of(round_mm) * round_mm == doctest::Approx(250.0));
    CHECK(recipe::check(sample.recipe, fibre::Catalogue::builtin()).has_value());
}

TEST_CASE("a sample's card keeps to ounces and inches, steps and all") {
    const auto recipe = stepping(
        "[carding]\npasses = 2\n[[carding.lay]]\nwhat = \"night\"\n[[carding.lay]]\nwhat = \"specks\"\n"
        "[[carding.lay]]\nwhat = \"foam\"\nacross = \"150-200 mm\"\n");
    const auto f = *forecast::forecast(recipe, bench_of());
    auto sample = *forecast::sample_of(f, bench_of());
    REQUIRE_FALSE(sample.steps.empty());
    const std::regex metric("[0-9] (mm|g)\\b"), inches("[0-9] in to [0-9.]+ in across"),
        ounces("[0-9] oz\\b");
    const auto plain = forecast::sample_card(f, sample);
    for (const auto& step : sample.steps) CHECK(plain.find(step.text) != std::string::npos);
    CHECK_FALSE(std::regex_search(plain, inches));
    CHECK_FALSE(std::regex_search(plain, ounces));
    // Whatever keeps it from being smaller: also the strip, of so many millimetres.
    for (const std::string& set_by :
         {sample.set_by_with_quantities, std::string("the strip, {mm 40} wide")}) {
        sample.set_by_with_quantities = set_by;
        const auto card =
            forecast::sample_card(f, sample, measure::MassUnit::ounce, measure::LengthUnit::inch);
        CAPTURE(card);
        CHECK_FALSE(std::regex_search(card, metric));
        CHECK(std::regex_search(card, inches));
        CHECK(std::regex_search(card, ounces));
    }
}
