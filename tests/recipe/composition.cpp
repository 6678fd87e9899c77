#include "recipe/composition.hpp"

#include <cmath>
#include <numeric>

#include "colour/spaces.hpp"
#include "random_recipe.hpp"

namespace recipe = battwright::recipe;
namespace measure = battwright::measure;
namespace fibre = battwright::fibre;
using battwright::testing::pick;
using battwright::testing::random_recipe;
using battwright::testing::seeded;
using battwright::testing::uniform;
using battwright::testing::whole;
using recipe::Parts;
using recipe::Percent;

namespace {

recipe::Component of(const std::string& id, recipe::Amount amount) {
    recipe::Component component;
    component.content = {{id, 100.0}};
    component.amount = amount;
    return component;
}

recipe::Recipe with(std::optional<double> total_grams, const std::vector<recipe::Amount>& amounts) {
    recipe::Recipe result;
    result.name = "Slack Water";
    if (total_grams) result.total = measure::Mass{*total_grams, measure::MassUnit::gram};
    for (const recipe::Amount& amount : amounts) result.components.push_back(of("corriedale", amount));
    return result;
}

measure::Mass grams(double value) {
    return {value, measure::MassUnit::gram};
}

std::string complaint(const recipe::Recipe& recipe) {
    const auto masses = recipe::masses_of(recipe);
    REQUIRE_FALSE(masses.has_value());
    return measure::to_line(masses.error());
}

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

}  // namespace

TEST_CASE("weights, percentages and parts worked by hand") {
    // 100 g: 25 g fixed, 60 % is 60 g, the last 15 g are shared 2 to 1.
    const auto mixed =
        recipe::masses_of(with(100.0, {grams(25.0), Percent{60.0}, Parts{2.0}, Parts{1.0}})).value();
    CHECK(mixed.grams[0] == 25.0);
    CHECK(mixed.grams[1] == doctest::Approx(60.0));
    CHECK(mixed.grams[2] == doctest::Approx(10.0));
    CHECK(mixed.grams[3] == doctest::Approx(5.0));
    CHECK(mixed.total_grams == doctest::Approx(100.0));
    // No total: 30 g are the 75 % that a quarter leaves, so the whole is 40 g.
    const auto implied =
        recipe::masses_of(with(std::nullopt, {grams(20.0), grams(10.0), Percent{25.0}})).value();
    CHECK(implied.total_grams == doctest::Approx(40.0));
    CHECK(implied.grams[2] == doctest::Approx(10.0));
    // Only weights.
    CHECK(recipe::masses_of(with(std::nullopt, {grams(20.0), grams(10.0)}))->total_grams == 30.0);
    // Parts alone share the total.
    CHECK(recipe::masses_of(with(54.0, {Parts{1.0}, Parts{1.0}, Parts{1.0}}))->grams[1] ==
          doctest::Approx(18.0));
}

TEST_CASE("thirds in percent close") {
    const auto masses =
        recipe::masses_of(with(90.0, {Percent{33.33}, Percent{33.33}, Percent{33.33}})).value();
    CHECK(masses.total_grams == doctest::Approx(90.0).epsilon(1e-12));
    CHECK(masses.grams[0] == doctest::Approx(30.0));
    CHECK_FALSE(recipe::masses_of(with(90.0, {Percent{33.3}, Percent{33.3}, Percent{33.3}})).has_value());
}

TEST_CASE("a small percentage is never bent to zero or below") {
    const auto masses = recipe::masses_of(with(100.0, {grams(100.005), Percent{0.02}})).value();
    CHECK(masses.grams[1] == doctest::Approx(0.02));
}

TEST_CASE("sums that do not close name their components") {
    CHECK(complaint(with(100.0, {Percent{60.0}, Percent{50.0}}))
              .find("component 1 share, component 2 share: ") == 0);
    CHECK(complaint(with(50.0, {grams(40.0), grams(20.0)}))
              .find("total, component 1 weight, component 2 weight: ") == 0);
    CHECK(complaint(with(100.0, {grams(40.0)})).find("the weights come to 40 g but the total is 100 g") !=
          std::string::npos);
    CHECK(complaint(with(50.0, {grams(50.0), Parts{1.0}})).find("component 2 parts: ") == 0);
    CHECK(complaint(with(std::nullopt, {Parts{1.0}})).find("the recipe has no total") != std::string::npos);
    CHECK(complaint(with(std::nullopt, {grams(9.0), Parts{1.0}})).find("component 2 parts: ") == 0);
    CHECK(complaint(with(std::nullopt, {Percent{60.0}, Percent{40.0}})).find("nothing here has a weight") !=
          std::string::npos);
    CHECK(complaint(with(std::nullopt, {grams(9.0), Percent{100.0}})).find("leave nothing") !=
          std::string::npos);
    CHECK(complaint(with(std::nullopt, {})).find("no components") != std::string::npos);
    CHECK(complaint(with(0.0, {Parts{1.0}})).find("total: ") == 0);
    CHECK(complaint(with(std::nan(""), {Parts{1.0}})).find("total: ") == 0);
    CHECK(complaint(with(50.0, {grams(-1.0), Parts{1.0}})).find("component 1 weight: ") == 0);
    CHECK(complaint(with(50.0, {Percent{std::nan("")}, Parts{1.0}})).find("component 1 share: ") == 0);
}

TEST_CASE("the order of components does not matter to the masses") {
    auto random = seeded();
    for (int round = 0; round < 500; ++round) {
        const recipe::Recipe original = random_recipe(random);
        recipe::Recipe shuffled = original;
        std::vector<std::size_t> order(original.components.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::shuffle(order.begin(), order.end(), random);
        for (std::size_t i = 0; i < order.size(); ++i) shuffled.components[i] = original.components[order[i]];
        const auto before = recipe::masses_of(original).value();
        const auto after = recipe::masses_of(shuffled).value();
        REQUIRE(after.total_grams == doctest::Approx(before.total_grams).epsilon(1e-12));
        for (std::size_t i = 0; i < order.size(); ++i) {
            REQUIRE(after.grams[i] == doctest::Approx(before.grams[order[i]]).epsilon(1e-9));
        }
    }
}

TEST_CASE("scaling the weights scales the masses and nothing else") {
    auto random = seeded();
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    for (int round = 0; round < 500; ++round) {
        const recipe::Recipe original = random_recipe(random);
        recipe::Recipe scaled = original;
        const double factor = uniform(random, 0.5, 8.0);
        if (scaled.total) scaled.total->grams *= factor;
        for (recipe::Component& component : scaled.components) {
            if (auto* mass = std::get_if<measure::Mass>(&component.amount)) mass->grams *= factor;
        }
        const auto before = recipe::masses_of(original).value();
        const auto after = recipe::masses_of(scaled).value();
        REQUIRE(after.total_grams == doctest::Approx(before.total_grams * factor).epsilon(1e-9));
        const auto small = recipe::strands_of(original, before, catalogue);
        const auto large = recipe::strands_of(scaled, after, catalogue);
        REQUIRE(small.size() == large.size());
        for (std::size_t i = 0; i < small.size(); ++i) {
            REQUIRE(large[i].grams == doctest::Approx(small[i].grams * factor).epsilon(1e-9));
            REQUIRE(large[i].mass_share == doctest::Approx(small[i].mass_share).epsilon(1e-9));
            REQUIRE(large[i].count_share == doctest::Approx(small[i].count_share).epsilon(1e-9));
            REQUIRE(large[i].staple_mm == small[i].staple_mm);
            REQUIRE(large[i].tex == small[i].tex);
        }
    }
}

TEST_CASE("splitting a component in two does not matter") {
    auto random = seeded();
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    for (int round = 0; round < 500; ++round) {
        const recipe::Recipe original = random_recipe(random);
        recipe::Recipe split = original;
        const auto at =
            static_cast<std::size_t>(whole(random, 0, static_cast<int>(original.components.size()) - 1));
        const double share = uniform(random, 0.1, 0.9);
        recipe::Component second = split.components[at];
        const auto scale = [](recipe::Amount& amount, double by) {
            if (auto* mass = std::get_if<measure::Mass>(&amount)) mass->grams *= by;
            if (auto* percent = std::get_if<Percent>(&amount)) percent->value *= by;
            if (auto* parts = std::get_if<Parts>(&amount)) parts->value *= by;
        };
        scale(split.components[at].amount, share);
        scale(second.amount, 1.0 - share);
        split.components.push_back(second);
        const auto before = recipe::masses_of(original).value();
        const auto after = recipe::masses_of(split).value();
        REQUIRE(after.total_grams == doctest::Approx(before.total_grams).epsilon(1e-9));
        REQUIRE(after.grams[at] + after.grams.back() == doctest::Approx(before.grams[at]).epsilon(1e-9));
        const auto count_of = [&](const std::vector<recipe::Strand>& strands, const fibre::Kind* kind) {
            double count = 0.0;
            for (const auto& strand : strands) count += strand.kind.get() == kind ? strand.count_share : 0.0;
            return count;
        };
        const auto whole_strands = recipe::strands_of(original, before, catalogue);
        const auto split_strands = recipe::strands_of(split, after, catalogue);
        const fibre::Kind* kind = catalogue.find(second.content.front().fibre);
        REQUIRE(count_of(split_strands, kind) ==
                doctest::Approx(count_of(whole_strands, kind)).epsilon(1e-9));
    }
}

TEST_CASE("strands hold the whole batt") {
    auto random = seeded();
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    for (int round = 0; round < 500; ++round) {
        const recipe::Recipe recipe = random_recipe(random);
        REQUIRE(recipe::check(recipe, catalogue).has_value());
        const auto masses = recipe::masses_of(recipe).value();
        REQUIRE(sum(masses.grams) == doctest::Approx(masses.total_grams).epsilon(1e-12));
        std::vector<double> by_component(recipe.components.size(), 0.0);
        double mass_share = 0.0;
        double count_share = 0.0;
        for (const recipe::Strand& strand : recipe::strands_of(recipe, masses, catalogue)) {
            by_component[strand.component] += strand.grams;
            mass_share += strand.mass_share;
            count_share += strand.count_share;
            REQUIRE(strand.grams > 0.0);
            REQUIRE(strand.dry_grams <= strand.grams);
        }
        REQUIRE(mass_share == doctest::Approx(1.0).epsilon(1e-9));
        REQUIRE(count_share == doctest::Approx(1.0).epsilon(1e-9));
        for (std::size_t i = 0; i < by_component.size(); ++i) {
            REQUIRE(by_component[i] == doctest::Approx(masses.grams[i]).epsilon(1e-9));
        }
    }
}

TEST_CASE("kinds times colours, the tag before the catalogue") {
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    recipe::Recipe recipe = with(std::nullopt, {grams(100.0)});
    recipe::Component& component = recipe.components.front();
    component.content = {{"polwarth", 70.0}, {"bombyx-silk", 20.0}, {"wool-neps", 10.0}};
    component.palette = {{{1.0, 0.0, 0.0}, 60.0}, {{0.0, 0.0, 1.0}, 40.0}};
    component.staple = measure::Length{95.0, measure::LengthUnit::millimetre};
    component.diameter_um = 21.0;
    const auto strands = recipe::strands_of(recipe, recipe::masses_of(recipe).value(), catalogue);
    REQUIRE(strands.size() == 6);
    CHECK(strands[0].grams == doctest::Approx(42.0));
    CHECK(strands[1].grams == doctest::Approx(28.0));
    CHECK(strands[2].grams == doctest::Approx(12.0));
    CHECK(strands[5].colour == battwright::colour::Srgb{0.0, 0.0, 1.0});
    const fibre::Kind& polwarth = *catalogue.find("polwarth");
    CHECK(strands[0].staple_mm == 95.0);
    CHECK(strands[0].staple_cv == polwarth.staple_cv);
    CHECK(strands[0].diameter_um == 21.0);
    CHECK(strands[0].diameter_cv == polwarth.diameter_cv);
    CHECK(strands[0].dry_grams == doctest::Approx(42.0 / (1.0 + polwarth.allowance_pct / 100.0)));
    // Neps within a bought blend keep their own size.
    const fibre::Kind& neps = *catalogue.find("wool-neps");
    CHECK(strands[4].staple_mm == neps.staple_mm);
    CHECK(strands[4].diameter_um == neps.diameter_um);
    // Alone, the tag speaks of them.
    component.content = {{"wool-neps", 100.0}};
    CHECK(recipe::strands_of(recipe, recipe::masses_of(recipe).value(), catalogue).front().staple_mm == 95.0);
}

TEST_CASE("no colour means the kind's own, each kind its own") {
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    recipe::Recipe recipe = with(std::nullopt, {grams(10.0)});
    recipe.components.front().content = {{"polwarth", 70.0}, {"tussah-silk", 30.0}};
    const auto strands = recipe::strands_of(recipe, recipe::masses_of(recipe).value(), catalogue);
    REQUIRE(strands.size() == 2);
    for (const recipe::Strand& strand : strands) {
        CHECK(battwright::colour::hex(strand.colour) == strand.kind->natural_colours.front());
    }
}

TEST_CASE("count goes with mass over tex and length") {
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    recipe::Recipe recipe = with(std::nullopt, {grams(10.0), grams(10.0)});
    // The same kind twice, the second twice as long: half as many fibres.
    recipe.components[0].staple = measure::Length{50.0, measure::LengthUnit::millimetre};
    recipe.components[1].staple = measure::Length{100.0, measure::LengthUnit::millimetre};
    auto strands = recipe::strands_of(recipe, recipe::masses_of(recipe).value(), catalogue);
    CHECK(strands[0].count_share == doctest::Approx(2.0 / 3.0));
    // Now the first twice as thick instead: four times the tex, a quarter as many.
    recipe.components[1].staple = recipe.components[0].staple;
    recipe.components[0].diameter_um = 40.0;
    recipe.components[1].diameter_um = 20.0;
    strands = recipe::strands_of(recipe, recipe::masses_of(recipe).value(), catalogue);
    CHECK(strands[0].tex == doctest::Approx(4.0 * strands[1].tex));
    CHECK(strands[0].count_share == doctest::Approx(1.0 / 5.0));
}
