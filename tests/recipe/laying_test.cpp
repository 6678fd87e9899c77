// Layings: their words, and a recipe that uses all of them, read and written.
#include <doctest/doctest.h>

#include "recipe/file.hpp"
#include "recipe/layout.hpp"

using namespace battwright;
using recipe::Laying;

namespace {

const char* const everything = R"(format = 1
name = "Slack Water"

[[component]]
name = "kelp"
fibre = "corriedale"
weight = "1 oz"

[[component]]
fibre = "merino-fine"
colours = [ { colour = "#efe9dc", share = "60 %" }, { colour = "#7d8a86", share = "40 %" } ]
weight = "10 g"

[[component]]
name = "neps"
fibre = "wool-neps"
colour = "#b4552a"
weight = "2 g"
add_on_pass = "last"

[carding]
passes = 3
refeed = ["own-places", "sideways"]
recombine = true

[[carding.blend]]
name = "dusk"
passes = 2
strips = 3
refeed = "halves"
lay = [ { what = "kelp", weight = "0.2 oz" }, { what = "merino-fine", colour = "#7d8a86", share = "half" } ]

[[carding.blend]]
name = "night"
lay = [ { what = "dusk", share = "40 %", times = 3 }, { what = "kelp", share = "10 %" } ]

[[carding.lay]]
what = "kelp"
across = "1-3 in"
fade = "10 mm"

[[carding.lay]]
what = "merino-fine"
how = "in wisps of 15 mm"
pass = 2
lies = "over"
way = "onto the drum"

[[carding.lay]]
what = "dusk"
across = "left third"
round = "second quarter"
overlap = "5 %"

[[carding.lay]]
what = "night"
round = "12.5 % to 60 %"
)";

recipe::Recipe read_laid(const std::string& text) {
    const auto recipe = recipe::read_text(text, "laid.toml", fibre::Catalogue::builtin());
    REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
    return *recipe;
}

}  // namespace

TEST_CASE("a recipe that says everything of its layings comes back the same") {
    const auto recipe = read_laid(everything);
    REQUIRE(recipe.carding.layings.size() == 4);
    REQUIRE(recipe.carding.blends.size() == 2);
    const Laying& first = recipe.carding.layings[0];
    CHECK(first.across.shares_of(200.0).first == doctest::Approx(25.4 / 200.0));
    CHECK(first.across.shares_of(200.0).second == doctest::Approx(76.2 / 200.0));
    CHECK(recipe::way_of(recipe.carding.layings[0]) == recipe::Way::tray);
    CHECK(recipe::way_of(recipe.carding.layings[2]) == recipe::Way::drum);  // it has a place round
    CHECK(recipe::refeed_for(recipe.carding, 2) == recipe::Refeed::own_places);
    CHECK(recipe::refeed_for(recipe.carding, 3) == recipe::Refeed::sideways);
    const auto again = read_laid(recipe::write_text(recipe));
    CHECK(again.carding == recipe.carding);
    CHECK(recipe::write_text(again) == recipe::write_text(recipe));
}

TEST_CASE("what the layings weigh: fixed first, then the rest, blends from what is in them") {
    const auto recipe = read_laid(everything);
    const auto masses = recipe::masses_of(recipe);
    const auto layout = recipe::layout_of(recipe, *masses);
    REQUIRE(layout.has_value());
    const double ounce = 28.349523125;  // international avoirdupois ounce, 1959
    // dusk: 0.2 oz of kelp and half of the 4 g in the second colour.
    const double dusk = 0.2 * ounce + 2.0;
    CHECK(layout->blends[0][0].total() == doctest::Approx(0.2 * ounce));
    CHECK(layout->blends[0][1].grams[1] == doctest::Approx(2.0));
    CHECK(layout->blends[1][0].total() == doctest::Approx(0.4 * dusk));
    CHECK(layout->lays[0].total() == doctest::Approx(0.7 * ounce));
    CHECK(layout->lays[1].grams[0] == doctest::Approx(6.0));
    CHECK(layout->lays[1].grams[1] == doctest::Approx(2.0));
    CHECK(layout->lays[2].total() == doctest::Approx(0.6 * dusk));
    CHECK(layout->lays[3].total() == doctest::Approx(0.4 * dusk + 0.1 * ounce));
    CHECK(layout->order == std::vector<std::size_t>{0, 1});
    CHECK(recipe::first_pass_of(recipe, 0) == 1);
    CHECK(recipe::first_pass_of(recipe, 1) == 1);  // by way of dusk
    CHECK(recipe::first_pass_of(recipe, 2) == 3);
}

TEST_CASE("places in words and in figures are read and written back") {
    for (const char* text : {"full width", "left half", "middle third", "right quarter", "10 mm to 45 mm",
                             "12.5 % to 40 %", "1 in to 3 in"}) {
        CAPTURE(text);
        const auto stretch = recipe::parse_across(text);
        REQUIRE(stretch.has_value());
        CHECK(recipe::write_across(*stretch) == text);
    }
    CHECK(recipe::parse_across("0-60 mm")->to == doctest::Approx(recipe::parse_across("0 to 6 cm")->to));
    CHECK(recipe::write_round(*recipe::parse_round("second quarter")) == "second quarter");
    CHECK(recipe::parse_round("25-50 %") == recipe::parse_round("second quarter"));
    for (const char* text :
         {"", "60", "60 mm", "mm", "left", "0-60 kg", "-5-60 mm", "0-60 mm of it", "nan-1 mm"}) {
        CAPTURE(text);
        CHECK_FALSE(recipe::parse_across(text).has_value());
    }
}

TEST_CASE("ways to put fibre down are read and written back") {
    for (const char* text : {"even", "in dabs", "in dabs of 40 mm", "in wisps of 1 in", "in handfuls"}) {
        CAPTURE(text);
        const auto how = recipe::parse_spreading(text);
        REQUIRE(how.has_value());
        CHECK(recipe::write_spreading(how->how, how->size) == text);
    }
    CHECK(recipe::parse_spreading("dabs of 4 cm")->size->millimetres == doctest::Approx(40.0));
    for (const char* text :
         {"", "of 40 mm", "in dabs of", "in dabs of 40", "in dabs of forty mm", "dabs 40 mm"}) {
        CAPTURE(text);
        CHECK_FALSE(recipe::parse_spreading(text).has_value());
    }
}

TEST_CASE("a fade and an overlap run along the way round when only that is bounded, else across") {
    const auto laid = [](const std::string& place) {
        return recipe::read_text(
            "format = 1\n[[component]]\nname = \"kelp\"\nfibre = \"corriedale\"\nweight = \"40 g\"\n"
            "[carding]\ncarder = { drum_circumference = \"560 mm\", width = \"200 mm\", clothing = 72, load "
            "= \"20-80 g\" }\n[[carding.lay]]\nwhat = \"kelp\"\n" +
                place,
            "laid.toml", fibre::Catalogue::builtin());
    };
    const std::string round = "round = \"first half\"\n", across = "across = \"left half\"\n";
    for (const std::string edge : {"fade", "overlap"}) {
        CAPTURE(edge);
        const std::string wide = edge + " = \"250 mm\"\n";
        CHECK(laid(round + wide).has_value());
        CHECK(laid(round + "across = \"0-200 mm\"\n" + wide).has_value());
        CHECK_FALSE(laid(across + wide).has_value());
        CHECK_FALSE(laid(across + round + wide).has_value());
        CHECK_FALSE(laid(round + edge + " = \"570 mm\"\n").has_value());
    }
    const auto recipe = laid(round);
    REQUIRE_MESSAGE(recipe.has_value(), measure::to_line(recipe.error()));
    const recipe::Carder carder = recipe::carder_of(recipe->carding);
    Laying laying = recipe->carding.layings[0];
    CHECK(recipe::edge_length_mm(laying, carder) == doctest::Approx(560.0));
    laying.round = {};
    CHECK(recipe::edge_length_mm(laying, carder) == doctest::Approx(200.0));
}

TEST_CASE("a price is for 100 g, and an extent a share of a hundred, unless a unit is said") {
    recipe::Price price;
    price.amount = 6.5;  // "6.50 per 100 g"
    CHECK(price.of_grams(200.0) == doctest::Approx(13.0));
    CHECK(recipe::Extent{30.0, {}}.share_of(300.0) == doctest::Approx(0.3));
    CHECK(recipe::Extent{30.0, measure::LengthUnit::millimetre}.share_of(300.0) == doctest::Approx(0.1));
}
