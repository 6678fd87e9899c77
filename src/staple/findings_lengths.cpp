// Too short to be held, too long for the drum.
#include <algorithm>

#include "staple/batch.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

// Neps and locks are not asked to hold: they have findings of their own.
Measured short_part(const recipe::Strand& strand) {
    if (recipe::lies_among(strand)) return {};
    return {strand.grams, strand.grams * length_law(strand).under(short_fibre_mm, 1)};
}

bool all_go_on_last(const Batch& batch, const std::vector<std::size_t>& components) {
    return std::all_of(components.begin(), components.end(),
                       [&](std::size_t component) { return goes_on_last(batch, component); });
}

Severity short_severity(double share) {
    if (share > limits::short_share_spoils) return Severity::spoils;
    return share > limits::short_share_warning ? Severity::warning : Severity::advice;
}

std::string names_in(const Batch& batch, const std::vector<std::size_t>& components) {
    return names_of(bodies_where(batch, [&](const Body& body) {
        return !body.among &&
               LengthLaw(body.fibre_mm, body.staple_cv).under(short_fibre_mm, 1) >
                   limits::short_share_advice &&
               std::any_of(body.components.begin(), body.components.end(), [&](std::size_t component) {
                   return std::find(components.begin(), components.end(), component) != components.end();
               });
    }));
}

void set_short_remedy(Finding& finding, const Batch& batch, const Excess& excess) {
    const bool has_longer = excess.action != Remedy::none;
    if (finding.severity == Severity::advice && has_longer && batch.passes > 1) {
        finding.action = Remedy::add_on_last_pass;
        finding.remedy =
            "Add it on the last pass only, sandwiched between two layers of the longer fibre, so that it is "
            "not carded shorter still.";
        return;
    }
    finding.action = excess.action;
    finding.action_value = excess.action_value;
    finding.remedy = excess.action == Remedy::lower_share
                         ? "Bring it down to " + percent_to_the_tenth(excess.action_value) +
                               " of the batt and let a longer fibre take its place."
                         : "Blend in a longer fibre, " + millimetres(50.0) +
                               " and up, to carry it; or spin it from rolags off hand cards, where it needs "
                               "no web to hold it.";
}

void add_short(const Batch& batch, Findings& findings) {
    const auto advised = excess_over(limits::short_share_advice, batch, short_part);
    if (!advised) return;
    const Severity severity = short_severity(advised->share);
    // A little of it, added last, is just what practised hands do.
    if (severity == Severity::advice && all_go_on_last(batch, advised->components) && batch.passes > 1)
        return;
    // A warning is mended once no more than advice is left.
    const auto excess =
        severity == Severity::advice ? advised : excess_over(limits::short_share_warning, batch, short_part);
    Finding finding;
    finding.code = "short-with-nothing-to-hold-it";
    finding.severity = severity;
    finding.components = excess->components;
    const std::string names = names_in(batch, excess->components);
    finding.text = percent(excess->share) + " of this batt's fibre, by mass, is shorter than " +
                   millimetres(short_fibre_mm) + (names.empty() ? "" : ", most of it from " + names) +
                   ". Fibre that short is held only by the fibre around it: it drops " +
                   (recipe::is_flat(*batch.carder) ? "out of the web" : "under the drum") +
                   ", drifts out as lint and drafts in puffs.";
    if (severity == Severity::spoils)
        finding.text += " With so much of it the web has nothing to hang from and will not lift off whole.";
    set_short_remedy(finding, batch, *excess);
    findings.push_back(std::move(finding));
}

// Locks wind round the drum whole or opened.
bool over_long(const Body& body) {
    const fibre::Form form = body.kind->form;
    return (form == fibre::Form::fibre || form == fibre::Form::lock) && body.staple_mm > longest_carded_mm &&
           body.mass_share >= limits::long_least_share - limits::slack;
}

void add_wrapping(const Batch& batch, const std::vector<Body>& longs, Findings& findings) {
    const double drum = batch.carder->drum_circumference_mm;
    double longest = 0.0;
    for (const Body& body : longs) longest = std::max(longest, body.staple_mm);
    const bool laps = drum > 0.0 && longest >= drum;
    Finding finding;
    finding.code = "long-wraps-drum";
    finding.severity = laps ? Severity::spoils : Severity::warning;
    finding.text = names_of(longs) + " (staple " + (longs.size() > 1 ? "up to " : "") + millimetres(longest) +
                   ", " + percent(mass_share_where(batch, over_long)) + " of the batt)" + is_or_are(longs) +
                   "longer than the " + millimetres(longest_carded_mm) + " most people card. ";
    finding.text += laps ? "The drum is only " + millimetres(drum) +
                               " round, so the fibre laps over itself and binds: the batt will not come off."
                         : "Long fibre winds round the drum and round the small roller, and the batt is hard "
                           "to part and lift.";
    finding.remedy = "Cut the locks in two or three before carding, to about " + millimetres(100.0) +
                     ", or comb them and lay them in by hand at the wheel.";
    finding.components = components_of(longs);
    if (laps && finding.components.size() < batch.recipe->components.size())
        finding.action = Remedy::remove_component;
    findings.push_back(std::move(finding));
}

// Hand cards take fibre up to about 75 mm with ease (published how-to pages for spinners); what is longer
// than the card stays on both at once.
void add_longer_than_card(const Batch& batch, Findings& findings) {
    const double card = batch.carder->drum_circumference_mm;
    const auto longs = bodies_where(batch, [&](const Body& body) {
        return body.kind->form == fibre::Form::fibre && body.staple_mm > card &&
               body.mass_share >= limits::long_least_share - limits::slack;
    });
    if (longs.empty()) return;
    double longest = 0.0;
    for (const Body& body : longs) longest = std::max(longest, body.staple_mm);
    Finding finding;
    finding.code = "longer-than-the-card";
    finding.severity = longest > 1.5 * card ? Severity::warning : Severity::advice;
    finding.text =
        names_of(longs) + " (staple " + (longs.size() > 1 ? "up to " : "") + millimetres(longest) + ")" +
        is_or_are(longs) + "longer than a card, " + millimetres(card) +
        ": the teeth of both hold it at once, so that it folds over or breaks. Hand cards take up to "
        "about " +
        millimetres(limits::with_ease_on_cards_mm) + " with ease.";
    finding.remedy = "Cut or pull it to half its length first, comb it, or use a blending board.";
    finding.components = components_of(longs);
    findings.push_back(std::move(finding));
}

}  // namespace

void add_length_findings(const Batch& batch, Findings& findings) {
    add_short(batch, findings);
    const auto longs = bodies_where(batch, over_long);
    if (!longs.empty() && batch.carder->kind == recipe::ToolKind::drum) add_wrapping(batch, longs, findings);
    if (batch.carder->kind == recipe::ToolKind::hand_cards) add_longer_than_card(batch, findings);
}

}  // namespace battwright::staple
