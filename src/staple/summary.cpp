// Means, CVs and shares of a mixture, in closed form.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <string>

#include "staple/distribution.hpp"
#include "staple/limits.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

std::vector<LengthLaw> laws_of(std::span<const recipe::Strand> strands) {
    std::vector<LengthLaw> laws;
    laws.reserve(strands.size());
    for (const recipe::Strand& strand : strands) laws.push_back(length_law(strand));
    return laws;
}

double mass_share_under(std::span<const LengthLaw> laws, const std::vector<double>& by_mass,
                        double length_mm) {
    double share = 0.0;
    for (std::size_t i = 0; i < laws.size(); ++i) share += by_mass[i] * laws[i].under(length_mm, 1);
    return share;
}

double number_share_over(std::span<const LengthLaw> laws, const std::vector<double>& by_number,
                         double length_mm) {
    double share = 0.0;
    for (std::size_t i = 0; i < laws.size(); ++i) share += by_number[i] * laws[i].over(length_mm);
    return share;
}

// The mixture's own 95 % point lies between the least and the greatest of its strands': halve that interval.
double exceeded_by_5_percent(std::span<const LengthLaw> laws, const std::vector<double>& by_number) {
    double low = std::numeric_limits<double>::infinity();
    double high = 0.0;
    for (const LengthLaw& law : laws) {
        const double own = law.exceeded_by(0.05);
        low = std::min(low, own);
        high = std::max(high, own);
    }
    for (int halvings = 0; halvings < 60 && high - low > 1e-9 * high; ++halvings) {
        const double middle = 0.5 * (low + high);
        (number_share_over(laws, by_number, middle) > 0.05 ? low : high) = middle;
    }
    return high;
}

std::vector<Part> length_parts(std::span<const recipe::Strand> strands, const std::vector<double>& shares) {
    std::vector<Part> parts;
    for (std::size_t i = 0; i < strands.size(); ++i)
        parts.push_back({shares[i], strands[i].fibre_mm, strands[i].staple_cv});
    return parts;
}

std::vector<Part> diameter_parts(std::span<const recipe::Strand> strands, const std::vector<double>& shares) {
    std::vector<Part> parts;
    for (std::size_t i = 0; i < strands.size(); ++i)
        parts.push_back({shares[i], strands[i].diameter_um, strands[i].diameter_cv});
    return parts;
}

// Longer fibre holds with less twist. Common practice, no source: 20 degrees suits a 75 mm staple, and the
// tangent, that is the turns in a yarn of one thickness, falls with the square root of the length.
double starting_twist_degrees(double staple_mm) {
    constexpr double degree = std::numbers::pi / 180.0;
    const double tangent = std::tan(20.0 * degree) * std::sqrt(75.0 / staple_mm);
    return std::clamp(std::atan(tangent) / degree, 12.0, 35.0);
}

// What a kind's figures may put the mean length off, mm: its staple, unless the tag spoke; and the spread,
// where the mean is read from a pulled tuft: of H = staple / (1 + CV^2) the relative change is -2 CV^2 / (1 +
// CV^2) of that of the CV.
double staple_doubt_mm(const recipe::Strand& strand) {
    if (strand.kind == nullptr) return 0.0;
    const bool tagged = strand.staple_mm != strand.kind->staple_mm;
    const double by_staple = tagged ? 0.0 : fibre::doubt(*strand.kind, "staple");
    const double square = strand.staple_cv * strand.staple_cv;
    const bool pulled = strand.kind->staple_as == fibre::StapleAs::pulled;
    const double by_cv =
        pulled ? 2.0 * square / (1.0 + square) * fibre::doubt(*strand.kind, "staple_cv") : 0.0;
    return std::hypot(by_staple, by_cv) * strand.fibre_mm;
}

double relative_diameter_doubt(const recipe::Strand& strand) {
    if (strand.kind == nullptr || strand.diameter_um != strand.kind->diameter_um) return 0.0;
    return fibre::doubt(*strand.kind, "diameter");
}
double diameter_doubt_um(const recipe::Strand& strand) {
    return relative_diameter_doubt(strand) * strand.diameter_um;
}

// Of the share over 30 um: half of what it differs by when the mean, and then the CV, lies at either end.
double prickle_doubt(const recipe::Strand& strand) {
    const auto over = [&](double mean_by, double cv_by) {
        return LogNormal(strand.diameter_um * (1.0 + mean_by), strand.diameter_cv * (1.0 + cv_by))
            .over(prickle_um);
    };
    const double mean = relative_diameter_doubt(strand);
    const double cv = strand.kind == nullptr ? 0.0 : fibre::doubt(*strand.kind, "diameter_cv");
    return 0.5 * std::hypot(over(mean, 0.0) - over(-mean, 0.0), over(0.0, cv) - over(0.0, -cv));
}

// The strands of one kind are off together, the kinds each by themselves.
double joint_doubt(std::span<const recipe::Strand> strands, const std::vector<double>& shares,
                   double (*doubt_of)(const recipe::Strand&)) {
    std::map<std::string, double> by_kind;
    for (std::size_t i = 0; i < strands.size(); ++i)
        if (strands[i].kind != nullptr) by_kind[strands[i].kind->id] += shares[i] * doubt_of(strands[i]);
    double squares = 0.0;
    for (const auto& kind : by_kind) squares += kind.second * kind.second;
    return std::sqrt(squares);
}

}  // namespace

LengthSummary summarise_lengths(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = drafting_ones(strands);
    LengthSummary summary;
    if (real.empty()) return summary;
    const auto by_number = shares_of(real, Weighting::number);
    const auto by_mass = shares_of(real, Weighting::mass);
    const std::vector<LengthLaw> laws = laws_of(real);
    const Moments moments = moments_of(length_parts(real, by_number));
    summary.number_mean_mm = moments.mean;
    summary.mean_doubt_mm = joint_doubt(real, by_number, staple_doubt_mm);
    summary.length_biased_mean_mm = moments.mean * (1.0 + moments.cv * moments.cv);
    summary.cv_pct = 100.0 * moments.cv;
    summary.short_share_pct = 100.0 * mass_share_under(laws, by_mass, short_fibre_mm);
    summary.under_half_mean_pct = 100.0 * mass_share_under(laws, by_mass, moments.mean / 2.0);
    summary.p95_mm = exceeded_by_5_percent(laws, by_number);
    return summary;
}

DiameterSummary summarise_diameters(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = drafting_ones(strands);
    DiameterSummary summary;
    if (real.empty()) return summary;
    const auto by_length = shares_of(real, Weighting::length);
    const Moments moments = moments_of(diameter_parts(real, by_length));
    summary.mean_um = moments.mean;
    summary.mean_doubt_um = joint_doubt(real, by_length, diameter_doubt_um);
    summary.cv_pct = 100.0 * moments.cv;
    for (std::size_t i = 0; i < real.size(); ++i)
        summary.over_30um_pct += 100.0 * by_length[i] * diameter_law(real[i]).over(prickle_um);
    summary.over_30um_doubt_pct = 100.0 * joint_doubt(real, by_length, prickle_doubt);
    return summary;
}

std::vector<Inclusion> inclusions_of(std::span<const recipe::Strand> strands) {
    std::vector<Inclusion> inclusions;
    double total = 0.0;
    for (const recipe::Strand& strand : strands) {
        total += strand.grams;
        if (!recipe::lies_among(strand)) continue;
        const auto same = [&](const Inclusion& inclusion) { return inclusion.kind == strand.kind.get(); };
        auto found = std::find_if(inclusions.begin(), inclusions.end(), same);
        if (found == inclusions.end())
            found = inclusions.insert(inclusions.end(), Inclusion{strand.kind.get()});
        found->mass_pct += strand.grams;
        // Its own means, by mass: a kind has several only when tags differ.
        const double weight = found->mass_pct > 0.0 ? strand.grams / found->mass_pct : 0.0;
        found->staple_mm += weight * (strand.staple_mm - found->staple_mm);
        found->diameter_um += weight * (strand.diameter_um - found->diameter_um);
        found->over_30um_pct +=
            weight * (100.0 * diameter_law(strand).over(prickle_um) - found->over_30um_pct);
    }
    for (Inclusion& inclusion : inclusions) inclusion.mass_pct *= total > 0.0 ? 100.0 / total : 0.0;
    std::stable_sort(inclusions.begin(), inclusions.end(),
                     [](const Inclusion& a, const Inclusion& b) { return a.mass_pct > b.mass_pct; });
    return inclusions;
}

double mean_fibre_tex(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = drafting_ones(strands);
    double grams = 0.0, length = 0.0;
    for (const recipe::Strand& strand : real) {
        grams += strand.grams;
        length += strand.grams / strand.tex;
    }
    return length > 0.0 ? grams / length : 0.0;
}

double mean_fibre_tex_arithmetic(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = drafting_ones(strands);
    double grams = 0.0, sum = 0.0;
    for (const recipe::Strand& strand : real) {
        grams += strand.grams;
        sum += strand.grams * strand.tex;
    }
    return grams > 0.0 ? sum / grams : 0.0;
}

Drafting drafting_of(std::span<const recipe::Strand> strands) {
    const std::vector<recipe::Strand> real = drafting_ones(strands);
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
