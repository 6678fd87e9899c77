// Against the skin, and how far to trust the rest.
#include <algorithm>

#include "staple/batch.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

Measured prickly_part(const recipe::Strand& strand) {
    if (recipe::lies_among(strand)) return {};
    const double length = fibre_length(strand);
    return {length, length * diameter_law(strand).over(prickle_um)};
}

std::string prickle_remedy(const Excess& excess) {
    if (excess.action == Remedy::lower_share)
        return "Bring the coarse part down to " + percent_to_the_tenth(excess.action_value) + " of the batt.";
    if (excess.action == Remedy::remove_component) return "Leave the coarse part out.";
    return "Keep it for what is worn over other clothes.";
}

// What is over the limit by itself; of fibres none of which is, the coarsest.
std::vector<Body> coarse_part(const Batch& batch) {
    const auto over = [](const Body& body) {
        return body.among ? 0.0 : LogNormal(body.diameter_um, body.diameter_cv).over(prickle_um);
    };
    double most = 0.0;
    for (const Body& body : batch.bodies) most = std::max(most, over(body));
    const double from = std::min(most, limits::prickle_share);
    return bodies_where(batch, [&](const Body& body) { return !body.among && over(body) >= from; });
}

// Whole locks are felt one by one, whatever the fibre round them is.
std::vector<Body> prickly_locks(const Batch& batch) {
    return bodies_where(batch, [](const Body& body) {
        return body.among && body.kind->form == fibre::Form::lock &&
               body.mass_share >= limits::locks_least_share - limits::slack &&
               LogNormal(body.diameter_um, body.diameter_cv).over(prickle_um) > limits::prickle_share;
    });
}

// Only for what is worn next to the skin: how it feels is else a figure with a word (feel_of), no finding.
void add_prickle(const Batch& batch, Findings& findings) {
    if (!recipe::next_to_skin(batch.recipe->purpose).value_or(false)) return;
    const auto excess = excess_over(limits::prickle_share, batch, prickly_part);
    const auto locks = prickly_locks(batch);
    if (!excess && locks.empty()) return;
    Finding finding;
    finding.code = "prickle";
    finding.severity = Severity::warning;
    finding.basis = Basis::published;
    finding.source =
        "Riverina Wool Testers, glossary of fibre test results: more than 5 % over 30.5 um may prickle";
    if (excess) {
        finding.text =
            percent(excess->share) + " of the fibre, by length, is thicker than " + micrometres(prickle_um) +
            ", from " + names_of(coarse_part(batch)) + "; over " + percent(limits::prickle_share) +
            " a fabric may prickle on the skin, since a stiff fibre end presses instead of bending.";
        finding.remedy = prickle_remedy(*excess);
        finding.components = excess->components;
        finding.action = excess->action;
        finding.action_value = excess->action_value;
    } else {
        finding.text = names_of(locks) + " stay whole, and more than " + percent(limits::prickle_share) +
                       " of their fibre is thicker than " + micrometres(prickle_um) +
                       ": the skin feels each of them, however soft the fibre round it.";
        finding.remedy = "Take locks of a finer fleece, or leave them out.";
        finding.components = components_of(locks);
    }
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
        const LengthLaw length(body.fibre_mm, body.staple_cv);
        const LogNormal width(body.diameter_um, body.diameter_cv);
        least_mm = std::min(least_mm, length.exceeded_by(0.95));
        most_mm = std::max(most_mm, length.exceeded_by(0.05));
        least_um = std::min(least_um, width.quantile_at(-z_of_95_percent));
        most_um = std::max(most_um, width.quantile_at(z_of_95_percent));
    }
    Finding finding;
    finding.code = "unknown-fibre";
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

std::string_view feel_of(const DiameterSummary& diameters, std::span<const Inclusion> inclusions) {
    constexpr double most_pct = 100.0 * limits::prickle_share;
    const bool locks_prickle =
        std::any_of(inclusions.begin(), inclusions.end(), [&](const Inclusion& inclusion) {
            return inclusion.kind->form == fibre::Form::lock && inclusion.over_30um_pct > most_pct &&
                   inclusion.mass_pct >= 100.0 * limits::locks_least_share - limits::slack;
        });
    if (diameters.over_30um_pct <= most_pct + limits::slack && !locks_prickle) return "next to the skin";
    return diameters.mean_um < limits::rug_um ? "over other clothes" : "rugs and bags";
}

void add_feel_findings(const Batch& batch, Findings& findings) {
    add_prickle(batch, findings);
    add_wide_unknown(batch, findings);
}

}  // namespace battwright::staple
