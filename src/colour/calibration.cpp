#include "colour/calibration.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "colour/spaces.hpp"

namespace battwright::colour {
namespace {

using measure::Complaint;

// Fewer squared CIEDE2000 than this between the best and the worst m is below what any eye or meter resolves:
// the samples do not tell.
constexpr double telling_difference = 1e-6;
// How near ln m is searched for.
constexpr double near_enough = 1e-6;

double mean_squared_difference(std::span<const Sample> samples, double m) {
    double sum = 0.0;
    for (const Sample& sample : samples) {
        const Spectrum mixed = blend(sample.portions, {.optics = Optics::stearns_noechel, .m = m});
        const double difference = ciede2000(sample.measured, lab_under(mixed, Light::d65));
        sum += difference * difference;
    }
    return sum / static_cast<double>(samples.size());
}

bool finite(const Portion& portion) {
    return std::isfinite(portion.share) && std::all_of(portion.reflectance.begin(), portion.reflectance.end(),
                                                       [](double r) { return std::isfinite(r); });
}

std::optional<Complaint> fault_of(const Sample& sample, std::size_t index) {
    const std::string where = "sample " + std::to_string(index + 1);
    if (!std::isfinite(sample.measured.l) || !std::isfinite(sample.measured.a) ||
        !std::isfinite(sample.measured.b))
        return Complaint{"the measured colour is not a number", "measure it again", where};
    if (!std::all_of(sample.portions.begin(), sample.portions.end(), finite))
        return Complaint{"a portion has a share or a reflectance that is not a number",
                         "give the share as a weight or a percentage, and a colour", where};
    if (std::any_of(sample.portions.begin(), sample.portions.end(),
                    [](const Portion& p) { return p.share < 0.0; }))
        return Complaint{"a share is negative", "write shares of zero or more", where};
    if (std::none_of(sample.portions.begin(), sample.portions.end(),
                     [](const Portion& p) { return p.share > 0.0; }))
        return Complaint{"the sample holds no fibre", "say how much of each colour went in", where};
    return std::nullopt;
}

struct Bracket {
    double low = 0.0, high = 0.0;  // logarithms of m round the lowest value seen
    double spread = 0.0;           // between the best and the worst value seen
};

// The valley need not be the only one for odd samples, so look over the whole range before going down.
template <class Function>
Bracket bracketed(Function value_at, double low, double high) {
    constexpr std::size_t looks = 25;
    const double step = (high - low) / static_cast<double>(looks - 1);
    std::array<double, looks> values{};
    for (std::size_t i = 0; i < looks; ++i) values[i] = value_at(low + step * static_cast<double>(i));
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    const auto best = static_cast<double>(least - values.begin());
    return {std::max(low, low + step * (best - 1.0)), std::min(high, low + step * (best + 1.0)),
            *most - *least};
}

// Golden-section search (Kiefer 1953).
template <class Function>
double lowest_between(Function value_at, double low, double high) {
    constexpr double golden = 0.6180339887498949;
    double left = high - golden * (high - low), right = low + golden * (high - low);
    double at_left = value_at(left), at_right = value_at(right);
    while (high - low > near_enough) {
        if (at_left < at_right) {
            high = right;
            right = left;
            at_right = at_left;
            left = high - golden * (high - low);
            at_left = value_at(left);
        } else {
            low = left;
            left = right;
            at_left = at_right;
            right = low + golden * (high - low);
            at_right = value_at(right);
        }
    }
    return (low + high) / 2.0;
}

}  // namespace

measure::Expected<Calibration> calibrated_m(std::span<const Sample> samples) {
    if (samples.empty())
        return tl::unexpected(Complaint{"there are no samples to calibrate with",
                                        "card a small blend of two colours that differ and measure it"});
    for (std::size_t i = 0; i < samples.size(); ++i)
        if (auto fault = fault_of(samples[i], i)) return tl::unexpected(std::move(*fault));

    const auto value_at = [&](double log_m) { return mean_squared_difference(samples, std::exp(log_m)); };
    const double low = std::log(smallest_m), high = std::log(largest_m);
    const Bracket valley = bracketed(value_at, low, high);
    if (valley.spread < telling_difference)
        return tl::unexpected(Complaint{"the samples say nothing about how the fibres blend",
                                        "card at least one sample of two colours, one light and one dark"});
    const double log_m = lowest_between(value_at, valley.low, valley.high);
    Calibration result;
    result.m = std::exp(log_m);
    result.rms_ciede2000 = std::sqrt(value_at(log_m));
    result.rms_at_default = std::sqrt(mean_squared_difference(samples, OpticsModel{}.m));
    result.at_bound = log_m - low < near_enough || high - log_m < near_enough;
    return result;
}

}  // namespace battwright::colour
