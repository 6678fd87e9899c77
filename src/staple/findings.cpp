#include "staple/findings.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

#include "staple/batch.hpp"

namespace battwright::staple {
namespace {

auto rank(const Finding& finding) {
    const std::size_t first =
        finding.components.empty() ? std::numeric_limits<std::size_t>::max() : finding.components.front();
    return std::tuple(-static_cast<int>(finding.severity), first, std::string_view(finding.code));
}

}  // namespace

std::vector<Finding> findings_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                                 const recipe::Carder& carder) {
    std::vector<Finding> findings;
    const Batch batch = batch_of(recipe, strands, carder);
    if (batch.bodies.empty()) return findings;
    add_pair_findings(batch, findings);
    add_length_findings(batch, findings);
    add_cloth_findings(batch, findings);
    add_extra_findings(batch, findings);
    add_carding_findings(batch, findings);
    add_feel_findings(batch, findings);
    for (Finding& finding : findings) settle_words(finding);
    sort_findings(findings);
    return findings;
}

void sort_findings(std::vector<Finding>& findings) {
    std::sort(findings.begin(), findings.end(),
              [](const Finding& a, const Finding& b) { return rank(a) < rank(b); });
}

std::string_view word_for(Severity severity) {
    switch (severity) {
        case Severity::advice:
            return "advice";
        case Severity::warning:
            return "warning";
        case Severity::spoils:
            break;
    }
    return "spoils";
}

std::string_view word_for(Basis basis) {
    return basis == Basis::published ? "published" : "common practice";
}

}  // namespace battwright::staple
