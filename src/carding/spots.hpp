// Neps and locks: lumps small enough to count.
#pragma once

#include <cstdint>
#include <span>
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

// Where a lay of lumps lies.
struct Bed {
    double bottom = 0.0, top = 1.0;       // of the depth
    std::span<const double> thickness{};  // a value a column; empty: as much everywhere
    std::uint64_t number = 0;             // of the portion's lays, from 0
};
// A Poisson process over the bed (mean number: grams / lump_grams). At most 20,000 a lay are placed; their
// numbers go on from `from`.
std::vector<Spot> placed_spots(std::size_t portion, const Portion& fibre, double grams, const Bed& bed,
                               const Field& shape, std::uint64_t seed, std::uint32_t from = 0);
// A pass over spots already there: each rides with the fibre round it and wanders by the card's spread.
void carry_spots(std::vector<Spot>& spots, const Refold& refold, const Spread& spread, const Field& shape,
                 int pass, std::uint64_t seed);
// Each spot survives a pass through the carder with its portion's retention.
void thin_spots(std::vector<Spot>& spots, std::span<const Portion> portions, int pass, std::uint64_t seed);

}  // namespace battwright::carding
