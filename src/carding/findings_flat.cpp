#include "carding/findings.hpp"
#include "carding/findings_shared.hpp"

namespace battwright::carding {
namespace {

Placed placed_on_board(const recipe::Carding& carding, std::span<const Lay> lays, int pass) {
    if (!carding.layings.empty()) return placed_before(lays, pass);
    const recipe::Places places = measure::row_of(recipe::manners, carding.feed).places;
    return {places == recipe::Places::across, places == recipe::Places::round};
}

void add_places_lost_on_board(const recipe::Carding& carding, std::span<const Lay> lays,
                              std::vector<staple::Finding>& findings) {
    for (int pass = 2; pass <= carding.passes; ++pass) {
        const auto& back = measure::row_of(recipe::refeeds, recipe::refeed_for(carding, pass));
        const Placed placed = placed_on_board(carding, lays, pass);
        const bool across = placed.across && !back.keeps_across, along = placed.round && !back.keeps_along;
        if (!across && !along) continue;
        findings.push_back(
            finding_of("places-lost", staple::Severity::warning,
                       "What was given a place on the board loses it on pass " + std::to_string(pass) +
                           ": the batt does not go back as it lay, so what lay apart " +
                           (across ? "across" : "along") + " the board comes to lie one over another.",
                       "Lay it on the last pass, or lay the batt back as it lay, each in its place."));
        return;
    }
}

}  // namespace

void add_flat_findings(const recipe::Recipe& recipe, std::span<const Lay> lays, std::size_t first,
                       std::vector<staple::Finding>& findings) {
    const recipe::Carding& carding = recipe.carding;
    if (recipe::carder_of(carding).kind == ToolKind::board && (first > 1 || !carding.layings.empty()))
        add_places_lost_on_board(carding, lays, findings);
    if (recipe::makes_rolags(carding) && recipe.spinning.preparation != recipe::Preparation::woollen)
        findings.push_back(finding_of(
            "rolags-are-woollen", staple::Severity::advice,
            "In a rolag the fibres lie round it, not along the yarn: what is spun from it is woollen, and is "
            "foretold so, whatever the recipe says.",
            recipe::carder_of(carding).kind == ToolKind::board
                ? "Plan it as woollen, or lift the batt off whole and spin it from its strips."
                : "Plan it as woollen."));
}

}  // namespace battwright::carding
