// Histograms: their moments, and strands and mixtures laid out in classes.
#include <cmath>

#include "measure/parts.hpp"
#include "staple/distribution.hpp"
#include "staple/mixture.hpp"

namespace battwright::staple {
namespace {

// sum f x^k.
double moment(const Histogram& h, int k) {
    double sum = 0.0;
    for (std::size_t i = 0; i < h.midpoints.size() && i < h.frequencies.size(); ++i)
        sum += h.frequencies[i] * std::pow(h.midpoints[i], k);
    return sum;
}

Histogram empty_on(const LengthGrid& grid) {
    Histogram h;
    for (std::size_t i = 0; i < grid.classes; ++i)
        h.midpoints.push_back(measure::middle_of(i, grid.classes) * grid.longest_mm);
    h.frequencies.assign(grid.classes, 0.0);
    return h;
}

// Adds `share` of the law's k-th moment, class by class.
void add(Histogram& h, const LengthLaw& law, int k, double share, const LengthGrid& grid) {
    const double width = grid.longest_mm / static_cast<double>(grid.classes);
    double below = 0.0;
    for (std::size_t i = 0; i < grid.classes; ++i) {
        const bool last = i + 1 == grid.classes;
        const double below_next = last ? 1.0 : law.under(static_cast<double>(i + 1) * width, k);
        h.frequencies[i] += share * (below_next - below);
        below = below_next;
    }
}

}  // namespace

double mean(const Histogram& h) {
    const double count = moment(h, 0);
    return count > 0.0 ? moment(h, 1) / count : 0.0;
}

double standard_deviation(const Histogram& h) {
    const double count = moment(h, 0);
    if (count <= 0.0) return 0.0;
    const double middle = mean(h);
    double sum = 0.0;
    for (std::size_t i = 0; i < h.midpoints.size() && i < h.frequencies.size(); ++i)
        sum += h.frequencies[i] * (h.midpoints[i] - middle) * (h.midpoints[i] - middle);
    return std::sqrt(sum / count);
}

double length_biased_mean(const Histogram& h) {
    const double length = moment(h, 1);
    return length > 0.0 ? moment(h, 2) / length : 0.0;
}

Histogram strand_lengths(const recipe::Strand& strand, const LengthGrid& grid) {
    Histogram h = empty_on(grid);
    if (strand.fibre_mm > 0.0) add(h, length_law(strand), 0, 1.0, grid);
    return h;
}

Histogram mixture_lengths(std::span<const recipe::Strand> strands, const LengthGrid& grid,
                          Weighting weighting) {
    Histogram h = empty_on(grid);
    const std::vector<double> shares = shares_of(strands, weighting);
    // Within a strand thickness does not depend on length, so its mass is spread as its length is.
    const int k = weighting == Weighting::number ? 0 : 1;
    for (std::size_t i = 0; i < strands.size(); ++i)
        if (strands[i].fibre_mm > 0.0) add(h, length_law(strands[i]), k, shares[i], grid);
    return h;
}

}  // namespace battwright::staple
