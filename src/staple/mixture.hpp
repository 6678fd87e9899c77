// Inside this room: how strands are weighted in a mixture.
#pragma once

#include <span>
#include <vector>

#include "recipe/composition.hpp"
#include "staple/distribution.hpp"
#include "staple/length_law.hpp"
#include "staple/lognormal.hpp"

namespace battwright::staple {

// Fibres of a strand in an arbitrary unit: N ~ w / (T L), and their whole length: w / T. Only ratios mean
// anything.
double fibre_count(const recipe::Strand& strand);
double fibre_length(const recipe::Strand& strand);
// Share of each strand under the weighting; sums to 1 (all 0 when there is nothing).
std::vector<double> shares_of(std::span<const recipe::Strand> strands, Weighting weighting);

LengthLaw length_law(const recipe::Strand& strand);
LogNormal diameter_law(const recipe::Strand& strand);

// Strands with a length, a thickness and a mass, the only ones a distribution can be made of, without what
// lies among the fibres. Where there is nothing else, that.
std::vector<recipe::Strand> drafting_ones(std::span<const recipe::Strand> strands);

// Mean and CV (a fraction) of a mixture of laws with these means, CVs and shares.
struct Moments {
    double mean = 0.0;
    double cv = 0.0;
};
struct Part {
    double share = 0.0, mean = 0.0, cv = 0.0;
};
Moments moments_of(std::span<const Part> parts);

}  // namespace battwright::staple
