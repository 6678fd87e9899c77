#include "forecast/yarn_findings.hpp"

#include <cmath>

#include "measure/units.hpp"

namespace battwright::forecast {
namespace {

std::string in_whole(double value) {
    return measure::write_number(std::round(value));
}

}  // namespace

std::optional<staple::Finding> too_few_fibres(const yarn::YarnForecast& yarn) {
    if (!(yarn.length_m > 0.0) || yarn.spinnable) return std::nullopt;
    const bool hopeless = yarn.fibres_wanted < yarn.fewest_fibres;
    staple::Finding finding;
    finding.code = "too-few-fibres";
    finding.severity = hopeless ? staple::Severity::spoils : staple::Severity::warning;
    finding.text = "a single for yarn of " + in_whole(yarn.wpi) + " wraps and " + std::to_string(yarn.plies) +
                   (yarn.plies == 1 ? " ply" : " plies") + " holds about " + in_whole(yarn.fibres_wanted) +
                   " fibres across; about " + in_whole(yarn.least_fibres) +
                   " hold without constant breaks, and " + "fewer than " + in_whole(yarn.fewest_fibres) +
                   " do not hold at all";
    finding.remedy = "Spin thicker, to about " + in_whole(yarn.finest_wpi) + " wraps (" +
                     in_whole(yarn.finest_wpi_low) + " to " + in_whole(yarn.finest_wpi_high) +
                     " by hand and fibre), ply fewer strands, or blend with finer fibre.";
    return finding;
}

}  // namespace battwright::forecast
