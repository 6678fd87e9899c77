// A plausible reflectance for a colour somebody picked on a screen.
#pragma once

#include "colour/spectrum.hpp"

namespace battwright::colour {

// The smoothest bounded reflectance that gives `colour` under D65: minimises the squared slope of z, with
// R = (1 + tanh z) / 2, subject to the three XYZ equations; Newton on the Lagrangian (Burns, "Numerical
// methods for smoothest reflectance reconstruction", Color Res. Appl. 45, 2020). The colour is clipped to
// 0..1 and kept a hair (2e-5 of linear light) inside black and white so that every band lies in (0, 1): seen
// under D65 the spectrum is within 0.02 CIEDE2000 of the clipped colour. About 30 us a colour.
Spectrum reflectance_of(const Srgb& colour);

}  // namespace battwright::colour
