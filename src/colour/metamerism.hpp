// How far two reflectances that match in one light part in another.
#pragma once

#include "colour/spectrum.hpp"

namespace battwright::colour {

// Special metamerism index for a change of light (CIE 15, ISO 18314-4), in CIEDE2000: how far the two lie
// apart under `test` if they matched under `reference`. What they do not match by there is taken out first:
// the XYZ of the second under `test` times the ratio of first to second under `reference` (multiplicative
// correction).
double metamerism_index(const Spectrum& first, const Spectrum& second, Light reference, Light test);

// From here on a pair is metameric to the eye. ISO 18314-4 takes the tolerance that is usual for a difference
// of colours; in the textile trade over 2 is plainly seen and turned down (pages of the trade).
inline constexpr double metameric_from = 2.0;

}  // namespace battwright::colour
