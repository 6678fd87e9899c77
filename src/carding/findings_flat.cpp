#include "carding/findings_flat.hpp"

#include <algorithm>

#include "carding/findings.hpp"

namespace battwright::carding {
namespace {

staple::Finding advice_about(std::string code, staple::Severity severity, std::string text,
                             std::string remedy) {
    staple::Finding finding;
    finding.code = std::move(code);
    finding.severity = severity;
    finding.text = std::move(text);
    finding.remedy = std::move(remedy);
    staple::settle_words(finding);
    return finding;
}

// What lies along a board stays where it is when its strips are spread over the whole width.
bool keeps_along(Refeed refeed) {
    return refeed == Refeed::own_places || refeed == Refeed::strips || refeed == Refeed::halves ||
           refeed == Refeed::on_edge;
}

// What of the first pass has a place of its own across, along.
struct Placed {
    bool across = false, along = false;
};
Placed placed_by(const recipe::Carding& carding, std::span<const Lay> lays, int before) {
    if (carding.layings.empty())
        return {carding.feed == Manner::stripes_across || carding.feed == Manner::gradient_across,
                carding.feed == Manner::gradient_round};
    Placed placed;
    for (const Lay& lay : lays) {
        placed.across = placed.across || (lay.pass < before && !lay.across.whole());
        placed.along = placed.along || (lay.pass < before && !lay.round.whole());
    }
    return placed;
}

void add_places_lost_on_board(const recipe::Carding& carding, std::span<const Lay> lays,
                              std::vector<staple::Finding>& findings) {
    for (int pass = 2; pass <= carding.passes; ++pass) {
        const Refeed back = recipe::refeed_for(carding, pass);
        const Placed placed = placed_by(carding, lays, pass);
        const bool across = placed.across && !keeps_across(back), along = placed.along && !keeps_along(back);
        if (!across && !along) continue;
        findings.push_back(
            advice_about("places-lost", staple::Severity::warning,
                         "What was given a place on the board loses it on pass " + std::to_string(pass) +
                             ": the batt does not go back as it lay, so what lay apart " +
                             (across ? "across" : "along") + " the board comes to lie one over another.",
                         "Lay it on the last pass, or write refeed = \"own-places\", which lays the batt "
                         "back as it lay."));
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
        findings.push_back(advice_about(
            "rolags-are-woollen", staple::Severity::advice,
            "In a rolag the fibres lie round it, not along the yarn: what is spun from it is woollen, and is "
            "foretold so, whatever the recipe says.",
            recipe::carder_of(carding).kind == ToolKind::board
                ? "Write preparation = \"woollen\", or lift the batt off whole (rolags = 0) and spin it from "
                  "its "
                  "strips."
                : "Write preparation = \"woollen\"."));
}

}  // namespace battwright::carding
