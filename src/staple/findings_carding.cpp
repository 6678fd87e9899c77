// How often it goes through, and how much of it at a time.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "staple/batch.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

// The components that draft, each by the mean of its fibres, as the plan at the carder has it.
PassLimit borne_by(const Batch& batch) {
    std::map<std::size_t, Bulk> sums;
    std::set<std::size_t> lumpy;
    for (const recipe::Strand& strand : batch.strands) {
        if (recipe::lies_among(strand) || strand.kind->form == fibre::Form::lock)
            lumpy.insert(strand.component);
        Bulk& sum = sums[strand.component];
        sum.grams += strand.grams;
        sum.diameter_um += strand.grams * strand.diameter_um;
        sum.staple_mm += strand.grams * strand.staple_mm;
    }
    std::vector<Bulk> bulks;
    for (const auto& [component, sum] : sums)
        if (!lumpy.contains(component) && sum.grams > 0.0)
            bulks.push_back({sum.grams, sum.diameter_um / sum.grams, sum.staple_mm / sum.grams});
    return passes_borne(bulks, batch.total_grams, batch.carder->teeth_per_square_inch);
}

bool is_short_and_fine(double diameter_um, double staple_mm) {
    return diameter_um < limits::roll_up_um && staple_mm < limits::roll_up_mm;
}

void add_over_carding(const Batch& batch, Findings& findings) {
    PassLimit borne = borne_by(batch);
    const int times = gentler(batch.carder->kind);
    borne.passes *= times;
    const int over = batch.passes - borne.passes;
    if (over <= 0) return;
    const auto& words = recipe::words_of(*batch.carder);
    Finding finding;
    finding.code = "over-carding";
    finding.severity = over > times ? Severity::warning : Severity::advice;
    finding.text =
        text::counted(batch.passes, words.pass, words.passes) + " is more than the " +
        (borne.passes == 1 ? "one" : std::to_string(borne.passes)) + " that " +
        (borne.is_fine ? (borne.is_short ? "short fibre of " : "fibre of ") + micrometres(borne.diameter_um)
                       : "most fibre") +
        " bears. Each one breaks some fibres and rolls some into neps, and past a point colours turn to "
        "mud.";
    finding.remedy = borne.passes == 1
                         ? "Stop at 1: tease it well and feed it thin and in turn, so that one pass will do."
                         : "Stop at " + std::to_string(borne.passes) +
                               (batch.carder->kind == recipe::ToolKind::hand_cards
                                    ? ". If it is not even by then, card less of it at a time."
                                    : ". If it is not even by then, tear each batt into more strips between "
                                      "passes: that mixes more and breaks nothing.");
    finding.action = Remedy::fewer_passes;
    finding.action_value = borne.passes;
    findings.push_back(std::move(finding));
}

std::size_t colours_in(const Batch& batch) {
    std::vector<colour::Srgb> colours;
    for (const recipe::Strand& strand : batch.strands)
        if (!recipe::lies_among(strand) &&
            std::find(colours.begin(), colours.end(), strand.colour) == colours.end())
            colours.push_back(strand.colour);
    return colours.size();
}

std::size_t kinds_in(const Batch& batch) {
    std::vector<const fibre::Kind*> kinds;
    for (const Body& body : batch.bodies)
        if (!body.among && std::find(kinds.begin(), kinds.end(), body.kind) == kinds.end())
            kinds.push_back(body.kind);
    return kinds.size();
}

void add_under_carded(const Batch& batch, Findings& findings) {
    if (batch.passes >= limits::passes_to_blend) return;
    const auto kinds = static_cast<int>(kinds_in(batch));
    const auto colours = static_cast<int>(colours_in(batch));
    if (kinds < 2 && (colours < 2 || recipe::lays_apart(batch.recipe->carding))) return;
    Finding finding;
    finding.code = "under-carded-for-blend";
    finding.text =
        "One pass leaves " +
        (kinds > 1 ? counted(kinds, "kind", "kinds") + " of fibre" : counted(colours, "colour", "colours")) +
        " lying in the order you fed them: ";
    finding.text += kinds > 1
                        ? "the yarn will change in feel and in how it drafts from one stretch to the next."
                        : "stripes or a gradient, not a heather.";
    // Fibre that bears no second pass is not to be sent through one.
    if (borne_by(batch).passes < limits::passes_to_blend) {
        finding.remedy =
            "Tease them together by hand first, or feed them thin and in turn: a second pass would roll the "
            "short fine fibre into neps.";
        findings.push_back(std::move(finding));
        return;
    }
    finding.remedy = kinds > 1
                         ? "For one even yarn make two or three passes. For texture, leave it as it is."
                         : "If that is what you are after, it is right. For a heather make two or three "
                           "passes.";
    if (kinds > 1) {
        finding.action = Remedy::more_passes;
        finding.action_value = limits::passes_to_blend;
    }
    findings.push_back(std::move(finding));
}

void add_over_load(const Batch& batch, Findings& findings) {
    // The same rule as the weighing-out, so that the number of batts is the plan's.
    if (recipe::is_flat(*batch.carder)) return;  // filled again and again: the weighing-out says how often
    const double most = batch.carder->load_high_grams * (1.0 + over_full_share);
    if (most <= 0.0 || batch.total_grams <= most * (1.0 + limits::slack)) return;
    const double batts = std::ceil(batch.total_grams / most - limits::slack);
    Finding finding;
    finding.code = "over-load";
    finding.text = grams(batch.total_grams) + " is more than one batt on this drum: at about " +
                   grams(batch.carder->load_high_grams) +
                   " the fibre reaches the tips of the teeth, and what comes after lies on top uncarded, in "
                   "ridges.";
    finding.remedy = "Card it as " + number(batts) + " batts of " + grams(batch.total_grams / batts) +
                     ", each weighed out from every component, and spin from them in turn.";
    findings.push_back(std::move(finding));
}

void add_under_load(const Batch& batch, Findings& findings) {
    if (recipe::is_flat(*batch.carder)) return;  // nothing tears as it is rolled off
    const double least = limits::under_load * batch.carder->load_low_grams;
    if (batch.total_grams >= least * (1.0 - limits::slack)) return;
    Finding finding;
    finding.code = "under-load";
    finding.text = grams(batch.total_grams) + " is little for this drum, which likes " +
                   grams(batch.carder->load_low_grams) +
                   " or so: a web this thin tears as it comes off, and much of it stays in the teeth.";
    finding.remedy =
        "Feed it over part of the width only, so that the web is thick where there is any, or "
        "blend it on hand cards.";
    findings.push_back(std::move(finding));
}

}  // namespace

int gentler(recipe::ToolKind tool) {
    switch (tool) {
        case recipe::ToolKind::board:
            return 4;
        case recipe::ToolKind::hand_cards:
            return 2;
        case recipe::ToolKind::drum:
            break;
    }
    return 1;
}

int passes_borne(double diameter_um, double staple_mm, double teeth) {
    int borne = diameter_um < limits::passes_very_fine_um ? limits::passes_very_fine
                : diameter_um < limits::passes_fine_um    ? limits::passes_fine
                                                          : limits::passes_most;
    if (teeth >= limits::passes_fine_cloth) borne = std::min(borne + 1, limits::passes_most);
    return is_short_and_fine(diameter_um, staple_mm) ? std::max(borne - 1, 1) : borne;
}

PassLimit passes_borne(std::span<const Bulk> bulks, double total_grams, double teeth) {
    // A length apart from the short ones, so that a long fibre does not hide in a short one's share.
    std::map<std::pair<double, bool>, double> grams_of;
    for (const Bulk& bulk : bulks)
        grams_of[{std::round(1000.0 * bulk.diameter_um),
                  is_short_and_fine(bulk.diameter_um, bulk.staple_mm)}] += bulk.grams;
    PassLimit least{passes_borne(limits::passes_fine_um, limits::roll_up_mm, teeth)};
    for (const auto& [fibre, grams] : grams_of) {
        if (grams < (limits::passes_least_share - limits::slack) * total_grams) continue;
        const double um = fibre.first / 1000.0;
        const int borne = passes_borne(um, fibre.second ? 0.0 : limits::roll_up_mm, teeth);
        if (borne < least.passes || (borne == least.passes && !least.is_fine && um < limits::passes_fine_um))
            least = {borne, um, um < limits::passes_fine_um, fibre.second};
    }
    return least;
}

void add_carding_findings(const Batch& batch, Findings& findings) {
    add_over_carding(batch, findings);
    add_under_carded(batch, findings);
    add_over_load(batch, findings);
    add_under_load(batch, findings);
}

}  // namespace battwright::staple
