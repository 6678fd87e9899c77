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

    struct Most {
        std::size_t component = 0;
        double share = 0.0;  // 0..1
    };
    // What there is most of: `turn` round the drum, any number, one turn is 1. Precondition: it is not empty,
    // and `depth` is from 0, at the teeth, to below 1.
    Most most_at(double turn, double depth) const;
};

// Precondition: the pass is one of the batt's, and the batt was made from this forecast.
DrumPicture drum_picture(const forecast::Forecast& forecast, const forecast::Batt& batt,
                         const carding::Pass& pass);

}  // namespace battwright::strip
