#include "card/care.hpp"

#include <algorithm>

namespace battwright::card {
namespace {

using fibre::Family;

bool holds(const forecast::Forecast& forecast, Family family) {
    return std::any_of(forecast.strands.begin(), forecast.strands.end(),
                       [&](const recipe::Strand& strand) { return strand.kind->family == family; });
}

// The finding has the reason: wool treated not to felt beside wool that felts.
bool felts_apart(const forecast::Forecast& forecast) {
    return std::any_of(forecast.findings.begin(), forecast.findings.end(),
                       [](const staple::Finding& finding) { return finding.code == "felts-apart"; });
}

}  // namespace

std::vector<std::string> care_of(const forecast::Forecast& forecast) {
    std::vector<std::string> lines;
    const bool felts = holds(forecast, Family::wool) || holds(forecast, Family::hair);
    const bool delicate = felts || holds(forecast, Family::silk) || holds(forecast, Family::regenerated) ||
                          holds(forecast, Family::unknown);
    lines.emplace_back(
        delicate ? "Wash by hand in lukewarm water with a mild soap; press the water out, do not wring."
                 : "Wash warm, with like colours.");
    if (felts_apart(forecast))
        lines.emplace_back("Superwash wool in it does not felt and the rest does: one warm wash parts them.");
    if (felts) lines.emplace_back("Heat, rubbing and sudden cold felt it. Never tumble dry.");
    if (holds(forecast, Family::sparkle)) lines.emplace_back("Keep a hot iron off: the sparkle melts.");
    lines.emplace_back("Dry flat, out of the sun. Hand-dyed colour may run: wash it alone the first time.");
    return lines;
}

std::vector<std::string> cautions_of(const forecast::Forecast& forecast) {
    std::vector<std::string> lines{
        "Carding makes dust: open a window and wear a mask.",
        "Loose fibre and string are no toys: keep them from pets and small children."};
    if (holds(forecast, Family::sparkle))
        lines.emplace_back("Sparkle sheds: wash hands after, and keep it out of eyes and drains.");
    lines.emplace_back("Where a local rule says more, follow the rule.");
    return lines;
}

}  // namespace battwright::card
