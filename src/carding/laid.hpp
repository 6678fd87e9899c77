// What lies on the drum as it was laid, before the card has drawn it out.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "carding/feed.hpp"
#include "carding/simulate.hpp"

namespace battwright::carding {

// Seen from outside, place by place: (y * round + x), x round the drum from the seam, y from its left edge.
struct LaidFace {
    std::size_t round = 0, across = 0, portions = 0;
    std::vector<double> shares;  // (place * portions + portion) of what is seen there; sums to 1
    std::vector<double> bare;    // how much of the drum is seen through it, 0 .. 1
    std::vector<double> g_m2;    // fibre that lies there
};
// What goes on on one pass, in order, and on a later pass what is there already, as its mean over the batt.
// `hidden`: by laying; none past its end. Fibre covers what is under it as light is taken up (Beer-Lambert);
// how much a layer covers is common practice, no source. Through the tray it is taken to lie evenly.
LaidFace laid_face(const Setup& setup, int pass, const std::vector<bool>& hidden, std::size_t round,
                   std::size_t across);

}  // namespace battwright::carding
