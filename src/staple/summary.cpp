// Means, CVs and shares of a mixture, in closed form.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "staple/distribution.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

double mass_share_under(std::span<const recipe::Strand> strands, const std::vector<double>& by_mass,
                        double length_mm) {
    double share = 0.0;
    for (std::size_t i = 0; i < strands.size(); ++i)
        share += by_mass[i] * length_law(strands[i]).under(length_mm, 1);
    return share;
}

double number_share_over(std::span<const recipe::Strand> strands, const std::vector<double>& by_number,
                         double length_mm) {
    double share = 0.0;
    for (std::size_t i = 0; i < strands.size(); ++i)
        share += by_number[i] * length_law(strands[i]).over(length_mm);
    return share;
}

// The mixture's own 95 % point lies between the least and the greatest of its strands': halve that interval.
double exceeded_by_5_percent(std::span<const recipe::Strand> strands, const std::vector<double>& by_number) {
    double low = std::numeric_limits<double>::infinity();
    double high = 0.0;
    for (const recipe::Strand& strand : strands) {
        const double own = length_law(strand).quantile_at(z_of_95_percent);
        low = std::min(low, own);
        high = std::max(high, own);
    }
    for (int halvings = 0; halvings < 60 && high - low > 1e-9 * high; ++halvings) {
        const double middle = 0.5 * (low + high);
        (number_share_over(strands, by_number, middle) > 0.05 ? low : high) = middle;
    }
    return high;
}

std::vector<Part> length_parts(std::span<const recipe::Strand> strands, const std::vector<double>& shares) {
    std::vector<Part> parts;
    for (std::size_t i = 0; i < strands.size(); ++i)
        parts.push_back({shares[i], strands[i].staple_mm, strands[i].staple_cv});
    return parts;
}

std::vector<Part> diameter_parts(std::span<const recipe::Strand> strands, const std::vector<double>& shares) {
    std::vector<Part> parts;
    for (std::size_t i = 0; i < strands.size(); ++i)
        parts.push_back({shares[i], strands[i].diameter_um, strands[i].diameter_cv});
    return parts;
}

// Strands with a length, a thickness and a mass: the only ones a distribution can be made of.
std::vector<recipe::Strand> real_ones(std::span<const recipe::Strand> strands) {
    std::vector<recipe::Strand> real;
    for (const recipe::Strand& strand : strands)
        if (strand.grams > 0.0 && strand.tex > 0.0 && strand.staple_mm > 0.0 && strand.diameter_um > 0.0)
            real.push_back(strand);
    return real;
}

std::vector<recipe::Strand> without_lumps(std::vector<recipe::Strand> strands) {
    std::vector<recipe::Strand> drafting;
    for (const recipe::Strand& strand : strands)
        if (strand.kind == nullptr || !is_lump(*strand.kind)) drafting.push_back(strand);
    return drafting.empty() ? std::move(strands) : drafting;
}

// Longer fibre holds with less twist. Common practice, no source: 20 degrees suits a 75 mm staple, and the
// tangent, that is the turns in a yarn of one thickness, falls with the square root of the length.
double starting_twist_degrees(double staple_mm) {
    constexpr double degree = std::numbers::pi / 180.0;
    const double tangent = std::tan(20.0 * degree) * std::sqrt(75.0 / staple_mm);
    return std::clamp(std::atan(tangent) / degree, 12.0, 35.0);
}

}  // namespace

LengthSummary summarise_lengths(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = real_ones(strands);
    LengthSummary summary;
    if (real.empty()) return summary;
    const auto by_number = shares_of(real, Weighting::number);
    const auto by_mass = shares_of(real, Weighting::mass);
    const Moments moments = moments_of(length_parts(real, by_number));
    summary.number_mean_mm = moments.mean;
    summary.length_biased_mean_mm = moments.mean * (1.0 + moments.cv * moments.cv);
    summary.cv_pct = 100.0 * moments.cv;
    summary.short_share_pct = 100.0 * mass_share_under(real, by_mass, short_fibre_mm);
    summary.under_half_mean_pct = 100.0 * mass_share_under(real, by_mass, moments.mean / 2.0);
    summary.p95_mm = exceeded_by_5_percent(real, by_number);
    return summary;
}

DiameterSummary summarise_diameters(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = real_ones(strands);
    DiameterSummary summary;
    if (real.empty()) return summary;
    const auto by_number = shares_of(real, Weighting::number);
    const Moments moments = moments_of(diameter_parts(real, by_number));
    summary.mean_um = moments.mean;
    summary.cv_pct = 100.0 * moments.cv;
    for (std::size_t i = 0; i < real.size(); ++i)
        summary.over_30um_pct += 100.0 * by_number[i] * diameter_law(real[i]).over(prickle_um);
    return summary;
}

double mean_fibre_tex(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = real_ones(strands);
    double grams = 0.0, length = 0.0;
    for (const recipe::Strand& strand : real) {
        grams += strand.grams;
        length += strand.grams / strand.tex;
    }
    return length > 0.0 ? grams / length : 0.0;
}

double mean_fibre_tex_arithmetic(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = real_ones(strands);
    double grams = 0.0, sum = 0.0;
    for (const recipe::Strand& strand : real) {
        grams += strand.grams;
        sum += strand.grams * strand.tex;
    }
    return grams > 0.0 ? sum / grams : 0.0;
}

Drafting drafting_of(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = without_lumps(real_ones(strands));
    Drafting drafting;
    if (real.empty()) return drafting;
    const Moments lengths = moments_of(length_parts(real, shares_of(real, Weighting::number)));
    // A section is met by each fibre in proportion to its length, so its diameters are weighted by length.
    const Moments section = moments_of(diameter_parts(real, shares_of(real, Weighting::length)));
    drafting.hands_apart_mm = lengths.mean * (1.0 + lengths.cv * lengths.cv);
    drafting.twist_angle_degrees = starting_twist_degrees(drafting.hands_apart_mm);
    drafting.limit_irregularity_pct_at_100_fibres = martindale_limit_pct(100.0, 100.0 * section.cv);
    return drafting;
}

}  // namespace battwright::staple
