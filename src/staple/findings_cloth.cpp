// Fibre against the drum's clothing.
#include <algorithm>
#include <iterator>

#include "staple/batch.hpp"
#include "staple/limits.hpp"

namespace battwright::staple {
namespace {

// The table of limits.hpp read between its rows, and level beyond its ends.
limits::ClothServes serves(double teeth_per_square_inch) {
    const auto* above =
        std::find_if(std::begin(limits::cloth), std::end(limits::cloth),
                     [&](const auto& row) { return row.teeth_per_square_inch >= teeth_per_square_inch; });
    if (above == std::begin(limits::cloth)) return *above;
    if (above == std::end(limits::cloth)) return *std::prev(above);
    const limits::ClothServes &low = *std::prev(above), &high = *above;
    const double t = (teeth_per_square_inch - low.teeth_per_square_inch) /
                     (high.teeth_per_square_inch - low.teeth_per_square_inch);
    return {teeth_per_square_inch, low.finest_um + t * (high.finest_um - low.finest_um),
            low.coarsest_um + t * (high.coarsest_um - low.coarsest_um)};
}

bool enough(const Body& body) {
    return body.mass_share >= limits::cloth_least_share - limits::slack;
}

// Elastic fibre springs back into neps. Silk and cut man-made staple are straight and forgive more.
bool neps_easily(const Body& body) {
    using fibre::Family;
    const Family family = body.kind->family;
    return !body.among && (family == Family::wool || family == Family::hair || family == Family::cotton ||
                           family == Family::inclusion || family == Family::unknown);
}

// Stiff enough to bend fine wire.
bool is_stiff(const Body& body) {
    using fibre::Family;
    const Family family = body.kind->family;
    return !body.among &&
           (family == Family::wool || family == Family::hair || family == Family::bast ||
            family == Family::synthetic || family == Family::inclusion || family == Family::unknown);
}

std::string this_tool(const Batch& batch) {
    if (batch.carder->kind == recipe::ToolKind::hand_cards) return "these hand cards";
    return "this " + std::string(recipe::words_of(*batch.carder).surface);
}

std::string cloth_of(const Batch& batch) {
    return number(batch.carder->teeth_per_square_inch) + " teeth to the square inch";
}

void add_fine(const Batch& batch, const limits::ClothServes& cloth, Findings& findings) {
    const auto fine = bodies_where(batch, [&](const Body& body) {
        return enough(body) && neps_easily(body) && body.diameter_um < cloth.finest_um;
    });
    if (fine.empty()) return;
    double finest = fine.front().diameter_um, share = 0.0;
    for (const Body& body : fine) {
        finest = std::min(finest, body.diameter_um);
        share += body.mass_share;
    }
    Finding finding;
    finding.code = "fine-on-coarse-cloth";
    finding.severity =
        finest < limits::cloth_fine_warning * cloth.finest_um ? Severity::warning : Severity::advice;
    finding.text =
        names_of(fine) + " (" + (fine.size() > 1 ? "down to " : "") + micrometres(finest) + ", " +
        percent(share) + " of the batt)" + is_or_are(fine) + "finer than the cloth of " + this_tool(batch) +
        " is meant for: " + cloth_of(batch) + " serve fibre from about " + micrometres(cloth.finest_um) +
        " up. Between teeth set so wide fine fibre is rolled rather than combed, and rolls up into "
        "neps.";
    finding.remedy =
        recipe::is_flat(*batch.carder)
            ? "Lay it as a veil you can read through and stroke lightly. A finer cloth would do it "
              "better."
            : "Feed it as a veil you can read through and turn slowly. A finer cloth, or hand cards "
              "with fine teeth, would do it better.";
    finding.components = components_of(fine);
    findings.push_back(std::move(finding));
}

void add_coarse(const Batch& batch, const limits::ClothServes& cloth, Findings& findings) {
    const auto coarse = bodies_where(batch, [&](const Body& body) {
        return enough(body) && is_stiff(body) && body.diameter_um > cloth.coarsest_um;
    });
    if (coarse.empty()) return;
    double coarsest = 0.0, share = 0.0;
    for (const Body& body : coarse) {
        coarsest = std::max(coarsest, body.diameter_um);
        share += body.mass_share;
    }
    Finding finding;
    finding.code = "coarse-on-fine-cloth";
    finding.severity =
        coarsest > limits::cloth_coarse_warning * cloth.coarsest_um ? Severity::warning : Severity::advice;
    finding.text = names_of(coarse) + " (" + (coarse.size() > 1 ? "up to " : "") + micrometres(coarsest) +
                   ", " + percent(share) + " of the batt)" + is_or_are(coarse) +
                   "coarser than the cloth of " + this_tool(batch) + " is meant for: " + cloth_of(batch) +
                   " serve fibre up to about " + micrometres(cloth.coarsest_um) +
                   ". Stiff fibre pushes fine wire out of line and sits on top of it instead of going in.";
    const std::string tool(recipe::is_flat(*batch.carder) ? "cloth" : "drum");
    finding.remedy = "Use a " + tool + " with fewer, stronger teeth for it. If this is the " + tool +
                     " you have, open the locks well by hand first and " +
                     (recipe::is_flat(*batch.carder) ? "lay" : "feed") + " very little at a time.";
    finding.components = components_of(coarse);
    findings.push_back(std::move(finding));
}

}  // namespace

void add_cloth_findings(const Batch& batch, Findings& findings) {
    if (batch.carder->teeth_per_square_inch <= 0.0) return;
    const limits::ClothServes cloth = serves(batch.carder->teeth_per_square_inch);
    add_fine(batch, cloth, findings);
    add_coarse(batch, cloth, findings);
}

}  // namespace battwright::staple
