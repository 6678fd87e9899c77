// Against the skin, and how far to trust the rest.
#include <algorithm>

#include "staple/batch.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

Measured prickly_part(const recipe::Strand& strand) {
    const double count = fibre_count(strand);
    return {count, count * diameter_law(strand).over(prickle_um)};
}

std::string prickle_remedy(const Excess& excess) {
    if (excess.action == Remedy::lower_share)
        return "For anything worn next to the skin, bring the coarse part down to " +
               percent_to_the_tenth(excess.action_value) + " of the batt.";
    if (excess.action == Remedy::remove_component)
        return "For anything worn next to the skin, leave the coarse part out.";
    return "Keep it for what is not worn next to the skin.";
}

void add_prickle(const Batch& batch, Findings& findings) {
    const auto excess = excess_over(limits::prickle_share, batch, prickly_part);
    if (!excess) return;
    const double mean_um = summarise_diameters(batch.strands).mean_um;
    const bool meant_soft = mean_um < limits::soft_um && excess->action != Remedy::none;
    Finding finding;
    finding.code = "prickle";
    finding.severity = meant_soft ? Severity::warning : Severity::advice;
    finding.text = percent(excess->share) + " of the fibres are thicker than " + micrometres(prickle_um) +
                   "; over " + percent(limits::prickle_share) +
                   " a fabric may prickle on the skin, since a stiff fibre end presses instead of bending.";
    if (meant_soft)
        finding.text +=
            " The batt's mean is a soft " + micrometres(mean_um) + ": a few coarse fibres undo it.";
    finding.remedy = prickle_remedy(*excess) + " For a jacket, a bag or a rug, pay it no heed.";
    finding.basis = Basis::published;
    finding.source =
        "Riverina Wool Testers, glossary of fibre test results: more than 5 % over 30.5 um may prickle";
    finding.components = excess->components;
    finding.action = excess->action;
    finding.action_value = excess->action_value;
    findings.push_back(std::move(finding));
}

bool is_guess(const Batch& batch, std::size_t component) {
    if (component >= batch.recipe->components.size()) return true;
    const recipe::Component& written = batch.recipe->components[component];
    return !written.staple || !written.diameter_um;
}

void add_wide_unknown(const Batch& batch, Findings& findings) {
    const auto guessed = [&](const Body& body) {
        return body.kind->family == fibre::Family::unknown &&
               std::any_of(body.components.begin(), body.components.end(),
                           [&](std::size_t component) { return is_guess(batch, component); });
    };
    const auto bodies = bodies_where(batch, guessed);
    const double share = mass_share_where(batch, guessed);
    if (bodies.empty() || share < limits::unknown_share - limits::slack) return;
    double least_mm = bodies.front().staple_mm, most_mm = 0.0, least_um = bodies.front().diameter_um,
           most_um = 0.0;
    for (const Body& body : bodies) {
        const LogNormal length(body.staple_mm, body.staple_cv), width(body.diameter_um, body.diameter_cv);
        least_mm = std::min(least_mm, length.quantile_at(-z_of_95_percent));
        most_mm = std::max(most_mm, length.quantile_at(z_of_95_percent));
        least_um = std::min(least_um, width.quantile_at(-z_of_95_percent));
        most_um = std::max(most_um, width.quantile_at(z_of_95_percent));
    }
    Finding finding;
    finding.code = "wide-unknown";
    finding.text = percent(share) + " of the batt is " + names_of(bodies) +
                   ": nine fibres in ten of it may be anything from " + millimetres(least_mm) + " to " +
                   millimetres(most_mm) + " long and from " + micrometres(least_um) + " to " +
                   micrometres(most_um) + " thick, so every figure here is that much less sure.";
    finding.remedy =
        "Pull a lock, lay it on a ruler and write its length as staple; hold it beside wools you "
        "know and write a diameter. Then the forecast knows as much as you do.";
    for (const std::size_t component : components_of(bodies))
        if (is_guess(batch, component)) finding.components.push_back(component);
    findings.push_back(std::move(finding));
}

}  // namespace

void add_feel_findings(const Batch& batch, Findings& findings) {
    add_prickle(batch, findings);
    add_wide_unknown(batch, findings);
}

}  // namespace battwright::staple
