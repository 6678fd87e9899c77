// Inside this room: one more pass, as stretching and folding.
#pragma once

#include <cstdint>
#include <vector>

#include "carding/feed.hpp"
#include "carding/field.hpp"
#include "carding/overlap.hpp"
#include "carding/spread.hpp"

namespace battwright::carding {

// Something fed on a later pass: piece number `piece` of the old batt, or fresh fibre of a portion.
struct Fed {
    bool fresh = false;
    std::size_t piece = 0;    // of `pieces`, when not fresh
    std::size_t portion = 0;  // when fresh
    double share = 0.0;       // of the new batt's mass: its part of the depth
    double turned = 0.0;      // where on the drum the piece began, as a share of the circumference
    std::vector<Tap> depths;  // old depth cells over new, by new
};
struct Refold {
    bool across = true;  // stretched across the drum, else round it
    std::size_t pieces = 4;
    std::vector<Fed> order;                   // from the drum outwards; shares sum to 1
    std::vector<std::vector<Tap>> stretches;  // per piece: old line cells over new
    std::vector<RoundKernel> rounds;          // per piece: its turn on the drum, and the spread round it
    RoundKernel after;                        // the spread round the drum when that is where it is stretched
    double already_across = 0.0;              // variance the stretch has added across, in squared cells
};

// What is fed on a pass after the first: the pieces in order, and fresh portions (in their order) in the
// middle, so that pieces lie under and over them. `fresh_shares` are shares of the new batt, 0 for none.
// Strips and halves begin wherever the drum stands (from the seed).
Refold refold_of(Refeed refeed, int strips, const std::vector<double>& fresh_shares, int pass,
                 std::uint64_t seed, const Field& shape, const Spread& spread);

// One portion's block of the new batt from its block of the old: a piece is stretched `pieces` times along
// the direction in which it was narrow and thinned to its share of the depth; its depth order is kept.
// Conservative (area weighted; piecewise linear along the stretch, exact averages in depth): no mass is lost,
// none negative.
void refold_block(std::span<const double> from, std::span<double> to, std::size_t portion, const Field& shape,
                  const Refold& refold, std::vector<double>& scratch);

}  // namespace battwright::carding
