// How far the card itself spreads fibre about: the diffusion of the mixing model.
#pragma once

#include <span>

#include "carding/feed.hpp"
#include "carding/field.hpp"
#include "recipe/carder.hpp"

namespace battwright::carding {

// Standard deviations of the spread of one pass. Depth is a share of the batt's depth.
struct Spread {
    double across_mm = 0.0;
    double round_mm = 0.0;
    double depth_share = 0.0;
};
// Wider for finer cloth (with the square root of teeth per area: more teeth a length to part the fibre) and
// for thin feeding. Depth: the batt is areal mass / (density * diameter) fibres deep (taken as solid, wool's
// 1.31 g/cm3: Morton & Hearle) and mixes over a few of them. Figures are common practice. On a board and on
// hand cards fibre keeps to its own gap between the teeth, within half of which it is spread across, and lies
// along by its own length: a fibre of length L laid anywhere over a border spreads it by L / sqrt 12. A brush
// mixes the depth by half of what a drum does. On hand cards fibre goes over, and each stroke sways a little;
// what they do to the depth is transfer_of (flat.hpp).
Spread spread_of(const recipe::Carder& carder, std::span<const Portion> portions, double batt_grams,
                 bool fed_thin);

// Variance in squared cells that remapping has added already.
struct Already {
    double across = 0.0, depth = 0.0;
};
// One pass's spread across and in depth on one portion's block of the field: a Gaussian blur of cell
// averages, mirrored at the edges. Mass is kept; no share goes below zero. `already` is taken off. `scratch`
// is working room.
void spread_block(std::span<double> block, const Field& shape, const Spread& spread, const Already& already,
                  std::vector<double>& scratch);

// The spread along what lies flat, mirrored at its ends.
void spread_along(std::span<double> block, const Field& shape, double along_mm, std::vector<double>& scratch);

// The spread round the drum, as one matrix.
struct RoundKernel {
    std::size_t cells = 0;
    std::vector<double> weights;  // from * cells + to; rows and columns sum to 1
};
RoundKernel round_kernel(const Field& shape, double round_mm);
void apply_round(const RoundKernel& kernel, const double* from, double* to, std::size_t lines);

}  // namespace battwright::carding
