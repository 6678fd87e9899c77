// What holds for every list of findings.
#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <random>
#include <regex>
#include <set>

#include "recipes.hpp"

using namespace recipes;
using staple::Finding;

namespace {

recipe::Recipe random_batt(std::mt19937& random) {
    const auto& kinds = fibre::Catalogue::builtin().kinds();
    std::uniform_int_distribution<std::size_t> any(0, kinds.size() - 1);
    std::uniform_int_distribution<int> count(2, 8), passes(1, 7), byte(0, 255), coin(0, 1);
    std::uniform_real_distribution<double> grams(0.5, 30.0);
    std::vector<recipe::Component> parts;
    for (int i = count(random); i > 0; --i) {
        auto component = part(kinds[any(random)].id, grams(random));
        component.palette = {{{byte(random) / 255.0, byte(random) / 255.0, byte(random) / 255.0}, 100.0}};
        parts.push_back(coin(random) == 1 ? on_last_pass(component) : component);
    }
    return batt(std::move(parts), passes(random));
}

recipe::Carder random_carder(std::mt19937& random) {
    std::uniform_real_distribution<double> teeth(40.0, 140.0), drum(250.0, 700.0);
    return carder_with(teeth(random), drum(random));
}

// Code, gravity, words and components: all of a finding that a person sees.
using Seen = std::tuple<std::string, int, std::string, std::string, std::set<std::size_t>, int, double>;
std::set<Seen> seen(const std::vector<Finding>& findings, const std::vector<std::size_t>& place) {
    std::set<Seen> all;
    for (const Finding& f : findings) {
        std::set<std::size_t> components;
        for (const std::size_t component : f.components) components.insert(place.at(component));
        all.emplace(f.code, static_cast<int>(f.severity), f.text, f.remedy, components,
                    static_cast<int>(f.action), f.action_value);
    }
    return all;
}

std::vector<std::size_t> in_place(std::size_t count) {
    std::vector<std::size_t> places(count);
    std::iota(places.begin(), places.end(), std::size_t{0});
    return places;
}

void put_in(recipe::Recipe& recipe, std::size_t component, double grams) {
    recipe.components[component].amount = measure::Mass{grams, measure::MassUnit::gram};
}

// Does as the finding says; what is taken away the others give back in proportion.
recipe::Recipe mended(recipe::Recipe recipe, const Finding& f) {
    const auto masses = recipe::masses_of(recipe).value();
    const auto is_meant = [&](std::size_t i) {
        return std::find(f.components.begin(), f.components.end(), i) != f.components.end();
    };
    if (f.action == staple::Remedy::fewer_passes || f.action == staple::Remedy::more_passes)
        recipe.carding.passes = static_cast<int>(f.action_value);
    if (f.action == staple::Remedy::add_on_last_pass)
        for (const std::size_t i : f.components) recipe.components[i].add_on_pass = recipe::last_pass;
    if (f.action == staple::Remedy::lower_share) {
        double meant = 0.0;
        for (const std::size_t i : f.components) meant += masses.grams[i];
        const double total = masses.total_grams, wanted = f.action_value / 100.0 * total;
        for (std::size_t i = 0; i < masses.grams.size(); ++i)
            put_in(recipe, i,
                   masses.grams[i] * (is_meant(i) ? wanted / meant : (total - wanted) / (total - meant)));
    }
    if (f.action == staple::Remedy::remove_component)
        for (std::size_t i = recipe.components.size(); i-- > 0;)
            if (is_meant(i))
                recipe.components.erase(recipe.components.begin() + static_cast<std::ptrdiff_t>(i));
    return recipe;
}

}  // namespace

TEST_CASE("a clean batt draws no more than advice") {
    for (const auto& recipe :
         {batt({part("merino-medium", 50.0)}),
          batt({part("corriedale", 30.0, "#28506b"), part("corriedale", 20.0, "#6f93a3")})})
        for (const Finding& f : findings(recipe, *recipe::find_carder("table-standard")))
            CHECK_MESSAGE(f.severity == staple::Severity::advice, f.code << ": " << f.text);
    CHECK(findings(batt({part("merino-medium", 50.0)}), *recipe::find_carder("table-standard")).empty());
    CHECK(staple::findings_of(recipe::Recipe{}, {}, carder_with(72.0)).empty());
}

TEST_CASE("a crew that does not belong together would spoil the batt") {
    const auto found = findings(
        batt({tagged("lincoln", 24.0, 230.0, 38.0), part("merino-fine", 24.0), part("angora", 12.0)}, 5),
        carder_with(46.0));
    REQUIRE_FALSE(found.empty());
    CHECK(found.front().severity == staple::Severity::spoils);
    std::set<std::string> codes;
    for (const Finding& f : found) codes.insert(f.code);
    for (const char* code :
         {"length-mismatch", "diameter-mismatch", "long-wraps-drum", "fine-on-coarse-cloth", "over-carding"})
        CHECK_MESSAGE(codes.count(code) == 1, code);
}

TEST_CASE("every finding is whole: code, words, numbers, remedy, basis") {
    const std::regex kebab("[a-z]+(-[a-z]+)*");
    std::set<std::string> all_codes;
    for (unsigned seed = 1; seed <= 150; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto recipe = random_batt(random);
        const auto found = findings(recipe, random_carder(random));
        std::set<std::string> codes;
        for (const Finding& f : found) {
            CAPTURE(f.code);
            CHECK(std::regex_match(f.code, kebab));
            CHECK(codes.insert(f.code).second);
            CHECK(f.text.find_first_of("0123456789O") != std::string::npos);  // "One pass" has its number too
            CHECK(f.text.back() == '.');
            CHECK(f.remedy.back() == '.');
            for (const std::string& words : {f.text, f.remedy}) {
                CHECK(words.find("nan") == std::string::npos);
                CHECK(words.find("  ") == std::string::npos);
            }
            CHECK((f.basis == staple::Basis::published) == !f.source.empty());
            CHECK(std::is_sorted(f.components.begin(), f.components.end()));
            for (const std::size_t component : f.components) CHECK(component < recipe.components.size());
            if (f.action == staple::Remedy::lower_share) {
                CHECK(f.action_value > 0.0);
                CHECK(f.action_value < 100.0);
            }
        }
        all_codes.insert(codes.begin(), codes.end());
        CHECK(std::is_sorted(found.begin(), found.end(),
                             [](const Finding& a, const Finding& b) { return a.severity > b.severity; }));
    }
    CHECK(all_codes.size() >= 14);  // or the sample is too tame to mean much
}

TEST_CASE("findings do not depend on the order of the components") {
    for (unsigned seed = 201; seed <= 300; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto recipe = random_batt(random);
        const auto carder = random_carder(random);
        auto order = in_place(recipe.components.size());
        std::shuffle(order.begin(), order.end(), random);
        auto shuffled = recipe;
        for (std::size_t i = 0; i < order.size(); ++i) shuffled.components[i] = recipe.components[order[i]];
        CHECK(seen(findings(recipe, carder), in_place(order.size())) ==
              seen(findings(shuffled, carder), order));
    }
}

TEST_CASE("splitting a component in two changes no finding but its list of components") {
    for (unsigned seed = 301; seed <= 360; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto recipe = random_batt(random);
        const auto carder = random_carder(random);
        auto split = recipe;
        const double grams = std::get<measure::Mass>(recipe.components[0].amount).grams;
        split.components.push_back(recipe.components[0]);
        put_in(split, 0, 0.3 * grams);
        put_in(split, split.components.size() - 1, 0.7 * grams);
        auto places = in_place(split.components.size());
        places.back() = 0;
        CHECK(seen(findings(recipe, carder), in_place(recipe.components.size())) ==
              seen(findings(split, carder), places));
    }
}

TEST_CASE("scaling the weights changes the loads and the grams, not the gravity of anything else") {
    for (unsigned seed = 401; seed <= 440; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto recipe = random_batt(random);
        const auto carder = random_carder(random);
        auto scaled = recipe;
        for (auto& component : scaled.components) std::get<measure::Mass>(component.amount).grams *= 2.5;
        const auto gravities = [&](const recipe::Recipe& one) {
            std::set<std::pair<std::string, int>> all;
            for (const Finding& f : findings(one, carder))
                if (f.code != "over-load" && f.code != "under-load")
                    all.emplace(f.code, static_cast<int>(f.severity));
            return all;
        };
        CHECK(gravities(recipe) == gravities(scaled));
    }
}

TEST_CASE("doing as the finding says lifts it, or lowers its gravity") {
    std::set<staple::Remedy> tried;
    for (unsigned seed = 501; seed <= 640; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto recipe = random_batt(random);
        const auto carder = random_carder(random);
        for (const Finding& f : findings(recipe, carder)) {
            if (f.action == staple::Remedy::none) continue;
            CAPTURE(f.code);
            CAPTURE(f.text);
            CHECK(gravity(f.code, mended(recipe, f), carder) < static_cast<int>(f.severity));
            tried.insert(f.action);
        }
    }
    CHECK(tried.count(staple::Remedy::lower_share) == 1);
    CHECK(tried.count(staple::Remedy::add_on_last_pass) == 1);
    CHECK(tried.count(staple::Remedy::fewer_passes) == 1);
    CHECK(tried.count(staple::Remedy::more_passes) == 1);
}

TEST_CASE("words for severity and basis are the contract's") {
    CHECK(staple::word_for(staple::Severity::advice) == "advice");
    CHECK(staple::word_for(staple::Severity::warning) == "warning");
    CHECK(staple::word_for(staple::Severity::spoils) == "spoils");
    CHECK(staple::word_for(staple::Basis::published) == "published");
    CHECK(staple::word_for(staple::Basis::common_practice) == "common practice");
}
