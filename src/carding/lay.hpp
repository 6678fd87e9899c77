// Inside this room: the first pass, laying portions on the bare drum.
#pragma once

#include <cstdint>

#include "carding/feed.hpp"
#include "carding/field.hpp"

namespace battwright::carding {

// How thick each lay is in each column of the batt, as a share of the column: ((lay * across + y) * round +
// x). Each lay's mean is its share of the grams; each column sums to 1. What goes over the whole drum comes
// in handfuls, uneven by the habits' CV, from the seed; a maker fills hollows, so the batt is as even as the
// places of its lays make it. Where they make it thicker, columns are narrower: see columns.hpp.
std::vector<double> thicknesses(std::span<const Lay> lays, const Field& shape, std::uint64_t seed);
// How full each column of equal area is meant to be, mean 1: what the places of the lays come to; 1 where
// they fill the drum evenly.
std::vector<double> meant_full(std::span<const Lay> lays, const Field& shape);
// How thick one lay lies where it is put on a batt of its own, of mean 1, one value a column.
std::vector<double> placed_thickness(const Lay& lay, std::size_t number, const Field& shape,
                                     std::uint64_t seed);
// How thick one feeding lies across the drum: handfuls of mean about 1, one value a column.
std::vector<double> handfuls_across(const Field& shape, std::uint64_t seed, std::uint64_t number);
// Stacks lays of that thickness in order, each cell taking what each lay in it is worth (its share of a
// portion, say), exactly by cell averages.
void stack(std::span<const double> worth, std::span<const double> thickness, const Grid& grid,
           std::span<double> block);

}  // namespace battwright::carding
