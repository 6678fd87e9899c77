// Inside this room: how cells of one division of a line lie over those of another.
#pragma once

#include <cstddef>
#include <vector>

namespace battwright::carding {

// Target cell `to` takes `weight` of source cell `from`.
struct Tap {
    std::size_t to = 0, from = 0;
    double weight = 0.0;
};
// The source's `cells` equal cells fill [low, high] of the line 0..1; the target divides 0..1 into `targets`.
// Weights are the part of each target cell covered: where sources cover it wholly they sum to 1.
std::vector<Tap> overlaps(std::size_t cells, double low, double high, std::size_t targets);
// The weight with which `box` [low, high] within 0..1 takes each of `cells` cells; sums to 1.
std::vector<Tap> window(std::size_t cells, double low, double high);

}  // namespace battwright::carding
