// How far two reflectances that match in one light part in another.
#pragma once

#include "colour/spectrum.hpp"

namespace battwright::colour {

// Special metamerism index for a change of light (CIE 15, ISO 18314-4), in CIEDE2000: how far the two lie
// apart under `test` if they matched under `reference`. What they do not match by there is taken out first:
// the XYZ of the second under `test` times the ratio of first to second under `reference` (multiplicative
// correction).
double metamerism_index(const Spectrum& first, const Spectrum& second, Light reference, Light test);

// From here on a pair is told of. The standards define the index and set no limit that we know of; over 2 a
// difference is plainly seen (common practice, no source).
inline constexpr double metameric_from = 2.0;

}  // namespace battwright::colour
