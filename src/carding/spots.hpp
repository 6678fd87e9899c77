// Neps and locks: lumps small enough to count.
#pragma once

#include <cstdint>
#include <vector>

#include "carding/feed.hpp"
#include "carding/spread.hpp"

namespace battwright::carding {

// One lump on the drum. Its number stays the same from pass to pass.
struct Spot {
    std::size_t portion = 0;
    std::uint32_t number = 0;  // within its portion
    float round_mm = 0.0f, across_mm = 0.0f;
    float depth = 0.0f;  // 0 against the drum .. 1 outermost
};

struct Refold;

// A Poisson process over the batt (mean number: grams / lump_grams), spread evenly round and across and over
// [bottom, top] of the depth. At most 20,000 a portion are placed.
std::vector<Spot> placed_spots(std::size_t portion, const Portion& fibre, double grams, double bottom,
                               double top, const Field& shape, std::uint64_t seed);
// A pass over spots already there: each rides with the fibre round it and wanders by the card's spread.
void carry_spots(std::vector<Spot>& spots, const Refold& refold, const Spread& spread, const Field& shape,
                 int pass, std::uint64_t seed);
// Each spot survives a pass through the carder with its portion's retention.
void thin_spots(std::vector<Spot>& spots, std::span<const Portion> portions, int pass, std::uint64_t seed);

}  // namespace battwright::carding
