#include "staple/findings.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

#include "measure/choices.hpp"
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
    std::sort(findings.begin(), findings.end(),
              [](const Finding& a, const Finding& b) { return rank(a) < rank(b); });
    return findings;
}

std::string_view word_for(Severity severity) {
    constexpr std::array<measure::Word<Severity>, 3> severities{
        {{Severity::advice, "advice"}, {Severity::warning, "warning"}, {Severity::spoils, "spoils"}}};
    static_assert(measure::one_row_each(severities));
    return measure::row_of(severities, severity).word;
}

std::string_view word_for(Basis basis) {
    constexpr std::array<measure::Word<Basis>, 2> bases{
        {{Basis::published, "published"}, {Basis::common_practice, "common practice"}}};
    static_assert(measure::one_row_each(bases));
    return measure::row_of(bases, basis).word;
}

}  // namespace battwright::staple
