// Inside this room: how strands are weighted in a mixture.
#pragma once

#include <span>
#include <vector>

#include "recipe/composition.hpp"
#include "staple/distribution.hpp"
#include "staple/lognormal.hpp"

namespace battwright::staple {

// Fibres of a strand in an arbitrary unit: N ~ w / (T L). Only ratios mean anything.
double fibre_count(const recipe::Strand& strand);
// Share of each strand under the weighting; sums to 1 (all 0 when there is nothing).
std::vector<double> shares_of(std::span<const recipe::Strand> strands, Weighting weighting);

LogNormal length_law(const recipe::Strand& strand);
LogNormal diameter_law(const recipe::Strand& strand);

// A nep or a lock: it does not draft, it rides along.
bool is_lump(const fibre::Kind& kind);

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
