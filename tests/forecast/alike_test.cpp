// How far apart batts of one recipe come out.
#include "forecast/alike.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "recipe/file.hpp"

using namespace battwright;

namespace {

forecast::Forecast of_batts(const std::string& carding, const char* grams = "120") {
    const std::string text =
        std::string("format = 1\nname = \"many\"\ntotal = \"") + grams +
        " g\"\n"
        "[[component]]\nname = \"night\"\nfibre = \"corriedale\"\ncolour = \"#22324f\"\nshare = \"70 %\"\n"
        "[[component]]\nname = \"foam\"\nfibre = \"corriedale\"\ncolour = \"#efe9dc\"\nshare = \"30 %\"\n"
        "[carding]\ncarder = \"table-small\"\n" +
        carding;
    const auto recipe = recipe::read_text(text, "many", fibre::Catalogue::builtin());
    REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    return *forecast::forecast(*recipe, bench);
}

constexpr forecast::Handling nothing{0.0, 0.0, 0.0, 0.0, 0.0};

}  // namespace

TEST_CASE("without any error batts are alike; one batt has no other") {
    const auto f = of_batts("passes = 2\n");
    REQUIRE(f.plan.batts > 2);
    const auto same = forecast::alike(f, nothing, nullptr);
    REQUIRE(same.has_value());
    CHECK(same->as_carded.typical_de00 < 1e-9);
    CHECK(same->recombined.farthest_de00 < 1e-9);
    CHECK_FALSE(forecast::alike(of_batts("passes = 2\n", "20"), {}, nullptr).has_value());
    const auto two = of_batts("passes = 2\n", "60");
    REQUIRE(two.plan.batts == 2);
    REQUIRE(forecast::alike(two, {}, nullptr).has_value());
    // Of two the two farthest are the two.
    const auto apart = forecast::alike(two, {}, nullptr)->as_carded;
    CHECK(apart.farthest_de00 == doctest::Approx(apart.typical_de00));
}

TEST_CASE("a scale's step strays the shares as a rectangular error does") {
    // var = step^2 / 12 a weight (JCGM 100:2008, 4.3.7); of p = a / (a + b): (q^2 + p^2) var / M^2.
    const auto f = of_batts("passes = 2\n");
    forecast::Handling scale = nothing;
    scale.scale_step_grams = 1.0;
    const auto a = forecast::alike(f, scale, nullptr);
    const double batt = f.total_grams / static_cast<double>(f.plan.batts);
    const double expected = 100.0 * std::sqrt((0.49 + 0.09) / 12.0) / batt;
    CHECK(a->as_carded.share_pct == doctest::Approx(expected).epsilon(0.1).scale(0.0));
    CHECK(a->by_handling_de00 < 1e-9);
    CHECK(a->by_scale_de00 == doctest::Approx(a->as_carded.typical_de00));
}

TEST_CASE("recombining N batts brings what strays down as the mean of N does") {
    // Equal strips: every second-pass batt is the mean of all first-pass ones, so nothing is left between
    // them. Strips of CV v: what is left has the variance of a weighted mean's weights, v^2 s^2 / N and less.
    const auto f = of_batts("passes = 2\nrecombine = true\n");
    forecast::Handling hands = nothing;
    hands.dropped_cv = 0.05;
    const auto equal = forecast::alike(f, hands, nullptr);
    CHECK(equal->as_carded.typical_de00 > 0.2);
    // Of p = a / (a + b), each with a CV of 5 %: p q sqrt(2) times that (JCGM 100:2008, 5.1.2).
    CHECK(equal->as_carded.share_pct ==
          doctest::Approx(100.0 * 0.7 * 0.3 * std::sqrt(2.0) * 0.05).epsilon(0.05).scale(0.0));
    CHECK(equal->recombined.typical_de00 < 1e-6);
    hands.pieces_cv = 0.2;
    const auto uneven = forecast::alike(f, hands, nullptr);
    const double batts = static_cast<double>(f.plan.batts);
    CHECK(uneven->recombined.share_pct < 1.3 * 0.2 * uneven->as_carded.share_pct / std::sqrt(batts));
    CHECK(uneven->recombined.share_pct > 0.3 * 0.2 * uneven->as_carded.share_pct / std::sqrt(batts));
}

TEST_CASE("recombining is offered where it brings batts nearer, and not where it does not") {
    const auto f = of_batts("passes = 2\n");
    auto told = *forecast::alike(f, {}, nullptr);
    told.recombined.typical_de00 = 0.5 * told.as_carded.typical_de00;
    CHECK(forecast::alike_words(f, told).find("recombine = true") != std::string::npos);
    told.recombined.typical_de00 = 2.0 * told.as_carded.typical_de00;
    CHECK(forecast::alike_words(f, told).find("recombine = true") == std::string::npos);
}

TEST_CASE("recombined batts are simulated from pieces of several, and the plan says so") {
    const auto alone = of_batts("passes = 2\n"), shared = of_batts("passes = 2\nrecombine = true\n");
    const auto one = forecast::batt_of(alone), many = forecast::batt_of(shared);
    REQUIRE(many.passes.size() == 2);
    // What goes in is the same: masses and the first pass.
    CHECK(many.passes[0].field.shares == one.passes[0].field.shares);
    // A strip of each is as uneven as the handfuls it lies in, a third thicker or thinner (common practice,
    // no source): that leaves a few points of a hundred between one batt and the making.
    for (std::size_t p = 0; p < 2; ++p)
        CHECK(std::abs(carding::mean_share(many.passes[1].field, p) -
                       carding::mean_share(many.passes[0].field, p)) < 0.04);
    CHECK(many.passes[1].field.shares != one.passes[1].field.shares);
    bool told = false;
    for (const auto& step : shared.plan.steps)
        told = told || step.text.find("one strip of each batt") != std::string::npos;
    CHECK(told);
    for (const auto& step : alone.plan.steps)
        CHECK(step.text.find("one strip of each batt") == std::string::npos);
}

TEST_CASE("while batts are recombined it does not matter how one batt would have been fed again") {
    const auto fed = [](const std::string& again) {
        const auto recipe = recipe::read_text(
            "format = 1\ntotal = \"120 g\"\n"
            "[[component]]\nname = \"night\"\nfibre = \"corriedale\"\ncolour = \"#22324f\"\nshare = \"60 "
            "%\"\n"
            "[[component]]\nname = \"specks\"\nfibre = \"wool-neps\"\ncolour = \"#b4552a\"\nshare = \"5 "
            "%\"\n"
            "[[component]]\nname = \"foam\"\nfibre = \"corriedale\"\ncolour = \"#efe9dc\"\nshare = \"35 "
            "%\"\nadd_on_pass = 2\n"
            "[carding]\ncarder = \"table-small\"\npasses = 2\nrecombine = true\n" +
                again,
            "again", fibre::Catalogue::builtin());
        REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
        forecast::Bench bench;
        bench.catalogue = &fibre::Catalogue::builtin();
        return *forecast::forecast(*recipe, bench);
    };
    const auto f = fed("refeed = \"strips\"\n");
    REQUIRE(f.plan.batts > 2);
    const auto strips = forecast::batt_of(f);
    REQUIRE(strips.passes.size() == 2);
    REQUIRE_FALSE(strips.passes[1].spots.empty());
    for (const char* again : {"refeed = \"sideways\"\n", "refeed = \"on-edge\"\n", "strips = 7\n"}) {
        CAPTURE(again);
        const auto g = fed(again);
        const auto other = forecast::batt_of(g);
        const auto &a = strips.passes[1], &b = other.passes[1];
        CHECK(a.field.shares == b.field.shares);
        CHECK(a.field.unresolved == b.field.unresolved);
        CHECK(a.field.clumped == b.field.clumped);
        REQUIRE(a.spots.size() == b.spots.size());
        for (std::size_t i = 0; i < a.spots.size(); ++i) REQUIRE(a.spots[i].depth == b.spots[i].depth);
        REQUIRE(f.plan.steps.size() == g.plan.steps.size());
        for (std::size_t i = 0; i < f.plan.steps.size(); ++i)
            CHECK(f.plan.steps[i].text == g.plan.steps[i].text);
    }
}
