// What the shelf knows of the lots a recipe names, and what proposals keep to unasked.
#include "shelving/lots.hpp"

#include <doctest/doctest.h>

#include <tuple>

#include "colour/spaces.hpp"
#include "recipe/file.hpp"
#include "shelving/answer.hpp"
#include "shelving/suggestion.hpp"
#include "staple/sparkle.hpp"

using namespace battwright;

namespace {

stash::Shelved bag(const std::string& mark, const std::string& name, const std::string& kind) {
    stash::Shelved shelved;
    shelved.lot.mark = mark;
    shelved.lot.name = name;
    shelved.lot.content = {{kind, 100.0}};
    return shelved;
}

}  // namespace

TEST_CASE("the shelf is asked of the lots a recipe names: none by that mark, or raw") {
    stash::Shelf shelf;
    stash::Shelved gull = bag("KF7R3X", "Gull fleece", "corriedale");
    const stash::Shelved kelp = bag("CDFGHJ", "Kelp forest", "polwarth");
    gull.lot.raw = true;
    gull.lot.yield_pct = 65.0;
    shelf.lots = {std::make_shared<const stash::Shelved>(gull), std::make_shared<const stash::Shelved>(kelp)};
    const auto findings = [&](const std::string& mark) {
        const auto recipe = recipe::read_text(
            "format = 1\n[[component]]\nfibre = \"corriedale\"\nweight = \"30 g\"\nlot = \"" + mark + "\"\n",
            "r.toml", fibre::Catalogue::builtin());
        REQUIRE(recipe);
        forecast::Bench bench;
        bench.catalogue = &fibre::Catalogue::builtin();
        auto forecast = forecast::forecast(*recipe, bench).value();
        shelving::add_lot_findings(forecast, shelf);
        std::string all;
        for (const auto& finding : forecast.findings)
            if (finding.code.starts_with("lot-"))
                all += finding.code + ": " + finding.text + " " + finding.remedy;
        return all;
    };
    CHECK(findings("CDFGHJ").empty());
    CHECK(findings("cdf-ghj").empty());
    CHECK(findings("kf7r3x").starts_with("lot-raw: Gull fleece is raw"));
    CHECK(findings("KF7R3X").find("Scour it") != std::string::npos);
    CHECK(findings("CDFGHK").starts_with("lot-unknown: "));
    CHECK(findings("CDFGHK").find("Did you mean CDFGHJ?") != std::string::npos);
    const auto lots = shelving::lots_of(std::make_shared<const stash::Shelf>(shelf));
    REQUIRE(lots("kf-7r3x"));
    CHECK(lots("KF7R3X")->content.at(0).fibre == "corriedale");
    CHECK_FALSE(lots("CDFGHK"));
    CHECK_FALSE(shelving::lots_of(nullptr));
}

TEST_CASE("proposals keep to what sparkle a batt holds, and put extras on the last pass") {
    std::vector<shelving::PricedLot> lots;
    for (const auto& [mark, kind, grams] : {std::tuple{"KF7R3X", "corriedale", 35.0},
                                            {"CDFGHJ", "sparkle-film", 5.0},
                                            {"CDFGHK", "wool-neps", 2.0}}) {
        stash::Shelved shelved = bag(mark, kind, kind);
        shelved.lot.palette = {{*colour::parse_hex("#7a8a99"), 100.0}};
        shelved.grams = grams;
        lots.push_back({std::make_shared<const stash::Shelved>(shelved), {}});
    }
    const auto stock = shelving::stock_of(lots, std::chrono::sys_days{});
    const fibre::Catalogue& catalogue = fibre::Catalogue::builtin();
    solve::Problem problem;
    problem.lots = stock.lots;
    problem.goal.use_up = solve::UseUp{{"KF7R3X", "CDFGHJ", "CDFGHK"}};
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    const auto first = [&](const solve::Problem& asked) {
        const auto answer = shelving::answer_to(asked, {&catalogue, {}});
        REQUIRE(answer);
        REQUIRE_FALSE(answer->proposals.empty());
        return shelving::suggestion_of(stock, answer->proposals.front(), "Bits", bench).value();
    };
    const auto one = first(problem);
    for (const auto& finding : one.forecast.findings) {
        CHECK(finding.code != "sparkle-over-limit");
        CHECK(finding.code != "inclusions-too-early");
    }
    CHECK(one.proposal.grams[1] / one.proposal.total_grams <= staple::most_sparkle_share + 1e-9);
    CHECK(one.proposal.grams[1] > 1.0);
    // Of a bag that is itself a blend, what most of it is decides.
    for (const double neps_pct : {45.0, 55.0}) {
        stash::Shelved mixed = bag("KF7R3X", "Speckled", "corriedale");
        mixed.lot.content = {{"corriedale", 100.0 - neps_pct}, {"wool-neps", neps_pct}};
        mixed.grams = 30.0;
        const auto bags = shelving::stock_of({{std::make_shared<const stash::Shelved>(mixed), {}}},
                                             std::chrono::sys_days{});
        solve::Proposal proposal;
        proposal.grams = proposal.batt_grams = {30.0};
        const auto of_it = shelving::suggestion_of(bags, proposal, "Speckled", bench).value();
        CHECK((of_it.recipe().components.at(0).add_on_pass == recipe::last_pass) == (neps_pct > 50.0));
    }
    // Who asks for more has it.
    problem.goal.bounds.shares = {{solve::ShareOf::family, "sparkle", 10.0, 20.0}};
    CHECK(first(problem).proposal.grams[1] / first(problem).proposal.total_grams >= 0.1 - 1e-9);
    // And where only more can be made, that is proposed.
    problem.goal.bounds.shares = {{solve::ShareOf::kind, "corriedale", 0.0, 80.0}};
    CHECK_FALSE(shelving::answer_to(problem, {&catalogue, {}})->proposals.empty());
}

TEST_CASE("what a finding would spoil is proposed after all that none would, however near its colour") {
    forecast::Bench bench;
    bench.catalogue = &fibre::Catalogue::builtin();
    std::vector<shelving::Suggestion> suggestions;
    for (const std::string kind : {"cotton-neps", "corriedale", "sparkle-film", "polwarth"}) {
        const auto recipe =
            recipe::read_text("format = 1\n[[component]]\nfibre = \"" + kind + "\"\nweight = \"30 g\"\n",
                              "r.toml", *bench.catalogue);
        REQUIRE(recipe);
        solve::Proposal proposal;
        proposal.difference = proposal.delta_e = double(suggestions.size());
        suggestions.push_back({proposal, forecast::forecast(*recipe, bench).value()});
    }
    shelving::spoilt_last(suggestions);
    // Neps and film alone make no web. Of each sort the nearest comes first, and every figure stays its own.
    std::vector<double> order;
    for (const auto& one : suggestions) order.push_back(*one.proposal.difference);
    CHECK(order == std::vector<double>{1.0, 3.0, 0.0, 2.0});
    for (std::size_t i = 0; i < 4; ++i) {
        const auto* worst = shelving::worst_of(suggestions[i].forecast);
        CHECK((worst != nullptr && worst->severity == staple::Severity::spoils) == (i >= 2));
    }
}
