// Edits as pure functions: what gives way, what holds, what never breaks.
#include "app/bench/edits.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "forecast/forecast.hpp"
#include "recipe/composition.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using measure::Mass;
using measure::MassUnit;
using recipe::Parts;
using recipe::Percent;

namespace {

recipe::Component component(recipe::Amount amount, const std::string& fibre = "corriedale") {
    recipe::Component made;
    made.content = {{fibre, 100.0}};
    made.amount = amount;
    return made;
}

app::Sheet sheet(std::vector<recipe::Amount> amounts, std::optional<double> total = std::nullopt) {
    recipe::Recipe recipe;
    recipe.name = "Test Tide";
    if (total) recipe.total = Mass{*total, MassUnit::gram};
    for (const auto& amount : amounts) recipe.components.push_back(component(amount));
    return app::sheet_of(recipe);
}

std::vector<double> grams(const app::Sheet& sheet) {
    const auto masses = recipe::masses_of(sheet.recipe);
    if (!masses) FAIL(measure::to_line(masses.error()));
    return masses->grams;
}

double total(const app::Sheet& sheet) {
    double sum = 0.0;
    for (const double value : grams(sheet)) sum += value;
    return sum;
}

Mass in_grams(double value) {
    return {value, MassUnit::gram};
}

}  // namespace

TEST_CASE("a weight changed in a batt with no total changes nothing else") {
    const auto after = app::set_weight(sheet({in_grams(20), in_grams(30)}), 0, in_grams(5)).sheet;
    CHECK(grams(after)[0] == doctest::Approx(5.0));
    CHECK(grams(after)[1] == doctest::Approx(30.0));
    CHECK_FALSE(after.recipe.total);
}

TEST_CASE("in a batt with a total the others give way in proportion, each in its own way of writing") {
    const auto after =
        app::set_weight(sheet({Percent{50}, Percent{30}, Percent{20}}, 100.0), 0, in_grams(75)).sheet;
    CHECK(grams(after)[0] == doctest::Approx(75.0));
    CHECK(std::get<Percent>(after.recipe.components[1].amount).value == doctest::Approx(15.0));
    CHECK(std::get<Percent>(after.recipe.components[2].amount).value == doctest::Approx(10.0));
    CHECK(total(after) == doctest::Approx(100.0));
}

TEST_CASE("what is locked holds while the rest gives way") {
    auto before = sheet({Percent{50}, Percent{30}, Percent{20}}, 100.0);
    before = app::toggle_lock(before, 1);
    const auto after = app::set_percent(before, 0, 60.0).sheet;
    CHECK(grams(after)[1] == doctest::Approx(30.0));
    CHECK(grams(after)[2] == doctest::Approx(10.0));
}

TEST_CASE("parts take up a change before anything else does") {
    const auto after =
        app::set_weight(sheet({in_grams(20), Percent{40}, Parts{1}, Parts{3}}, 100.0), 0, in_grams(28)).sheet;
    CHECK(grams(after)[1] == doctest::Approx(40.0));
    CHECK(grams(after)[2] == doctest::Approx(8.0));
    CHECK(grams(after)[3] == doctest::Approx(24.0));
}

TEST_CASE("when nothing can give way the two that disagree are named, with the ways out") {
    auto before = app::toggle_lock(sheet({in_grams(40), in_grams(60)}, 100.0), 1);
    before.recipe.components[0].name = "kelp";
    before.recipe.components[1].name = "merino";
    const auto change = app::set_weight(before, 0, in_grams(60));
    CHECK(change.sheet == before);
    REQUIRE(change.disagreement);
    CHECK(change.disagreement->what ==
          "kelp at 60 g and merino, locked at 60 g, do not make a batt of 100 g.");
    REQUIRE(change.disagreement->ways.size() == 2);
    const auto& heavier = change.disagreement->ways[0];
    CHECK(heavier.words == "Let the batt weigh 120 g");
    CHECK(grams(heavier.sheet) == std::vector<double>{60.0, 60.0});
    const auto& unlocked = change.disagreement->ways[1];
    CHECK(unlocked.words == "Unlock merino");
    CHECK(grams(unlocked.sheet) == std::vector<double>{60.0, 40.0});
    CHECK_FALSE(unlocked.sheet.recipe.components[1].locked);
}

TEST_CASE("a total nobody typed follows when all else was typed or is locked") {
    auto now = sheet({in_grams(30), in_grams(20)});
    now = app::set_percent(now, 0, 50.0).sheet;
    CHECK(total(now) == doctest::Approx(50.0));
    now = app::set_weight(now, 1, in_grams(40)).sheet;
    CHECK(total(now) == doctest::Approx(80.0));
    CHECK(std::get<Percent>(now.recipe.components[0].amount).value == doctest::Approx(50.0));
}

TEST_CASE("what was just typed is not what gives way") {
    auto now = sheet({Percent{40}, Percent{30}, Percent{30}}, 60.0);
    now = app::set_percent(now, 0, 50.0).sheet;
    now = app::set_weight(now, 1, in_grams(25)).sheet;
    CHECK(std::get<Percent>(now.recipe.components[0].amount).value == doctest::Approx(50.0));
    CHECK(grams(now)[1] == doctest::Approx(25.0));
    CHECK(grams(now)[2] == doctest::Approx(5.0).epsilon(1e-3));  // shares are written to 0.01 %
    // All three were typed: the last but one still holds, the first gives way.
    now = app::set_weight(now, 2, in_grams(15)).sheet;
    CHECK(grams(now)[1] == doctest::Approx(25.0));
    CHECK(grams(now)[0] == doctest::Approx(20.0));
}

TEST_CASE("a newcomer keeps a typed total and what is locked, from the catalogue or with a weight") {
    auto now = sheet({Percent{50}, Percent{50}}, 60.0);
    now.recipe.components[1].name = "the other";
    now = app::toggle_lock(now, 0);
    const fibre::Kind& sparkle = *fibre::Catalogue::builtin().find("bombyx-silk");
    for (const auto& change :
         {app::add(now, sparkle), app::add(now, component(Parts{1}, "polwarth"), in_grams(10))}) {
        REQUIRE_FALSE(change.disagreement);
        CHECK(total(change.sheet) == doctest::Approx(60.0));
        CHECK(std::get<Percent>(change.sheet.recipe.components[0].amount).value == 50.0);
        CHECK(grams(change.sheet)[0] == doctest::Approx(30.0).epsilon(1e-3));
    }
    now = app::toggle_lock(now, 1);
    const auto change = app::add(now, sparkle);
    CHECK(change.sheet == now);
    REQUIRE(change.disagreement);
    // Two locked halves leave no share for a third: no total makes room for it.
    for (const auto& way : change.disagreement->ways) CHECK(way.words.rfind("Unlock ", 0) == 0);
    CHECK(change.disagreement->ways.size() == 2);
}

TEST_CASE("a typed total is the recipe's, and can be let go again") {
    auto now = app::set_total(sheet({in_grams(25), in_grams(25)}), in_grams(60)).sheet;
    REQUIRE(now.recipe.total);
    CHECK(now.recipe.total->grams == 60.0);
    now = app::add(now, component(Parts{1}, "polwarth"), in_grams(20)).sheet;
    CHECK(total(now) == doctest::Approx(60.0));
    now = app::free_total(now);
    CHECK_FALSE(now.recipe.total);
    now = app::set_weight(now, 2, in_grams(30)).sheet;
    CHECK(total(now) == doctest::Approx(70.0));
}

TEST_CASE("locks are in the file") {
    auto now = app::toggle_lock(sheet({in_grams(25), in_grams(30)}), 1);
    now.recipe.components[0].name = "one";
    const auto text = recipe::write_text(now.recipe);
    const auto read = recipe::read_text(text, "by hand", fibre::Catalogue::builtin());
    if (!read) FAIL(measure::to_line(read.error()));
    CHECK_FALSE(read->components[0].locked);
    CHECK(read->components[1].locked);
    CHECK(*read == now.recipe);
    auto wrong = text;
    wrong.replace(wrong.find("locked = true"), 13, "locked = 1   ");
    const auto refused = recipe::read_text(wrong, "by hand", fibre::Catalogue::builtin());
    REQUIRE_FALSE(refused);
    CHECK(refused.error().mend == "write true or false");
}

TEST_CASE("the total scales what is not locked, and refuses less than what is") {
    auto before = app::toggle_lock(sheet({in_grams(40), in_grams(20), in_grams(40)}), 0);
    const auto after = app::set_total(before, in_grams(70)).sheet;
    CHECK(grams(after)[0] == doctest::Approx(40.0));
    CHECK(grams(after)[1] == doctest::Approx(10.0));
    CHECK(grams(after)[2] == doctest::Approx(20.0));
    const auto refused = app::set_total(before, in_grams(39));
    CHECK(refused.sheet == before);
    REQUIRE(refused.disagreement);
    CHECK(refused.disagreement->what == "A batt of 39 g and corriedale, locked at 40 g, cannot both be.");
}

TEST_CASE("a typed weight is kept to the letter, ounces and all") {
    const auto typed = measure::parse_mass("3 1/2 oz");
    REQUIRE(typed);
    const auto after = app::set_weight(sheet({Percent{50}, Percent{50}}, 200.0), 0, *typed).sheet;
    // 1 oz = 28.349523125 g exactly, international yard and pound agreement of 1959.
    CHECK(std::get<Mass>(after.recipe.components[0].amount).grams ==
          doctest::Approx(3.5 * 28.349523125).epsilon(1e-12));
    CHECK(std::get<Mass>(after.recipe.components[0].amount).unit == MassUnit::ounce);
    CHECK(total(after) == doctest::Approx(200.0).epsilon(1e-4));
}

TEST_CASE("a border moves weight between two neighbours and no further than both can bear") {
    const auto before = sheet({Percent{50}, Percent{30}, Percent{20}}, 100.0);
    const auto after = app::move_border(before, 0, 10.0);
    CHECK(grams(after)[0] == doctest::Approx(60.0));
    CHECK(grams(after)[1] == doctest::Approx(20.0));
    CHECK(grams(after)[2] == doctest::Approx(20.0));
    const auto far = app::move_border(before, 0, 1000.0);
    CHECK(grams(far)[1] > 0.0);
    CHECK(grams(far)[0] + grams(far)[1] == doctest::Approx(80.0).epsilon(1e-4));
}

TEST_CASE("splitting in two leaves the batt as it was; order moves the mark with the component") {
    auto before = app::toggle_lock(sheet({Percent{50}, Percent{30}, Percent{20}}, 100.0), 2);
    const auto split = app::duplicate(before, 0);
    CHECK(grams(split) == std::vector<double>{25.0, 25.0, 30.0, 20.0});
    CHECK(split.marks[0].uid != split.marks[1].uid);
    const auto moved = app::reorder(before, 2, 0);
    CHECK(moved.recipe.components[0].locked);
    CHECK(grams(moved)[0] == doctest::Approx(20.0));
    CHECK(grams(moved)[2] == doctest::Approx(30.0));
}

TEST_CASE("remedies do what they say") {
    staple::Finding finding;
    finding.components = {2};
    finding.action = staple::Remedy::lower_share;
    finding.action_value = 5.0;
    const auto before = sheet({Percent{50}, Percent{30}, Percent{20}}, 100.0);
    CHECK(grams(app::apply_remedy(before, finding).sheet)[2] == doctest::Approx(5.0));
    CHECK(total(app::apply_remedy(before, finding).sheet) == doctest::Approx(100.0));
    finding.action = staple::Remedy::add_on_last_pass;
    CHECK(app::apply_remedy(before, finding).sheet.recipe.components[2].add_on_pass == recipe::last_pass);
    finding.action = staple::Remedy::remove_component;
    CHECK(app::apply_remedy(before, finding).sheet.recipe.components.size() == 2);
    finding.action = staple::Remedy::fewer_passes;
    finding.action_value = 0.0;
    CHECK(app::apply_remedy(before, finding).sheet.recipe.carding.passes == before.recipe.carding.passes - 1);
    // The engine's own number of passes where it names one.
    finding.action_value = 1.0;
    CHECK(app::apply_remedy(before, finding).sheet.recipe.carding.passes == 1);
    finding.action = staple::Remedy::lay_stripes;
    CHECK(app::apply_remedy(before, finding).sheet.recipe.carding.feed == recipe::Manner::stripes_across);
    CHECK(app::remedy_in_words(finding.action) == "Lay in stripes");
    CHECK(app::remedy_in_words(staple::Remedy::none).empty());
    finding.action = staple::Remedy::none;
    CHECK_FALSE(app::can_apply(finding));
    CHECK(app::apply_remedy(before, finding).sheet == before);
}

TEST_CASE("each colour finding has a button, and the button does away with it") {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto foretold = [&](const recipe::Recipe& recipe, colour::Light light) {
        forecast::Bench bench;
        bench.catalogue = &catalogue;
        bench.light = light;
        return *forecast::forecast(recipe, bench);
    };
    const auto found = [](const forecast::Forecast& f, const std::string& code) {
        return std::find_if(f.findings.begin(), f.findings.end(),
                            [&](const auto& x) { return x.code == code; });
    };
    struct Case {
        const char* code;
        const char* colours[2];
        int grams[2];
        const char* carding;
    };
    for (const Case& one :
         {Case{"colour-greys", {"colour = \"#1040c0\"", "colour = \"#e05010\""}, {25, 25}, "passes = 3"},
          Case{"dark-swallows", {"colour = \"#f0ece4\"", "colour = \"#141414\""}, {90, 10}, "passes = 3"},
          Case{"streaks-do-not-show",
               {"colour = \"#808080\"", "colour = \"#8e8e8e\""},
               {25, 25},
               "feed = \"stripes\"\npasses = 1"},
          Case{"streaks-do-not-show",
               {"colour = \"#f4f4f0\"", "colour = \"#fdfdfd\""},
               {25, 25},
               "feed = \"stripes\"\npasses = 1"},
          Case{"fleck-shows", {"colour = \"#444444\"", "colour = \"#f0ece4\""}, {90, 10}, "passes = 2"},
          Case{"parts-in-other-light",
               {"colours = [{ colour = \"#bd69fe\", share = \"50 %\" }, { colour = \"#a6eb8c\", share = \"50 "
                "%\" }]",
                "colour = \"#b29cbb\""},
               {25, 25},
               "passes = 3"}}) {
        CAPTURE(std::string(one.code));
        std::string text = "format = 1\n";
        for (int i = 0; i < 2; ++i)
            text += "[[component]]\nfibre = \"corriedale\"\nweight = \"" + std::to_string(one.grams[i]) +
                    " g\"\n" + one.colours[i] + "\n";
        const auto recipe = recipe::read_text(text + "[carding]\n" + one.carding + "\n", "r.toml", catalogue);
        REQUIRE(recipe.has_value());
        const auto before = foretold(*recipe, colour::Light::d65);
        const auto finding = found(before, one.code);
        REQUIRE(finding != before.findings.end());
        CHECK(app::can_apply(*finding));
        CHECK_FALSE(app::remedy_in_words(finding->action).empty());
        const bool by_light = finding->action == staple::Remedy::see_in_light;
        const auto change = app::apply_remedy(app::sheet_of(*recipe), *finding);
        CHECK_FALSE(change.disagreement.has_value());
        CHECK((change.sheet == app::sheet_of(*recipe)) == by_light);
        const auto light =
            by_light ? static_cast<colour::Light>(std::lround(finding->action_value)) : colour::Light::d65;
        const auto after = foretold(change.sheet.recipe, light);
        CHECK(found(after, one.code) == after.findings.end());
        // Nothing graver comes instead: stripes stay stripes on the passes after the first.
        for (const auto& other : after.findings) {
            CAPTURE(other.code);
            CHECK(other.severity <= staple::Severity::advice);
        }
    }
}

TEST_CASE("palette shares always sum to 100") {
    const auto before = sheet({Percent{100}}, 50.0);
    const auto after =
        app::set_palette(before, 0, {{{0.1, 0.2, 0.3}, 1.0}, {{0.4, 0.5, 0.6}, 1.0}, {{0.7, 0.8, 0.9}, 1.0}});
    double sum = 0.0;
    for (const auto& tint : after.recipe.components[0].palette) sum += tint.share_pct;
    CHECK(sum == doctest::Approx(100.0).epsilon(1e-12));
}

namespace {

app::Sheet random_edit(app::Sheet sheet, std::mt19937& random, std::string& what) {
    const auto& kinds = fibre::Catalogue::builtin().kinds();
    std::uniform_int_distribution<int> action(0, 9);
    std::uniform_real_distribution<double> amount(0.2, 95.0);
    const auto pick = [&random](std::size_t n) {
        return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
    };
    if (sheet.recipe.components.empty()) return app::add(sheet, kinds[pick(kinds.size())]).sheet;
    const std::size_t at = pick(sheet.recipe.components.size());
    const int chosen = action(random);
    what += " " + std::to_string(chosen) + "@" + std::to_string(at);
    switch (chosen) {
        case 0:
            return app::set_weight(sheet, at, {amount(random), MassUnit::gram}).sheet;
        case 1:
            return app::set_percent(sheet, at, amount(random)).sheet;
        case 2:
            return app::set_parts(sheet, at, amount(random) / 20.0).sheet;
        case 3:
            return app::set_total(sheet, {10.0 + amount(random), MassUnit::gram}).sheet;
        case 4:
            return app::toggle_lock(sheet, at);
        case 5:
            return sheet.recipe.components.size() < 12 ? app::add(sheet, kinds[pick(kinds.size())]).sheet
                                                       : sheet;
        case 6:
            what += " #";  // halves what it splits, locked or not
            return sheet.recipe.components.size() < 12 ? app::duplicate(sheet, at) : sheet;
        case 7:
            return app::remove(sheet, at).sheet;
        case 8:
            return app::reorder(sheet, at, pick(sheet.recipe.components.size()));
        default:
            return app::move_border(sheet, at, amount(random) - 47.0);
    }
}

}  // namespace

TEST_CASE("any run of edits leaves a recipe that checks, with locked weights untouched by others' changes") {
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        app::Sheet now;
        now.recipe.name = "Random Tide";
        std::string what;
        for (int step = 0; step < 60; ++step) {
            const auto before = now;
            now = random_edit(now, random, what);
            CAPTURE(what);
            for (std::size_t i = 0; i < before.marks.size(); ++i) {
                const auto& held = before.recipe.components[i];
                const auto at = app::index_of(now, before.marks[i].uid);
                const bool share = std::holds_alternative<Parts>(held.amount);
                if (!held.locked || share || at >= now.marks.size() ||
                    now.marks[at].typed > before.marks[i].typed)
                    continue;
                if (now.marks.size() == before.marks.size() + 1 && what.back() == '#') continue;
                if (now.marks.size() > 1) CHECK(now.recipe.components[at].amount == held.amount);
            }
            REQUIRE(now.marks.size() == now.recipe.components.size());
            if (now.recipe.components.empty()) continue;
            const auto checked = recipe::check(now.recipe, fibre::Catalogue::builtin());
            if (!checked) FAIL(measure::to_line(checked.error()), "\n", recipe::write_text(now.recipe));
            for (const double value : grams(now)) REQUIRE(value > 0.0);
        }
    }
}

TEST_CASE("a locked weight survives changes of every other component") {
    for (unsigned seed = 200; seed < 240; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        std::uniform_real_distribution<double> size(1.0, 60.0);
        auto now = sheet({in_grams(10), Percent{30}, Parts{1}, Percent{20}}, 100.0);
        now = app::toggle_lock(now, 0);
        for (int step = 0; step < 20; ++step) {
            const std::size_t at = 1 + static_cast<std::size_t>(step) % 3;
            now = step % 2 == 0 ? app::set_percent(now, at, size(random)).sheet
                                : app::set_weight(now, at, in_grams(size(random))).sheet;
            CHECK(grams(now)[0] == doctest::Approx(10.0).epsilon(1e-9));
        }
    }
}

TEST_CASE("feeding, feeding again and strips: each changes its own thing, is written, and reads back") {
    const auto before = sheet({in_grams(20), in_grams(30)});
    auto apart = before;
    apart.recipe.components[1].name = "the other";
    const auto read_back = [](const app::Sheet& after) {
        const auto recipe =
            recipe::read_text(recipe::write_text(after.recipe), "by hand", fibre::Catalogue::builtin());
        if (!recipe) FAIL(measure::to_line(recipe.error()));
        return recipe->carding;
    };
    using recipe::Manner;
    using recipe::Refeed;
    for (const auto manner : {Manner::sandwich, Manner::stripes_across, Manner::gradient_across,
                              Manner::gradient_round, Manner::dabs}) {
        const auto after = app::set_feed(apart, manner);
        CHECK_FALSE(after == apart);
        CHECK(read_back(after).feed == manner);
        CHECK(read_back(after).refeed == apart.recipe.carding.refeed);
    }
    for (const auto refeed : {Refeed::tear_and_fold, Refeed::halves}) {
        const auto after = app::set_refeed(apart, refeed);
        CHECK_FALSE(after == apart);
        CHECK(read_back(after).refeed == refeed);
    }
    CHECK(read_back(app::set_strips(apart, 7)).strips == 7);
    // Another tool takes along what makes sense there, and reads back as it is.
    for (const auto& carder : battwright::recipe::carder_presets()) {
        const auto moved = app::set_carder(app::set_feed(apart, Manner::gradient_round), carder);
        CHECK(read_back(moved) == moved.recipe.carding);
        CHECK(battwright::recipe::carder_of(read_back(moved)).id == carder.id);
    }
    const auto board = app::set_carder(apart, *battwright::recipe::find_carder("blending-board"));
    CHECK(read_back(app::set_rolags(board, 6)).rolags == 6);
    CHECK(app::set_rolags(board, -1).recipe.carding.rolags == 0);
    CHECK(app::set_strips(before, 0).recipe.carding.strips == 1);
    CHECK(app::set_strips(before, 99).recipe.carding.strips == app::most_strips);
    CHECK(app::set_feed(before, before.recipe.carding.feed).recipe.components[0] ==
          before.recipe.components[0]);
}
