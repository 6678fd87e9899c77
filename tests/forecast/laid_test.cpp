// Feeds written as lists of layings, through the front door.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "carding/layings.hpp"
#include "forecast/batt.hpp"
#include "recipe/file.hpp"
#include "recipe/layout.hpp"

using namespace battwright;

namespace {

forecast::Forecast laid_forecast(const recipe::Recipe& recipe) {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    auto forecast = forecast::forecast(recipe, bench);
    REQUIRE_MESSAGE(forecast.has_value(), measure::to_line(forecast.error()));
    return *forecast;
}

recipe::Recipe laid_recipe(const std::string& carding) {
    const std::string components =
        "format = 1\nname = \"laid\"\n"
        "\n[[component]]\nname = \"harbour wool\"\nfibre = \"corriedale\"\ncolour = \"#22324f\"\nweight = "
        "\"30 g\"\n"
        "\n[[component]]\nname = \"buoy\"\nfibre = \"corriedale\"\ncolour = \"#b4552a\"\nweight = \"10 g\"\n"
        "\n[[component]]\nname = \"foam\"\nfibre = \"merino-fine\"\nweight = \"8 g\"\n"
        "colours = [ { colour = \"#efe9dc\", share = \"60 %\" }, { colour = \"#7d8a86\", share = \"40 %\" } "
        "]\n\n";
    const auto recipe = recipe::read_text(components + carding, "laid", fibre::Catalogue::builtin());
    REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
    return *recipe;
}

void check_same_field(const carding::Field& a, const carding::Field& b) {
    REQUIRE(a.grid == b.grid);
    REQUIRE(a.shares.size() == b.shares.size());
    double worst = 0.0;
    for (std::size_t i = 0; i < a.shares.size(); ++i)
        worst = std::max(worst, std::abs(a.shares[i] - b.shares[i]));
    for (std::size_t i = 0; i < a.unresolved.size(); ++i) {
        worst = std::max(worst, std::abs(a.unresolved[i] - b.unresolved[i]));
        worst = std::max(worst, std::abs(a.clumped[i] - b.clumped[i]));
    }
    CHECK(worst < 1e-9);
}

void check_same_batt(const recipe::Recipe& one, const recipe::Recipe& other) {
    const auto a = forecast::batt_of(laid_forecast(one)), b = forecast::batt_of(laid_forecast(other));
    REQUIRE(a.passes.size() == b.passes.size());
    for (std::size_t i = 0; i < a.passes.size(); ++i) {
        CAPTURE(i);
        check_same_field(a.passes[i].field, b.passes[i].field);
    }
}

// Masses by portion over the batt, against what is left of them, for every pass by which all is laid.
void check_masses(const forecast::Forecast& f, const forecast::Batt& batt) {
    const auto& field = batt.passes.back().field;
    double sum = 0.0, left = 0.0;
    for (const auto& portion : batt.portions) left += portion.grams;
    CHECK(left <= f.total_grams * (1.0 + 1e-12));
    for (std::size_t p = 0; p < batt.portions.size(); ++p) {
        CAPTURE(p);
        CHECK(carding::mean_share(field, p) == doctest::Approx(batt.portions[p].grams / left).epsilon(1e-7));
        sum += carding::mean_share(field, p);
    }
    CHECK(sum == doctest::Approx(1.0).epsilon(1e-9));
    for (std::size_t i = 0; i < field.block_size(); ++i) {
        double all = 0.0;
        for (std::size_t p = 0; p < field.portions; ++p) all += field.block(p)[i];
        REQUIRE(all == doctest::Approx(1.0).epsilon(1e-6));
    }
}

}  // namespace

TEST_CASE("each manner written out as a list is that manner, field for field, also by way of a file") {
    for (const auto& row : recipe::manners) {
        CAPTURE(row.word);
        recipe::Recipe recipe =
            laid_recipe("[carding]\npasses = 3\nfeed = \"" + std::string(row.word) + "\"\n");
        // Stripes overlap by a share of the narrower of two: alike on both sides when they are equally wide.
        for (auto& component : recipe.components) component.amount = recipe::Parts{1.0};
        recipe.components[2].palette.resize(1);
        recipe.components[2].palette[0].share_pct = 100.0;
        recipe.total = measure::Mass{48.0, measure::MassUnit::gram};
        const auto f = laid_forecast(recipe);
        const auto list = carding::written_out(recipe, f.strands);
        CHECK_FALSE(list.carding.layings.empty());
        CHECK(recipe::check(list, fibre::Catalogue::builtin()).has_value());
        check_same_batt(recipe, list);
        const auto again = recipe::read_text(recipe::write_text(list), "again", fibre::Catalogue::builtin());
        REQUIRE_MESSAGE(again.has_value(), measure::to_line(again.error()));
        CHECK(again->carding == list.carding);
        check_same_batt(recipe, *again);
    }
}

TEST_CASE("a component laid late by a list is the component added late") {
    recipe::Recipe late = laid_recipe("[carding]\npasses = 3\n");
    late.components[1].add_on_pass = 2;
    recipe::Recipe list = laid_recipe(
        "[carding]\npasses = 3\n[[carding.lay]]\nwhat = \"foam\"\n"
        "[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = \"buoy\"\npass = 2\n");
    // The order of the first pass: as the manner lays it.
    const auto order = carding::written_out(late, laid_forecast(late).strands).carding.layings;
    list.carding.layings.erase(list.carding.layings.begin(), list.carding.layings.begin() + 2);
    list.carding.layings.insert(list.carding.layings.begin(), order.begin(), order.end());
    check_same_batt(late, list);
}

TEST_CASE("an accent down one side lies on the base, which stays under it") {
    // 30 g over the width and 10 g on a quarter of it: there a column weighs (7.5 + 10) of 40 and 10 / 17.5
    // of it is accent; counted in mass the quarter is 0.4375 of the batt. Worked out by hand.
    const auto recipe = laid_recipe(
        "[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = \"foam\"\n"
        "[[carding.lay]]\nwhat = \"buoy\"\nacross = \"left quarter\"\n");
    const auto f = laid_forecast(recipe);
    const auto batt = forecast::batt_of(f);
    check_masses(f, batt);
    const double base = 38.0, accent = 10.0;
    const double thick = (0.25 * base + accent) / (base + accent);
    carding::Box edge;
    edge.across_to = thick - 0.1;
    CHECK(carding::box_mean(batt.passes[0].field, edge)[1] ==
          doctest::Approx(accent / (0.25 * base + accent)).epsilon(0.02).scale(0.0));
    edge.across_from = thick + 0.1;
    edge.across_to = 1.0;
    CHECK(carding::box_mean(batt.passes[0].field, edge)[1] < 0.02);
    // The accent lies on top.
    edge = {};
    edge.across_to = thick - 0.1;
    edge.depth_to = 0.2;
    CHECK(carding::box_mean(batt.passes[0].field, edge)[1] < 0.05);
}

TEST_CASE("what is laid straight onto the drum has a place round it, through the tray it goes all round") {
    const char* start =
        "[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = \"foam\"\n";
    const auto round =
        laid_recipe(std::string(start) + "[[carding.lay]]\nwhat = \"buoy\"\nround = \"first half\"\n");
    const auto f = laid_forecast(round);
    const auto batt = forecast::batt_of(f);
    check_masses(f, batt);
    REQUIRE(batt.passes[0].field.grid.round > 1);
    carding::Box first, last;
    first.round_to = 0.3;
    last.round_from = 0.75;
    last.round_to = 0.95;
    CHECK(carding::box_mean(batt.passes[0].field, first)[1] > 0.25);
    CHECK(carding::box_mean(batt.passes[0].field, last)[1] < 0.05);
    const auto tray = forecast::batt_of(
        laid_forecast(laid_recipe(std::string(start) + "[[carding.lay]]\nwhat = \"buoy\"\n")));
    CHECK(tray.passes[0].field.grid.round == 1);
    // What is laid on by hand is hardly opened: it lies in coarser tufts after the same pass.
    const auto drum = forecast::batt_of(laid_forecast(
        laid_recipe(std::string(start) + "[[carding.lay]]\nwhat = \"buoy\"\nway = \"onto the drum\"\n")));
    const auto below = [](const carding::Field& field) {
        double sum = 0.0;
        for (const double v : field.unresolved) sum += v;
        return sum / static_cast<double>(field.unresolved.size());
    };
    CHECK(below(drum.passes[0].field) > 1.2 * below(tray.passes[0].field));
}

TEST_CASE("on a later pass: under the batt, between its halves, over it") {
    for (const auto& [word, from, to] :
         {std::tuple{"under", 0.0, 0.1}, {"between", 0.45, 0.55}, {"over", 0.9, 1.0}}) {
        CAPTURE(word);
        const auto recipe = laid_recipe(
            "[carding]\npasses = 2\n[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = "
            "\"foam\"\n"
            "[[carding.lay]]\nwhat = \"buoy\"\nacross = \"right third\"\npass = \"last\"\nlies = \"" +
            std::string(word) + "\"\nway = \"onto the drum\"\n");
        const auto f = laid_forecast(recipe);
        const auto batt = forecast::batt_of(f);
        check_masses(f, batt);
        carding::Box there, left;
        there.across_from = 0.75;
        there.depth_from = from;
        there.depth_to = to;
        left.across_to = 0.4;
        CHECK(carding::box_mean(batt.passes[1].field, there)[1] > 0.6);
        CHECK(carding::box_mean(batt.passes[1].field, left)[1] < 0.02);
    }
}

TEST_CASE("a small blend of one component is that component; one carded before is mixed before") {
    const char* rest = "[[carding.lay]]\nwhat = \"foam\"\n";
    const auto plain = laid_recipe("[carding]\npasses = 2\n[[carding.lay]]\nwhat = \"harbour wool\"\n" +
                                   std::string(rest) + "[[carding.lay]]\nwhat = \"buoy\"\n");
    const auto blend = laid_recipe(
        "[carding]\npasses = 2\n[[carding.blend]]\nname = \"buoy alone\"\npasses = 2\n"
        "lay = [ { what = \"buoy\" } ]\n[[carding.lay]]\nwhat = \"harbour wool\"\n" +
        std::string(rest) + "[[carding.lay]]\nwhat = \"buoy alone\"\n");
    check_same_batt(plain, blend);

    const auto layered = laid_recipe(
        "[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = "
        "\"buoy\"\n" +
        std::string(rest));
    double before = forecast::batt_of(laid_forecast(layered)).measures[0].strip_variation_de00;
    for (const int passes : {1, 2, 4}) {
        CAPTURE(passes);
        const auto first =
            laid_recipe("[carding]\npasses = 1\n[[carding.blend]]\nname = \"all of it\"\npasses = " +
                        std::to_string(passes) +
                        "\nlay = [ { what = \"harbour wool\" }, { what = \"buoy\" }, { what = \"foam\" } ]\n"
                        "[[carding.lay]]\nwhat = \"all of it\"\n");
        const auto f = laid_forecast(first);
        const auto batt = forecast::batt_of(f);
        check_masses(f, batt);
        CHECK(batt.measures[0].strip_variation_de00 < before);
        before = batt.measures[0].strip_variation_de00;
    }
}

TEST_CASE("small blends nest, and the plan has them in the order they are carded") {
    const auto recipe = laid_recipe(
        "[carding]\npasses = 2\n"
        "[[carding.blend]]\nname = \"dusk\"\nlay = [ { what = \"dawn\", share = \"half\" }, { what = "
        "\"foam\" } ]\n"
        "[[carding.blend]]\nname = \"dawn\"\npasses = 2\n"
        "lay = [ { what = \"harbour wool\", weight = \"10 g\" }, { what = \"buoy\", share = \"40 %\" } ]\n"
        "[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = \"dusk\"\nacross = \"0-100 mm\"\n"
        "[[carding.lay]]\nwhat = \"dawn\"\nacross = \"100-200 mm\"\n[[carding.lay]]\nwhat = \"buoy\"\npass = "
        "2\n");
    const auto f = laid_forecast(recipe);
    check_masses(f, forecast::batt_of(f));
    std::vector<std::string> blends;
    double fed = 0.0;
    for (const auto& step : f.plan.steps) {
        if (step.kind == carding::StepKind::blend) blends.push_back(step.blend);
        if (step.kind == carding::StepKind::feed) fed += step.grams;
    }
    CHECK(blends == std::vector<std::string>{"dawn", "dusk"});
    CHECK(fed == doctest::Approx(48.0));
}

TEST_CASE("a group that comes round so many times is laid in turn") {
    const auto recipe = laid_recipe(
        "[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"harbour wool\"\nshare = \"40 %\"\n"
        "[[carding.lay]]\nwhat = \"buoy\"\ntimes = 5\n[[carding.lay]]\nwhat = \"foam\"\ntimes = 5\n"
        "[[carding.lay]]\nwhat = \"harbour wool\"\n");
    const auto f = laid_forecast(recipe);
    const auto lays =
        carding::layings_of(recipe, f.strands, carding::portions_of(recipe, f.strands), f.carder).lays;
    CHECK(lays.size() == 1 + 5 * 3 + 1);
    CHECK(f.plan.steps.size() == 1 + 1 + 3 + 1 + 1);
    check_masses(f, forecast::batt_of(f));
}

TEST_CASE("places lost on a later pass, places edge to edge, and a lay nobody could do, are told") {
    const auto has = [](const recipe::Recipe& recipe, const char* code) {
        for (const auto& finding : laid_forecast(recipe).findings)
            if (finding.code == code) return true;
        return false;
    };
    const std::string two =
        "[[carding.lay]]\nwhat = \"harbour wool\"\nacross = \"left half\"\n"
        "[[carding.lay]]\nwhat = \"buoy\"\nacross = \"right half\"\n";
    const std::string base = "[[carding.lay]]\nwhat = \"foam\"\n";
    CHECK(has(laid_recipe("[carding]\npasses = 2\n" + base + two), "places-lost"));
    CHECK_FALSE(
        has(laid_recipe("[carding]\npasses = 2\nrefeed = \"own-places\"\n" + base + two), "places-lost"));
    CHECK_FALSE(has(laid_recipe("[carding]\npasses = 1\n" + base + two), "stripes-apart"));
    CHECK(has(laid_recipe("[carding]\npasses = 1\n" + two +
                          "[[carding.lay]]\nwhat = \"foam\"\nacross = \"left half\"\n"),
              "stripes-apart"));
    std::string many;
    for (int i = 0; i < 40; ++i)
        many += "[[carding.lay]]\nwhat = \"buoy\"\nweight = \"0.1 g\"\nacross = \"" + std::to_string(5 * i) +
                "-" + std::to_string(5 * i + 5) + " mm\"\n";
    CHECK(has(laid_recipe("[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"harbour wool\"\n" + base + many +
                          "[[carding.lay]]\nwhat = \"buoy\"\n"),
              "fiddly"));
}

TEST_CASE("an edit of the components takes the layings along") {
    const auto before = laid_recipe(
        "[carding]\npasses = 2\n[[carding.blend]]\nname = \"sea\"\nlay = [ { what = \"buoy\" } ]\n"
        "[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = \"sea\"\n[[carding.lay]]\nwhat = "
        "\"foam\"\n");
    recipe::Recipe after = before;
    after.components[0].name = "quay wool";
    recipe::follow_layings(before, after);
    CHECK(after.carding.layings[0].what == "quay wool");
    recipe::Recipe less = before;
    less.components.erase(less.components.begin() + 1);
    recipe::follow_layings(before, less);
    CHECK(less.carding.blends.empty());
    CHECK(less.carding.layings.size() == 2);
    CHECK(recipe::check(less, fibre::Catalogue::builtin()).has_value());
    recipe::Recipe more = before;
    more.components.push_back(before.components[0]);
    more.components.back().name = "gull";
    recipe::follow_layings(before, more);
    CHECK(more.carding.layings.back().what == "gull");
    CHECK(recipe::check(more, fibre::Catalogue::builtin()).has_value());
}

TEST_CASE("whatever is laid wherever, every portion keeps its weight and every cell is full") {
    std::uint64_t state = 20261126;
    const auto draw = [&state](std::uint64_t below) {
        state = state * 6364136223846793005u + 1442695040888963407u;
        return (state >> 33u) % below;
    };
    const char* places[] = {"", "across = \"left third\"\n", "across = \"20-90 mm\"\nfade = \"15 mm\"\n",
                            "across = \"60-100 %\"\noverlap = \"10 mm\"\n"};
    const char* rounds[] = {"", "", "round = \"first half\"\n", "round = \"20-45 %\"\n"};
    const char* hows[] = {"", "how = \"in dabs of 35 mm\"\n", "how = \"in wisps\"\n",
                          "how = \"in handfuls\"\n"};
    const char* lies[] = {"", "lies = \"under\"\n", "lies = \"over\"\n", "lies = \"between\"\n"};
    const char* backs[] = {"strips",  "own-places",    "halves",      "sideways",
                           "on-edge", "tear-and-fold", "quarter-turn"};
    for (int trial = 0; trial < 30; ++trial) {
        CAPTURE(trial);
        std::string text = "[carding]\npasses = 3\nrefeed = [\"" + std::string(backs[draw(7)]) + "\", \"" +
                           backs[draw(7)] + "\"]\n";
        text += "[[carding.blend]]\nname = \"mixed\"\npasses = " + std::to_string(1 + draw(2)) +
                "\nlay = [ { what = \"buoy\", share = \"half\" }, { what = \"foam\", share = \"30 %\" } ]\n";
        for (const char* what : {"harbour wool", "harbour wool", "buoy", "foam", "mixed"}) {
            text += "[[carding.lay]]\nwhat = \"" + std::string(what) + "\"\n";
            if (text.find("harbour wool") == text.rfind("harbour wool")) {
                text += "share = \"60 %\"\n";  // the first of the two lies on the first pass, all over
                continue;
            }
            const std::uint64_t pass = 1 + draw(3);
            text += std::string(places[draw(4)]) + rounds[draw(4)] + hows[draw(4)] +
                    "pass = " + std::to_string(pass) + "\n";
            if (pass > 1) text += lies[draw(4)];
        }
        CAPTURE(text);
        const auto f = laid_forecast(laid_recipe(text));
        check_masses(f, forecast::batt_of(f, {0, true, 1}));
    }
}

TEST_CASE("dabs and handfuls of one size and weight are two steps, each by its own word") {
    const auto f = laid_forecast(laid_recipe(
        "[carding]\npasses = 1\n[[carding.lay]]\nwhat = \"harbour wool\"\n[[carding.lay]]\nwhat = "
        "\"foam\"\nhow = \"in wisps of 40 mm\"\n"
        "[[carding.lay]]\nwhat = \"buoy\"\nshare = \"half\"\nhow = \"in dabs of 40 mm\"\n"
        "[[carding.lay]]\nwhat = \"buoy\"\nhow = \"in handfuls of 40 mm\"\nway = \"onto the drum\"\n"));
    std::vector<std::string> texts;
    for (const auto& step : f.plan.steps)
        if (step.kind == carding::StepKind::feed) texts.push_back(step.text);
    REQUIRE(texts.size() == 5);  // foam is of two colours
    CHECK(texts[1].find(" in wisps about 40 mm wide") != std::string::npos);
    CHECK(texts[3].find("Lay 5 g of buoy straight onto the drum") == 0);
    CHECK(texts[3].find(" in dabs about 40 mm wide") != std::string::npos);
    CHECK(texts[4].find(" in handfuls about 40 mm wide") != std::string::npos);
}
