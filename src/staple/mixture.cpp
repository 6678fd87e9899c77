#include "staple/mixture.hpp"

#include <algorithm>
#include <cmath>

namespace battwright::staple {
namespace {

double weight_of(const recipe::Strand& strand, Weighting weighting) {
    switch (weighting) {
        case Weighting::number:
            return fibre_count(strand);
        case Weighting::length:
            return fibre_length(strand);
        case Weighting::mass:
            break;
    }
    return strand.grams;
}

}  // namespace

double fibre_count(const recipe::Strand& strand) {
    const double grams_per_fibre = strand.tex * strand.fibre_mm;
    return grams_per_fibre > 0.0 ? strand.grams / grams_per_fibre : 0.0;
}

double fibre_length(const recipe::Strand& strand) {
    return strand.tex > 0.0 ? strand.grams / strand.tex : 0.0;
}

std::vector<double> shares_of(std::span<const recipe::Strand> strands, Weighting weighting) {
    std::vector<double> shares;
    shares.reserve(strands.size());
    double sum = 0.0;
    for (const recipe::Strand& strand : strands) {
        shares.push_back(weight_of(strand, weighting));
        sum += shares.back();
    }
    for (double& share : shares) share = sum > 0.0 ? share / sum : 0.0;
    return shares;
}

LengthLaw length_law(const recipe::Strand& strand) {
    return {strand.fibre_mm, strand.staple_cv};
}
LogNormal diameter_law(const recipe::Strand& strand) {
    return {strand.diameter_um, strand.diameter_cv};
}

std::vector<recipe::Strand> drafting_ones(std::span<const recipe::Strand> strands) {
    std::vector<recipe::Strand> real, drafting;
    for (const recipe::Strand& strand : strands)
        if (strand.grams > 0.0 && strand.tex > 0.0 && strand.fibre_mm > 0.0 && strand.diameter_um > 0.0)
            real.push_back(strand);
    for (const recipe::Strand& strand : real)
        if (!recipe::lies_among(strand)) drafting.push_back(strand);
    return drafting.empty() ? real : drafting;
}

Moments moments_of(std::span<const Part> parts) {
    Moments moments;
    for (const Part& part : parts) moments.mean += part.share * part.mean;
    // The variance from the spread within and between the parts: no difference of large numbers.
    double variance = 0.0;
    for (const Part& part : parts) {
        const double within = part.cv * part.mean;
        const double between = part.mean - moments.mean;
        variance += part.share * (within * within + between * between);
    }
    if (moments.mean > 0.0) moments.cv = std::sqrt(variance) / moments.mean;
    return moments;
}

}  // namespace battwright::staple
