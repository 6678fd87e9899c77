// No two sentences of one forecast contradict each other, and on ordinary recipes the tool does not cry wolf.
#include <doctest/doctest.h>

#include <algorithm>

#include <map>
#include <random>
#include <regex>
#include <set>

#include "carding/feed.hpp"
#include "carding/measures.hpp"
#include "forecast/forecast.hpp"

using namespace battwright;

namespace {

// Sentences that must not meet in one forecast, findings and plan together.
struct Clash {
    const char* one;
    const char* other;
};
constexpr Clash must_not_meet[] = {
    {"(card|carded|make) (it )?(a pass|once|two|three|more).*(more|passes)", "[Ss]top (at|a pass)"},
    {"card it once more", "no more passes|[Ss]top (at|a pass)"},
    {"One pass leaves", "[Ss]top (at|a pass)|more than the . that"},
    {"is more than one batt on this drum", "is little for this drum"},
    {"has no ends to draft by: there is no fibre", "[Ss]andwich"},
    {"has no ends to draft by: there is no fibre", "times as long|times as thick|drafts? in puffs"},
    {"Lay them in stripes", "The colours are laid apart"},
};

forecast::Forecast foretold(const recipe::Recipe& recipe) {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    auto f = forecast::forecast(recipe, bench);
    if (!f) FAIL(measure::to_line(f.error()));
    return *f;
}

recipe::Component part(const std::string& kind, double grams, std::mt19937& random) {
    std::uniform_int_distribution<int> byte(0, 255);
    recipe::Component component;
    component.content = {{kind, 100.0}};
    component.palette = {{{byte(random) / 255.0, byte(random) / 255.0, byte(random) / 255.0}, 100.0}};
    component.amount = measure::Mass{grams, measure::MassUnit::gram};
    return component;
}

recipe::Recipe any_recipe(std::mt19937& random) {
    const auto& kinds = fibre::Catalogue::builtin().kinds();
    std::uniform_int_distribution<std::size_t> any(0, kinds.size() - 1);
    std::uniform_int_distribution<int> count(1, 6), passes(1, 6), third(0, 2), manner(0, 5), carder(0, 3);
    std::uniform_real_distribution<double> grams(0.5, 45.0);
    recipe::Recipe recipe;
    recipe.name = "any";
    for (int i = count(random); i > 0; --i) {
        recipe.components.push_back(part(kinds[any(random)].id, grams(random), random));
        if (third(random) == 0) recipe.components.back().add_on_pass = recipe::last_pass;
        recipe.components.back().name = std::string("c") + std::to_string(i);
    }
    recipe.carding.passes = passes(random);
    recipe.carding.feed = static_cast<recipe::Manner>(manner(random));
    recipe.carding.carder = recipe::carder_presets()[static_cast<std::size_t>(carder(random))].id;
    if (third(random) == 0) recipe.purpose.next_to_skin = third(random) != 0;
    return recipe;
}

std::string words_of(const forecast::Forecast& f) {
    std::string words;
    for (const auto& finding : f.findings) words += finding.text + " " + finding.remedy + "\n";
    for (const auto& step : f.plan.steps) words += step.text + "\n";
    return words;
}

const staple::Finding* found(const forecast::Forecast& f, std::string_view code) {
    for (const auto& finding : f.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

}  // namespace

TEST_CASE("no two sentences of one forecast contradict each other") {
    std::vector<std::pair<std::regex, std::regex>> clashes;
    for (const Clash& clash : must_not_meet)
        clashes.emplace_back(std::regex(clash.one), std::regex(clash.other));
    std::set<std::string> codes;
    for (unsigned seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const recipe::Recipe recipe = any_recipe(random);
        const forecast::Forecast f = foretold(recipe);
        const std::string words = words_of(f);
        CAPTURE(words);
        for (std::size_t i = 0; i < clashes.size(); ++i) {
            CAPTURE(must_not_meet[i].one);
            CHECK_FALSE(
                (std::regex_search(words, clashes[i].first) && std::regex_search(words, clashes[i].second)));
        }
        // The plan's batts are the finding's.
        const auto* over_load = found(f, "over-load");
        CHECK((over_load != nullptr) == (f.weigh_out.batts > 1));
        if (over_load != nullptr)
            CHECK(over_load->remedy.find("Card it as " + std::to_string(f.weigh_out.batts) + " batts") == 0);
        // The simulation's passes are the finding's.
        const auto portions = carding::portions_of(f.recipe, f.strands);
        const auto borne =
            carding::over_carding(portions, f.carder.teeth_per_square_inch, recipe.carding.passes);
        const bool all_lumps = std::all_of(portions.begin(), portions.end(),
                                           [](const carding::Portion& p) { return p.lump_grams > 0.0; });
        if (!all_lumps)
            CHECK((found(f, "over-carding") != nullptr) == (recipe.carding.passes > borne.safe_passes));
        if (found(f, "prickle") != nullptr) CHECK(f.feel != "next to the skin");
        // Nothing is compared with itself under one name.
        for (const auto& finding : f.findings) {
            codes.insert(finding.code);
            for (const auto& kind : f.kinds)
                CHECK_FALSE((finding.text.starts_with(kind.name) &&
                             finding.text.find("times as long as " + kind.name) != std::string::npos));
            if (finding.code == "length-mismatch" || finding.code == "diameter-mismatch")
                CHECK(finding.components.size() <= recipe.components.size());
        }
    }
    CHECK(codes.size() >= 18);
}

TEST_CASE("on ordinary recipes at most a third carry a warning, and no finding is as common as one in four") {
    const std::vector<std::string> wools{"merino-fine",         "merino-medium", "corriedale", "polwarth",
                                         "bluefaced-leicester", "shetland",      "falkland",   "romney",
                                         "finnsheep",           "cheviot"};
    const std::vector<std::string> extras{"tussah-silk",    "bombyx-silk", "alpaca",
                                          "bamboo-viscose", "mohair-kid",  "yak"};
    constexpr int many = 600;
    int warned = 0, clean = 0;
    std::map<std::string, int> speaks;
    std::mt19937 random(20);
    const auto pick = [&](const auto& from) {
        return from[std::uniform_int_distribution<std::size_t>(0, from.size() - 1)(random)];
    };
    for (int n = 0; n < many; ++n) {
        recipe::Recipe recipe;
        recipe.name = "ordinary";
        std::vector<std::string> kinds = wools;
        std::shuffle(kinds.begin(), kinds.end(), random);
        kinds.resize(static_cast<std::size_t>(pick(std::vector<int>{1, 2, 2, 3})));
        std::uniform_int_distribution<int> parts(2, 5);
        for (const std::string& kind : kinds) {
            recipe.components.push_back(part(kind, 1.0, random));
            recipe.components.back().amount = recipe::Parts{static_cast<double>(parts(random))};
        }
        if (random() % 2 == 0) {
            recipe.components.push_back(part(pick(extras), 1.0, random));
            recipe.components.back().amount = recipe::Parts{1.0};
        }
        recipe.total =
            measure::Mass{pick(std::vector<double>{30.0, 40.0, 50.0, 60.0}), measure::MassUnit::gram};
        recipe.carding.passes = pick(std::vector<int>{2, 3});
        const forecast::Forecast f = foretold(recipe);
        bool warns = false;
        for (const auto& finding : f.findings) {
            ++speaks[finding.code];
            warns = warns || finding.severity != staple::Severity::advice;
        }
        warned += warns ? 1 : 0;
        clean += f.findings.empty() ? 1 : 0;
    }
    MESSAGE("of " << many << ": warned " << warned << ", nothing said of " << clean);
    CHECK(3 * warned <= many);
    CHECK(2 * clean >= many / 2);
    for (const auto& [code, times] : speaks) {
        MESSAGE(code << " " << times);
        CHECK_MESSAGE(4 * times < many, code);
    }
}
