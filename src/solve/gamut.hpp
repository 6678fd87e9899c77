// Which colours a set of lots can reach at all.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "colour/spaces.hpp"
#include "solve/problem.hpp"
#include "solve/solve.hpp"

namespace battwright::solve {

// A closed mesh in Lab under D65 around `centre` (all lots in equal shares): every point is the colour of a
// real blend of the lots, as far out from the centre in its direction as blending goes. Weights on hand and
// bounds are not looked at. Triangles wind counter-clockwise seen from outside, in axes (a, b, L).
struct Gamut {
    colour::Lab centre;
    std::vector<colour::Lab> points;
    std::vector<std::array<std::uint32_t, 3>> triangles;
    std::vector<colour::Lab> lots;  // each lot by itself
};
struct GamutRequest {
    int detail = 2;  // 1: 42 points, 2: 162, 3: 642
};
measure::Expected<Gamut> gamut_of(const std::vector<Lot>& lots, const Setting& setting,
                                  const GamutRequest& request = {});

// How far a target is from what the lots can reach: 0 within rounding when it can be reached.
struct Reach {
    double delta_e = 0.0;     // CIEDE2000
    double difference = 0.0;  // colour::match_difference
    colour::Lab nearest;
    std::vector<double> shares;  // of the lots, sum 1
};
measure::Expected<Reach> distance_to_gamut(const std::vector<Lot>& lots, const Target& target,
                                           const Setting& setting);

// No blend of the lots is nearer than the reach: what a search has found nearer is taken into it.
void hold(Reach& reach, const std::vector<Proposal>& proposals);

}  // namespace battwright::solve
