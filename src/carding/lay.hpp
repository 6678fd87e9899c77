// Inside this room: the first pass, laying portions on the bare drum.
#pragma once

#include <cstdint>

#include "carding/feed.hpp"
#include "carding/field.hpp"

namespace battwright::carding {

// How thick each lay is in each column of the batt, as a share of the column: ((lay * across + y) * round +
// x). Each lay's mean is its share of the grams; each column sums to 1. What goes over the whole drum comes
// in handfuls, uneven by the habits' CV, from the seed; a maker fills hollows, so the batt is even.
std::vector<double> thicknesses(std::span<const Lay> lays, const Field& shape, std::uint64_t seed);
// How thick one feeding lies across the drum: handfuls of mean about 1, one value a column.
std::vector<double> handfuls_across(const Field& shape, std::uint64_t seed, std::uint64_t number);
// Stacks the lays of one portion into its block, in order, exactly by cell averages.
void stack_portion(std::size_t portion, std::span<const Lay> lays, std::span<const double> thickness,
                   Field& field);

}  // namespace battwright::carding
