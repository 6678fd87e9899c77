// The drum, or what lies flat instead of one, in cross-section as the simulation leaves it.
#pragma once

#include "forecast/batt.hpp"
#include "strip/picture.hpp"

namespace battwright::strip {

// Averaged over the drum's width: cells round by round from the teeth outwards. Of a board or a card,
// averaged along it: cells across by across.
struct DrumPicture {
    std::size_t round = 0, depth = 0, components = 0;
    bool flat = false;
    std::vector<colour::Srgb> colours;  // z * round + x: the blend there, under the forecast's light
    std::vector<float> shares;          // (z * round + x) * components + component; a cell sums to 1
};

// Precondition: the pass is one of the batt's, and the batt was made from this forecast.
DrumPicture drum_picture(const forecast::Forecast& forecast, const forecast::Batt& batt,
                         const carding::Pass& pass);

}  // namespace battwright::strip
