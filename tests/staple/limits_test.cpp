// Every limit of the advice from just inside, and some from just outside. Common practice, no source, but
// where one is named.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "recipes.hpp"
#include "staple/distribution.hpp"

using namespace recipes;

namespace {

// A batt of 100 g: so many grams of the one among a plain wool.
recipe::Recipe among_wool(recipe::Component some, double grams, int passes = 3) {
    some.amount = measure::Mass{grams, measure::MassUnit::gram};
    return batt({tagged("corriedale", 100.0 - grams, 80.0, 28.0), std::move(some)}, passes);
}

// The number that stands behind a mark: number_after("{mm ", "... {mm 12.4} ...") is 12.4.
double number_after(const std::string& mark, const std::string& text, std::size_t from = 0) {
    const std::size_t at = text.find(mark, from);
    REQUIRE(at != std::string::npos);
    return std::stod(text.substr(at + mark.size()));
}

bool worn_says(const recipe::Recipe& plain) {
    recipe::Recipe worn = plain;
    worn.purpose.next_to_skin = true;
    return finding("prickle", worn).has_value();
}

}  // namespace

TEST_CASE("pairs: from which share on, and by how much, two fibres part") {
    const auto length = [](double grams, double mm) {
        return gravity("length-mismatch", among_wool(tagged("romney", 0.0, mm, 28.0), grams));
    };
    CHECK(length(3.3, 160.0) == advice);
    CHECK(length(2.7, 160.0) == none);
    CHECK(length(11.0, 320.0) == spoils);
    CHECK(length(9.0, 320.0) == warning);
    const auto thickness = [](double grams, double coarse, double fine) {
        return gravity("diameter-mismatch", batt({tagged("corriedale", 100.0 - grams, 80.0, coarse),
                                                  tagged("merino-fine", grams, 80.0, fine)}));
    };
    CHECK(thickness(5.5, 32.0, 18.0) == advice);
    CHECK(thickness(4.5, 32.0, 18.0) == none);
    CHECK(thickness(50.0, 27.0, 15.0) == advice);
    CHECK(thickness(50.0, 24.0, 13.5) == none);
    const auto slick = [](const char* silk, double grams) {
        return gravity("slick-with-grippy", batt({tagged("merino-fine", 100.0 - grams, 60.0, 19.0),
                                                  tagged(silk, grams, 160.0, 18.0)}));
    };
    // Silk against merino is 0.45 on the catalogue's scale, a longwool against merino less.
    CHECK(slick("tussah-silk", 11.0) == advice);
    CHECK(slick("tussah-silk", 9.0) == none);
    CHECK(slick("wensleydale", 11.0) == none);
    CHECK(gravity("felts-apart", among_wool(part("merino-superwash", 0.0), 11.0)) == advice);
    CHECK(gravity("felts-apart", among_wool(part("merino-superwash", 0.0), 9.0)) == none);
}

TEST_CASE("pairs: what is told of them") {
    // From 40 mm on a lock is worth cutting to, a quarter longer than the short one.
    const auto cut =
        finding("length-mismatch",
                batt({tagged("romney", 50.0, 160.0, 28.0), tagged("merino-fine", 50.0, 42.0, 20.0)}));
    REQUIRE(cut);
    CHECK(cut->remedy.find("Cut Romney") == 0);
    CHECK(number_after("about {mm ", cut->remedy_with_quantities) == doctest::Approx(1.25 * 42.0));
    const auto swap =
        finding("length-mismatch",
                batt({tagged("romney", 50.0, 160.0, 28.0), tagged("merino-fine", 50.0, 38.0, 20.0)}));
    REQUIRE(swap);
    CHECK(swap->remedy.find("Swap") == 0);
    // Two more are named, the rest counted.
    const auto many = finding(
        "length-mismatch", batt({tagged("romney", 20.0, 160.0, 28.0), tagged("merino-fine", 20.0, 60.0, 20.0),
                                 tagged("southdown", 20.0, 58.0, 25.0), tagged("suffolk", 20.0, 56.0, 27.0),
                                 tagged("cormo", 20.0, 54.0, 21.0)}));
    REQUIRE(many);
    CHECK(many->text.find("1 pair more") != std::string::npos);
    // Shares: two figures, so from ten per cent on no tenths.
    const auto share = finding("felts-apart", among_wool(part("merino-superwash", 0.0), 10.6));
    REQUIRE(share);
    CHECK(share->text.find("11 % of the batt") == 0);
}

TEST_CASE("length: short fibre, long fibre, dust") {
    const auto short_one = [](double grams) {
        return gravity("short-with-nothing-to-hold-it", among_wool(tagged("romney", 0.0, 8.0, 28.0), grams));
    };
    CHECK(short_one(10.5) == advice);
    CHECK(short_one(9.5) == advice);
    CHECK(short_one(8.0) == none);
    CHECK(short_one(27.0) == warning);
    CHECK(short_one(23.0) == advice);
    const auto long_one = [](double grams, double mm) {
        return gravity("long-wraps-drum", among_wool(tagged("romney", 0.0, mm, 28.0), grams));
    };
    CHECK(long_one(3.3, 170.0) == warning);
    CHECK(long_one(2.7, 170.0) == none);
    CHECK(long_one(50.0, 160.0) == warning);
    CHECK(long_one(50.0, 145.0) == none);
    CHECK(gravity("dust", among_wool(tagged("cotton", 0.0, 5.0, 12.0), 5.6)) == advice);
    CHECK(gravity("dust", among_wool(tagged("cotton", 0.0, 5.0, 12.0), 4.6)) == none);
    // Silk is dusty as noil, under two inches, and not as sliver.
    CHECK(gravity("dust", batt({tagged("bombyx-silk", 50.0, 46.0, 12.0)})) == advice);
    CHECK(gravity("dust", batt({tagged("bombyx-silk", 50.0, 54.0, 12.0)})) == none);
}

TEST_CASE("the ends of what a cloth serves") {
    const auto coarse = [](double um, double teeth) {
        return gravity("coarse-on-fine-cloth", batt({tagged("corriedale", 50.0, 100.0, um)}),
                       carder_with(teeth));
    };
    CHECK(coarse(66.0, 46.0) == advice);
    CHECK(coarse(58.0, 46.0) == none);
    CHECK(coarse(44.0, 72.0) == advice);
    CHECK(coarse(38.0, 72.0) == none);
    const auto fine = [](double um, double teeth) {
        return gravity("fine-on-coarse-cloth", batt({tagged("merino-fine", 50.0, 75.0, um)}),
                       carder_with(teeth));
    };
    CHECK(fine(12.0, 128.0) == none);
    CHECK(fine(10.0, 128.0) == advice);
    const auto some_fine = [](double grams) {
        return gravity("fine-on-coarse-cloth", among_wool(tagged("merino-fine", 0.0, 80.0, 18.0), grams),
                       carder_with(46.0));
    };
    CHECK(some_fine(5.5) == warning);
    CHECK(some_fine(4.5) == none);
}

TEST_CASE("extras: what falls out, what glints, what has nothing to carry it") {
    const auto neps = [](const char* code, double grams) {
        return gravity(code, among_wool(on_last_pass(part("cotton-neps", 0.0)), grams));
    };
    // Cotton neps keep 70 %: 18.5 % of them lose 5.5 % of the batt.
    CHECK(neps("inclusions-fall-out", 1.1) == advice);
    CHECK(neps("inclusions-fall-out", 0.9) == none);
    CHECK(neps("inclusions-fall-out", 18.5) == warning);
    CHECK(neps("inclusions-fall-out", 15.5) == advice);
    CHECK(neps("nothing-to-carry-it", 44.0) == warning);
    CHECK(neps("nothing-to-carry-it", 38.0) == none);
    CHECK(neps("nothing-to-carry-it", 66.0) == spoils);
    CHECK(neps("nothing-to-carry-it", 58.0) == warning);
    // Locks keep 92 %, which is not worth a word.
    CHECK(gravity("inclusions-fall-out", among_wool(on_last_pass(part("lincoln-locks", 0.0)), 20.0)) == none);
    CHECK(gravity("sparkle-over-limit", among_wool(part("sparkle-film", 0.0), 11.0)) == warning);
    CHECK(gravity("sparkle-over-limit", among_wool(part("sparkle-film", 0.0), 9.0)) == advice);
    // A bought tweed counts as lumps when more than half of it is.
    const auto tweed = [](double neps_pct) {
        auto bought = part("corriedale", 0.0);
        bought.content = {{"corriedale", 100.0 - neps_pct}, {"wool-neps", neps_pct}};
        return gravity("inclusions-too-early", among_wool(bought, 50.0));
    };
    CHECK(tweed(55.0) == warning);
    CHECK(tweed(45.0) == none);
}

TEST_CASE("how often and how much at a time") {
    // Fine cloth spares a pass from 90 teeth on; a tenth of the batt counts; cotton's finer sisters end at 19
    // um.
    const auto wool = [](double um, int passes, double teeth) {
        return gravity("over-carding", batt({tagged("merino-fine", 50.0, 80.0, um)}, passes),
                       carder_with(teeth));
    };
    CHECK(wool(18.5, 4, 100.0) == none);
    CHECK(wool(18.5, 4, 85.0) == advice);
    CHECK(gravity("over-carding", among_wool(part("cotton", 0.0), 11.0, 4)) == warning);
    CHECK(gravity("over-carding", among_wool(part("cotton", 0.0), 9.0, 4)) == none);
    CHECK(gravity("over-carding", batt({tagged("merino-fine", 50.0, 40.0, 20.0)}, 3)) == none);
    // A drum of 30 to 80 g: a tenth over is patted down, half of the least is too little.
    const auto load = [](const char* code, double grams) {
        return gravity(code, batt({part("corriedale", grams)}));
    };
    CHECK(load("over-load", 89.0) == advice);
    CHECK(load("over-load", 87.0) == none);
    CHECK(load("under-load", 14.0) == advice);
    CHECK(load("under-load", 16.0) == none);
}

TEST_CASE("locks are felt from a twentieth of the batt on, as fibre is from 5 % over 30 um") {
    const auto locks = [](double grams) {
        return batt(
            {tagged("merino-fine", 100.0 - grams, 80.0, 18.0), on_last_pass(part("lincoln-locks", grams))});
    };
    CHECK(worn_says(locks(5.5)));
    CHECK_FALSE(worn_says(locks(4.5)));
    const auto feel = [](const recipe::Recipe& recipe) {
        const auto strands = strands_in(recipe);
        return std::string(
            staple::feel_of(staple::summarise_diameters(strands), staple::inclusions_of(strands)));
    };
    CHECK(feel(locks(5.5)) != "next to the skin");
    CHECK(feel(locks(4.5)) == "next to the skin");
    // Log-normal, worked by hand: 38 um at CV 27 % has 78 % over 30 um; 21 um at 24.5 % has 5.5 %, 20.4
    // um 4.4 %.
    const auto riders = staple::inclusions_of(strands_in(locks(10.0)));
    REQUIRE(riders.size() == 1);
    CHECK(riders[0].over_30um_pct == doctest::Approx(77.6).epsilon(0.01));
    const auto plain = [](double um) { return batt({tagged("corriedale", 50.0, 80.0, um)}); };
    CHECK(staple::summarise_diameters(strands_in(plain(21.0))).over_30um_pct ==
          doctest::Approx(5.5).epsilon(0.03));
    CHECK(feel(plain(21.0)) == "over other clothes");
    CHECK(feel(plain(20.4)) == "next to the skin");
    CHECK(worn_says(plain(21.0)));
    CHECK_FALSE(worn_says(plain(20.4)));
}

TEST_CASE("unknown-fibre: the nine in ten, by the laws themselves") {
    const auto found = finding("unknown-fibre", among_wool(part("unknown-wool", 0.0), 5.5));
    REQUIRE(found);
    CHECK_FALSE(finding("unknown-fibre", among_wool(part("unknown-wool", 0.0), 4.5)));
    // 85 mm pulled at CV 60 %: mean 62.5 mm. Weibull of that CV: shape 1.718, scale 70.1 mm, so 5 % lie
    // under 12.4 mm and 5 % over 133 mm. Log-normal, 27 um at 40 %: 13.3 and 47.2 um (1.645 standard
    // deviations).
    const std::string& text = found->text_with_quantities;
    CHECK(number_after("from {mm ", text) == doctest::Approx(12.4).epsilon(0.02));
    CHECK(number_after("to {mm ", text) == doctest::Approx(132.8).epsilon(0.01));
    const std::size_t thick = text.find("long and from ");
    CHECK(number_after("long and from ", text) == doctest::Approx(13.3).epsilon(0.01));
    CHECK(number_after(" um to ", text, thick) == doctest::Approx(47.2).epsilon(0.01));
}

TEST_CASE("lengths and weights wait for a person's units to a thousandth") {
    const auto found = finding("long-wraps-drum", batt({tagged("romney", 50.0, 170.12345, 28.0)}));
    REQUIRE(found);
    CHECK(found->text_with_quantities.find("{mm 170.123}") != std::string::npos);
    const auto heavy = finding("over-load", batt({part("corriedale", 123.45678)}));
    REQUIRE(heavy);
    CHECK(heavy->text_with_quantities.find("{g 123.457}") != std::string::npos);
    // What is to be weighed is told as a scale shows it. The ounce is 28.349523125 g by definition.
    CHECK(staple::weighed(56.69904625) == "{weigh 56.699}");
    const staple::Units ounces{measure::LengthUnit::inch, measure::MassUnit::ounce};
    CHECK(staple::words_in("Take " + staple::weighed(56.69904625) + " of it, 4 in ({g 28.349523125})",
                           ounces) == "Take 2 oz of it, 4 in (1 oz)");
}

TEST_CASE(
    "twist to start from: 20 degrees for 75 mm, the turns with the root of the length, 12 to 35 degrees") {
    // Common practice, no source; tan(angle) = tan(20) sqrt(75 / length), worked by hand.
    const auto degrees = [](double mm) {
        auto strands = strands_in(batt({tagged("corriedale", 50.0, mm, 28.0)}));
        for (auto& strand : strands) {
            strand.staple_cv = 0.0;
            strand.fibre_mm = mm;
        }
        return staple::drafting_of(strands).twist_angle_degrees;
    };
    CHECK(degrees(75.0) == doctest::Approx(20.0));
    CHECK(degrees(150.0) == doctest::Approx(14.43).epsilon(0.003));
    CHECK(degrees(30.0) == doctest::Approx(29.92).epsilon(0.003));
    CHECK(degrees(15.0) == doctest::Approx(35.0));
    CHECK(degrees(400.0) == doctest::Approx(12.0));
}

TEST_CASE(
    "by hand fibre bears more: twice as many transfers as passes of a drum, four times as many on a board") {
    // Common practice, no source. Very fine wool bears two passes of a drum.
    const auto on = [](const char* carder, int passes) {
        return gravity("over-carding", batt({tagged("merino-fine", 20.0, 60.0, 16.0)}, passes),
                       *recipe::find_carder(carder));
    };
    CHECK(on("table-standard", 2) == none);
    CHECK(on("table-standard", 3) > none);
    CHECK(on("hand-cards", 4) == none);
    CHECK(on("hand-cards", 5) > none);
    CHECK(on("blending-board", 8) == none);
    CHECK(on("blending-board", 9) > none);
}

TEST_CASE("hand cards: fibre half as long again as the card, and what they take with ease") {
    // A card's cloth is 110 mm deep; three inches are taken with ease (published how-to pages for spinners).
    const auto on_cards = [](double mm) {
        return finding("longer-than-the-card", batt({tagged("romney", 5.0, mm, 34.0)}),
                       *recipe::find_carder("hand-cards"));
    };
    CHECK_FALSE(on_cards(105.0));
    REQUIRE(on_cards(160.0));
    CHECK(on_cards(160.0)->severity == staple::Severity::advice);
    CHECK(on_cards(170.0)->severity == staple::Severity::warning);
    CHECK(number_after("about {mm ", on_cards(160.0)->text_with_quantities) ==
          doctest::Approx(76.2).epsilon(0.03).scale(0.0));
}

TEST_CASE("what the remedies name: locks cut to four inches, fibre of two inches to carry what is short") {
    // Common practice, no source.
    const auto wraps = finding("long-wraps-drum", batt({tagged("romney", 50.0, 200.0, 34.0)}));
    REQUIRE(wraps);
    CHECK(number_after("to about {mm ", wraps->remedy_with_quantities) ==
          doctest::Approx(101.6).epsilon(0.03).scale(0.0));
    const auto alone = finding("short-with-nothing-to-hold-it", batt({tagged("cotton", 50.0, 12.0, 16.0)}));
    REQUIRE(alone);
    CHECK(number_after("a longer fibre, {mm ", alone->remedy_with_quantities) ==
          doctest::Approx(50.8).epsilon(0.03).scale(0.0));
}

TEST_CASE("locks that are more than half of a batt are the batt") {
    // Common practice, no source.
    const auto early = [](double grams) {
        return gravity("inclusions-too-early",
                       batt({tagged("corriedale", 100.0 - grams, 80.0, 28.0), part("lincoln-locks", grams)}));
    };
    CHECK(early(46.0) == warning);
    CHECK(early(54.0) == none);
}
