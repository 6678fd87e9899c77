#include "forecast/staple_diagram.hpp"

#include <algorithm>
#include <cmath>

namespace battwright::forecast {
namespace {

std::vector<recipe::Strand> strands_of_component(const Forecast& forecast, std::size_t component) {
    std::vector<recipe::Strand> strands;
    for (const auto& strand : forecast.strands) {
        if (strand.component == component) strands.push_back(strand);
    }
    return strands;
}

// The first `shown` frequencies as percent of all fibres, when the strands together are `percent` of them.
std::vector<float> scaled(const staple::Histogram& histogram, double percent, std::size_t shown) {
    double sum = 0.0;
    for (const double value : histogram.frequencies) sum += value;
    std::vector<float> result;
    for (std::size_t i = 0; i < std::min(shown, histogram.frequencies.size()); ++i)
        result.push_back(static_cast<float>(sum > 0.0 ? percent * histogram.frequencies[i] / sum : 0.0));
    return result;
}

std::optional<std::size_t> foremost_of(const StapleDiagram& diagram, std::size_t of_class) {
    std::optional<std::size_t> foremost;
    float highest = 0.0f;
    for (std::size_t i = 0; i < diagram.components.size(); ++i) {
        if (diagram.components[i][of_class] <= highest) continue;
        highest = diagram.components[i][of_class];
        foremost = i;
    }
    return foremost;
}

}  // namespace

std::size_t StapleDiagram::class_at(double mm) const {
    return static_cast<std::size_t>(
        std::clamp(mm / class_mm, 0.0, static_cast<double>(mixture.size()) - 1.0));
}

StapleDiagram staple_diagram(const Forecast& forecast) {
    StapleDiagram diagram;
    // Room for the long tail, to the next 50 mm.
    diagram.longest_mm = std::clamp(std::ceil(1.25 * forecast.length.p95_mm / 50.0) * 50.0, 100.0, 600.0);
    // The grid reaches far beyond the axis: its last class holds all that is longer still.
    constexpr std::size_t shown = 100, beyond = 8;
    const staple::LengthGrid grid{diagram.longest_mm * beyond, shown * beyond};
    diagram.class_mm = diagram.longest_mm / static_cast<double>(shown);
    diagram.mixture =
        scaled(staple::mixture_lengths(forecast.strands, grid, staple::Weighting::number), 100.0, shown);
    for (const float value : diagram.mixture) diagram.highest = std::max(diagram.highest, double{value});
    for (std::size_t i = 0; i < forecast.components.size(); ++i) {
        const auto strands = strands_of_component(forecast, i);
        diagram.components.push_back(scaled(staple::mixture_lengths(strands, grid, staple::Weighting::number),
                                            forecast.components[i].count_pct, shown));
    }
    diagram.at_least.resize(diagram.mixture.size());
    double longer = 0.0;
    for (std::size_t k = diagram.mixture.size(); k-- > 0;) {
        longer += double{diagram.mixture[k]};
        diagram.at_least[k] = static_cast<float>(longer);
    }
    for (std::size_t k = 0; k < diagram.mixture.size(); ++k)
        diagram.foremost.push_back(foremost_of(diagram, k));
    return diagram;
}

}  // namespace battwright::forecast
