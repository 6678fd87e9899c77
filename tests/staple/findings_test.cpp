// Every other finding: a recipe that gives it, a near one that does not, and thresholds that move.
// Thresholds are common practice, no source, unless said.
#include "staple/findings.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "recipes.hpp"
#include "staple/distribution.hpp"

using namespace recipes;

TEST_CASE("short-with-nothing-to-hold-it grows with the share under 25 mm") {
    const auto blend = [](double short_grams, double short_mm = 15.0) {
        return batt({tagged("merino-medium", 50.0 - short_grams, 80.0, 22.0),
                     tagged("merino-fine", short_grams, short_mm, 19.0)});
    };
    const char* code = "short-with-nothing-to-hold-it";
    CHECK(gravity(code, blend(3.0)) == none);
    CHECK(gravity(code, blend(10.0)) == advice);
    CHECK(gravity(code, blend(20.0)) == warning);
    CHECK(gravity(code, blend(48.0)) == spoils);
    CHECK(gravity(code, blend(20.0, 60.0)) == none);
    const auto found = finding(code, blend(20.0));
    REQUIRE(found);
    CHECK(found->components == std::vector<std::size_t>{1});
    CHECK(found->action == staple::Remedy::lower_share);
    CHECK(found->action_value > 20.0);
    CHECK(found->action_value < 40.0);
}

TEST_CASE("a little short fibre added last is just right") {
    auto recipe = batt({tagged("merino-medium", 40.0, 80.0, 22.0), tagged("merino-fine", 10.0, 15.0, 19.0)});
    const auto found = finding("short-with-nothing-to-hold-it", recipe);
    REQUIRE(found);
    CHECK(found->action == staple::Remedy::add_on_last_pass);
    recipe.components[1] = on_last_pass(recipe.components[1]);
    CHECK(gravity("short-with-nothing-to-hold-it", recipe) == none);
}

TEST_CASE("short fibre alone: nothing to lower") {
    const auto found =
        finding("short-with-nothing-to-hold-it", batt({tagged("merino-fine", 50.0, 15.0, 19.0)}));
    REQUIRE(found);
    CHECK(found->severity == staple::Severity::spoils);
    CHECK(found->action == staple::Remedy::none);
}

TEST_CASE("long-wraps-drum: a long fibre, a fibre longer than the drum is round") {
    const auto wool = [](double staple_mm) { return batt({tagged("corriedale", 50.0, staple_mm, 28.0)}); };
    CHECK(gravity("long-wraps-drum", wool(80.0)) == none);
    CHECK(gravity("long-wraps-drum", wool(150.0)) ==
          none);  // "staples under 6 in": a lock is what is measured
    CHECK(gravity("long-wraps-drum", wool(200.0)) == warning);
    CHECK(gravity("long-wraps-drum", wool(600.0)) == spoils);
    CHECK(gravity("long-wraps-drum", wool(600.0), carder_with(72.0, 700.0)) == warning);
    CHECK(gravity("long-wraps-drum", wool(200.0), carder_with(72.0, 190.0)) == spoils);
    // A single long hair among much short wool does not count.
    CHECK(gravity("long-wraps-drum", batt({tagged("merino-medium", 49.0, 70.0, 22.0),
                                           tagged("corriedale", 1.0, 200.0, 28.0)})) == none);
}

TEST_CASE("fine-on-coarse-cloth follows both the cloth and the fibre") {
    const auto wool = [](double um) { return batt({tagged("merino-fine", 50.0, 75.0, um)}); };
    const char* code = "fine-on-coarse-cloth";
    // Classes of clothing, common practice: 45-54 coarse, 72 all-round, 90 fine, 120-128 very fine.
    CHECK(gravity(code, wool(19.0), carder_with(46.0)) == warning);
    CHECK(gravity(code, wool(22.0), carder_with(46.0)) == advice);
    CHECK(gravity(code, wool(28.0), carder_with(46.0)) == none);
    CHECK(gravity(code, wool(19.0), carder_with(72.0)) == none);
    CHECK(gravity(code, wool(16.0), carder_with(72.0)) == advice);
    CHECK(gravity(code, wool(14.0), carder_with(72.0)) == warning);
    CHECK(gravity(code, wool(16.0), carder_with(90.0)) == none);
    CHECK(gravity(code, wool(14.0), carder_with(90.0)) == advice);
    CHECK(gravity(code, wool(14.0), carder_with(128.0)) == none);
    // Between the classes too: what 60 teeth cannot do, 70 can.
    CHECK(gravity(code, wool(20.0), carder_with(60.0)) == advice);
    CHECK(gravity(code, wool(20.0), carder_with(70.0)) == none);
    // Silk is straight and does not nep as wool does.
    CHECK(gravity(code, batt({part("bombyx-silk", 50.0)}), carder_with(72.0)) == none);
    CHECK(gravity(code,
                  batt({tagged("corriedale", 49.0, 80.0, 28.0), tagged("merino-fine", 1.0, 80.0, 18.0)}),
                  carder_with(46.0)) == none);
}

TEST_CASE("coarse-on-fine-cloth follows both the cloth and the fibre") {
    const auto wool = [](double um) { return batt({tagged("corriedale", 50.0, 100.0, um)}); };
    const char* code = "coarse-on-fine-cloth";
    CHECK(gravity(code, wool(38.0), carder_with(46.0)) == none);
    CHECK(gravity(code, wool(38.0), carder_with(72.0)) == none);
    CHECK(gravity(code, wool(38.0), carder_with(90.0)) == advice);
    CHECK(gravity(code, wool(38.0), carder_with(128.0)) == warning);
    CHECK(gravity(code, wool(28.0), carder_with(128.0)) == advice);
    CHECK(gravity(code, wool(22.0), carder_with(128.0)) == none);
}

TEST_CASE("too-much-slick") {
    const auto blend = [](double silk) {
        return batt({part("corriedale", 50.0 - silk), part("tussah-silk", silk)});
    };
    CHECK(gravity("too-much-slick", blend(24.0)) == none);
    const auto found = finding("too-much-slick", blend(30.0));
    REQUIRE(found);
    CHECK(found->severity == staple::Severity::warning);
    CHECK(found->action == staple::Remedy::lower_share);
    CHECK(found->action_value == doctest::Approx(50.0));
    CHECK(found->components == std::vector<std::size_t>{1});
    const auto alone = finding("too-much-slick", batt({part("tussah-silk", 50.0)}));
    REQUIRE(alone);
    CHECK(alone->action == staple::Remedy::none);
}

TEST_CASE("sparkle-over-limit") {
    const auto blend = [](double sparkle) {
        return batt({part("corriedale", 50.0 - sparkle), on_last_pass(part("sparkle-film", sparkle))});
    };
    CHECK(gravity("sparkle-over-limit", blend(2.5)) == none);  // 5 %, at the limit
    CHECK(gravity("sparkle-over-limit", blend(3.5)) == advice);
    CHECK(gravity("sparkle-over-limit", blend(8.0)) == warning);
    const auto found = finding("sparkle-over-limit", blend(8.0));
    REQUIRE(found);
    CHECK(found->action_value == doctest::Approx(5.0));
    // A bought blend that is half sparkle may be twice as much.
    auto recipe = batt({part("corriedale", 40.0), part("corriedale", 10.0)});
    recipe.components[1].content = {{"corriedale", 50.0}, {"sparkle-film", 50.0}};
    const auto bought = finding("sparkle-over-limit", recipe);
    REQUIRE(bought);
    CHECK(bought->action_value == doctest::Approx(10.0));
}

TEST_CASE("inclusions-fall-out tells what to expect, from the kind's own figure") {
    const auto* neps = fibre::Catalogue::builtin().find("wool-neps");
    REQUIRE(neps != nullptr);
    REQUIRE(neps->retention < 0.9);
    const auto blend = [](double grams) {
        return batt({part("corriedale", 60.0 - grams), on_last_pass(part("wool-neps", grams))});
    };
    const auto found = finding("inclusions-fall-out", blend(12.0));
    REQUIRE(found);
    CHECK(found->text.find("12 g") != std::string::npos);
    const auto kept = static_cast<int>(std::lround(100.0 * neps->retention));
    CHECK_MESSAGE(found->text.find("(" + std::to_string(kept) + " %)") != std::string::npos, found->text);
    CHECK(gravity("inclusions-fall-out", blend(0.3)) == none);
    CHECK(gravity("inclusions-fall-out", batt({part("corriedale", 50.0)})) == none);
    // What is lost grows with what goes in.
    CHECK(gravity("inclusions-fall-out", blend(2.0)) == advice);
    CHECK(gravity("inclusions-fall-out", blend(45.0)) == warning);
}

TEST_CASE("inclusions-too-early") {
    const auto blend = [](int pass, int passes) {
        auto recipe = batt({part("corriedale", 45.0), part("wool-neps", 5.0)}, passes);
        recipe.components[1].add_on_pass = pass;
        return recipe;
    };
    const char* code = "inclusions-too-early";
    const auto found = finding(code, blend(1, 3));
    REQUIRE(found);
    CHECK(found->severity == staple::Severity::warning);
    CHECK(found->action == staple::Remedy::add_on_last_pass);
    CHECK(found->components == std::vector<std::size_t>{1});
    CHECK(found->text.find("3 times") != std::string::npos);
    CHECK(gravity(code, blend(2, 3)) == warning);
    CHECK(gravity(code, blend(3, 3)) == none);
    CHECK(gravity(code, blend(recipe::last_pass, 3)) == none);
    CHECK(gravity(code, blend(1, 1)) == none);
    CHECK(gravity(code, batt({part("corriedale", 49.0), part("sparkle-film", 1.0)})) == advice);
    // Neps bought carded into a wool cannot be kept back.
    auto tweed = batt({part("corriedale", 50.0)});
    tweed.components[0].content = {{"corriedale", 90.0}, {"wool-neps", 10.0}};
    CHECK(gravity(code, tweed) == none);
    // There is no layer to sandwich them between where there is nothing else.
    CHECK(gravity(code, batt({part("wool-neps", 50.0)})) == none);
    CHECK(gravity("inclusions-fall-out", batt({part("wool-neps", 50.0)})) == none);
    CHECK(gravity("nothing-to-carry-it", batt({part("wool-neps", 50.0)})) == spoils);
    // A batt of locks is carded as locks; a few locks in a wool are kept back.
    CHECK(gravity(code, batt({part("lincoln-locks", 50.0)})) == none);
    CHECK(gravity(code, batt({part("lincoln-locks", 35.0), part("romney", 15.0)})) == none);
    CHECK(gravity(code, batt({part("lincoln-locks", 10.0), part("romney", 40.0)})) == warning);
}

TEST_CASE("over-carding") {
    // Common practice, no source: past four or five passes the fibre neps and colours go muddy.
    const auto wool = [](const char* fibre, double um, int passes) {
        return batt({tagged(fibre, 50.0, 80.0, um)}, passes);
    };
    CHECK(gravity("over-carding", wool("corriedale", 28.0, 4)) == none);
    CHECK(gravity("over-carding", wool("corriedale", 28.0, 5)) == advice);
    CHECK(gravity("over-carding", wool("corriedale", 28.0, 7)) == warning);
    CHECK(gravity("over-carding", wool("merino-fine", 18.5, 5)) == warning);
    const auto found = finding("over-carding", wool("corriedale", 28.0, 7));
    REQUIRE(found);
    CHECK(found->action == staple::Remedy::fewer_passes);
    CHECK(found->action_value == 4.0);
}

TEST_CASE("what is short and fine rolls up a pass sooner") {
    // Common practice, no source: cotton and fine down roll into neps before a merino of the same thickness.
    const auto fibre = [](double staple_mm, double um, int passes) {
        return batt({tagged("merino-extrafine", 50.0, staple_mm, um)}, passes);
    };
    const char* code = "over-carding";
    CHECK(gravity(code, fibre(80.0, 18.0, 3)) == none);
    CHECK(gravity(code, fibre(40.0, 18.0, 3)) == advice);
    CHECK(gravity(code, fibre(40.0, 18.0, 2)) == none);
    // Short but not fine, and fine but not short: neither does.
    CHECK(gravity(code, fibre(40.0, 24.0, 4)) == none);
    CHECK(gravity(code, fibre(50.0, 16.0, 2)) == none);
    CHECK(gravity(code, batt({part("cotton", 50.0)}, 2)) == advice);
    CHECK(gravity(code, batt({part("yak", 50.0)}, 3)) == advice);
    const auto cotton = finding(code, batt({part("cotton", 50.0)}, 2));
    REQUIRE(cotton);
    CHECK(cotton->action_value == 1.0);
    CHECK(cotton->text.find("short fibre") != std::string::npos);
    // Fine cloth spares a pass; a pinch in a wool that bears more does not count.
    CHECK(gravity(code, batt({part("cotton", 50.0)}, 2), carder_with(120.0)) == none);
    CHECK(gravity(code, batt({part("cotton", 4.0), part("corriedale", 46.0)}, 4)) == none);
    CHECK(gravity(code, batt({part("cotton", 6.0), part("corriedale", 44.0)}, 4)) == warning);
    // What bears one pass is not told to go through twice.
    const auto both =
        finding("under-carded-for-blend", batt({part("cotton", 25.0), part("corriedale", 25.0)}, 1));
    REQUIRE(both);
    CHECK(both->action == staple::Remedy::none);
    CHECK(both->remedy.find("two or three") == std::string::npos);
}

TEST_CASE("under-carded-for-blend is a choice when only colours differ") {
    const char* code = "under-carded-for-blend";
    const auto colours = batt({part("corriedale", 25.0, "#22324f"), part("corriedale", 25.0, "#e4a77a")}, 1);
    const auto found = finding(code, colours);
    REQUIRE(found);
    CHECK(found->severity == staple::Severity::advice);
    CHECK(found->action == staple::Remedy::none);
    const auto kinds = finding(code, batt({part("corriedale", 25.0), part("shetland", 25.0)}, 1));
    REQUIRE(kinds);
    CHECK(kinds->action == staple::Remedy::more_passes);
    CHECK(kinds->action_value == 2.0);
    CHECK(gravity(code, batt({part("corriedale", 25.0), part("shetland", 25.0)}, 2)) == none);
    CHECK(gravity(code, batt({part("corriedale", 50.0)}, 1)) == none);
    // Nobody who lays colours apart is surprised that they lie apart.
    for (const auto feed : {recipe::Manner::stripes_across, recipe::Manner::gradient_across,
                            recipe::Manner::gradient_round, recipe::Manner::dabs}) {
        auto apart = colours;
        apart.carding.feed = feed;
        CHECK(gravity(code, apart) == none);
    }
    for (const auto feed : {recipe::Manner::sandwich, recipe::Manner::alternating}) {
        auto mixed = colours;
        mixed.carding.feed = feed;
        CHECK(gravity(code, mixed) == advice);
    }
}

TEST_CASE("over-load and under-load follow the carder") {
    const auto wool = [](double grams) { return batt({part("merino-medium", grams)}); };
    CHECK(gravity("over-load", wool(80.0)) == none);
    const auto found = finding("over-load", wool(170.0));
    REQUIRE(found);
    CHECK(found->severity == staple::Severity::advice);
    CHECK(found->text.find("170 g") != std::string::npos);
    CHECK(found->remedy.find("2 batts of 85 g") != std::string::npos);
    auto wide = carder_with(72.0);
    wide.load_high_grams = 200.0;
    CHECK(gravity("over-load", wool(170.0), wide) == none);
    CHECK(gravity("under-load", wool(20.0)) == none);
    CHECK(gravity("under-load", wool(10.0)) == advice);
    wide.load_low_grams = 60.0;
    CHECK(gravity("under-load", wool(20.0), wide) == advice);
}

TEST_CASE("prickle: more than 5 % of fibres over 30 um") {
    // Riverina Wool Testers, glossary of test results: over 5 % above 30.5 um may prickle; 30 um rounded.
    const auto worn = [](recipe::Recipe recipe) {
        recipe.purpose.next_to_skin = true;
        return recipe;
    };
    const auto blend = [&](double coarse_grams) {
        return worn(batt({tagged("merino-medium", 50.0 - coarse_grams, 80.0, 20.0),
                          tagged("corriedale", coarse_grams, 80.0, 36.0)}));
    };
    CHECK(gravity("prickle", blend(0.5)) == none);
    // Nobody said it is for the skin: how it feels is a figure with a word.
    CHECK(gravity("prickle", batt({tagged("lincoln", 50.0, 140.0, 38.0)})) == none);
    recipe::Recipe cowl = batt({tagged("lincoln", 50.0, 140.0, 38.0)}), blanket = cowl;
    cowl.purpose.thing = "cowl";
    blanket.purpose.thing = "blanket";
    CHECK(gravity("prickle", cowl) == warning);
    CHECK(gravity("prickle", blanket) == none);
    // Locks left whole are felt one by one; carded before the last pass they are fibre.
    auto locks = worn(batt({part("merino-fine", 30.0), part("lincoln-locks", 20.0)}));
    CHECK(finding("prickle", locks).value().components == std::vector<std::size_t>{1});
    CHECK(gravity("long-wraps-drum", locks) == warning);
    locks.components[1] = on_last_pass(locks.components[1]);
    CHECK(finding("prickle", locks).value().text.find("stay whole") != std::string::npos);
    CHECK(gravity("long-wraps-drum", locks) == warning);
    // Neps are fine and short and lift nothing: by number 5 % of them hid a Romney.
    CHECK(gravity("prickle", worn(batt({part("romney", 57.0), part("cotton-neps", 3.0)}))) == warning);
    const auto found = finding("prickle", blend(15.0));
    REQUIRE(found);
    CHECK(found->severity == staple::Severity::warning);  // a few coarse fibres undo a soft batt
    CHECK(found->basis == staple::Basis::published);
    CHECK_FALSE(found->source.empty());
    CHECK(found->components == std::vector<std::size_t>{1});
    // The remedy's share is by mass while the limit is by length of fibre; the forecast's own figure must
    // agree.
    REQUIRE(found->action == staple::Remedy::lower_share);
    const auto mended = strands_in(blend(50.0 * found->action_value / 100.0));
    CHECK(staple::summarise_diameters(mended).over_30um_pct <= 5.0);
    CHECK(staple::summarise_diameters(mended).over_30um_pct > 4.7);
    // A wool that is coarse altogether has nothing to lower.
    const auto rug = finding("prickle", cowl);
    REQUIRE(rug);
    CHECK(rug->action == staple::Remedy::none);
}

TEST_CASE("unknown-fibre until the tag is filled in") {
    const char* code = "unknown-fibre";
    const auto blend = [](double grams) {
        return batt({part("corriedale", 50.0 - grams), part("unknown-wool", grams)});
    };
    CHECK(gravity(code, blend(1.0)) == none);
    CHECK(gravity(code, blend(10.0)) == advice);
    auto measured = blend(10.0);
    measured.components[1] = tagged("unknown-wool", 10.0, 90.0, 25.0);
    CHECK(gravity(code, measured) == none);
    measured.components[1].diameter_um.reset();
    CHECK(gravity(code, measured) == advice);
}

TEST_CASE("dust") {
    const auto blend = [](double cotton) {
        return batt({part("corriedale", 50.0 - cotton), tagged("cotton", cotton, 22.0, 14.0)});
    };
    CHECK(gravity("dust", blend(1.0)) == none);
    CHECK(gravity("dust", blend(20.0)) == advice);
    CHECK(gravity("dust", batt({tagged("merino-fine", 50.0, 22.0, 18.0)})) == none);
}

TEST_CASE("nothing-to-carry-it: lumps with too little fibre, or none") {
    const char* code = "nothing-to-carry-it";
    const auto blend = [](double neps) {
        return batt({part("corriedale", 50.0 - neps), on_last_pass(part("wool-neps", neps))});
    };
    CHECK(gravity(code, blend(10.0)) == none);
    CHECK(gravity(code, blend(25.0)) == warning);
    CHECK(gravity(code, blend(40.0)) == spoils);
    CHECK(gravity(code, batt({part("cotton-neps", 50.0)})) == spoils);
}

TEST_CASE("what it is fit for: the published 5 % for skin, then the mean") {
    const auto feel = [](const recipe::Recipe& recipe) {
        const auto strands = strands_in(recipe);
        return staple::feel_of(staple::summarise_diameters(strands), staple::inclusions_of(strands));
    };
    CHECK(feel(batt({part("merino-fine", 50.0)})) == "next to the skin");
    CHECK(feel(batt({part("corriedale", 50.0)})) == "over other clothes");
    CHECK(feel(batt({part("lincoln", 50.0)})) == "rugs and bags");
    CHECK(feel(batt({part("merino-fine", 40.0), on_last_pass(part("lincoln-locks", 10.0))})) ==
          "over other clothes");
}

TEST_CASE("lengths and masses of a finding speak a person's units") {
    const auto found = finding("over-load", batt({part("merino-medium", 170.0)}));
    REQUIRE(found);
    CHECK(found->text.starts_with("170 g is more"));
    CHECK(staple::words_in(found->text_with_quantities, {measure::LengthUnit::inch, measure::MassUnit::ounce})
              .starts_with(measure::print_mass(170.0, measure::MassUnit::ounce) + " is more"));
    CHECK(staple::words_in("{mm 25.4} of {curly} words",
                           {measure::LengthUnit::inch, measure::MassUnit::gram}) ==
          measure::print_length(25.4, measure::LengthUnit::inch) + " of {curly} words");
}
