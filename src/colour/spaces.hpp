// Colour spaces and differences.
#pragma once

#include <string>
#include <string_view>

#include "colour/spectrum.hpp"
#include "measure/complaint.hpp"

namespace battwright::colour {

LinearRgb linear(const Srgb& colour);   // IEC 61966-2-1 decoding
Srgb encoded(const LinearRgb& colour);  // IEC 61966-2-1 encoding, no clipping
Srgb clipped(const Srgb& colour);       // each channel to 0..1, not a number to 0

// IEC 61966-2-1 matrix with the D65 white of the standard; XYZ with Y = 100 for white.
Xyz xyz_from(const LinearRgb& colour);
LinearRgb linear_from(const Xyz& xyz);

// CIE 15: L*a*b* against a white, and back.
Lab lab(const Xyz& xyz, const Xyz& white);
Xyz xyz_from(const Lab& lab, const Xyz& white);
Lab lab(const Srgb& colour);     // against sRGB's own D65 white
Srgb srgb_from(const Lab& lab);  // not clipped

// What a reflectance looks like under a light, to an eye that has grown used to that light. There are two
// daylight whites here: our grid's (the table's D65 summed to 730 nm) and that of sRGB's own matrix. They lie
// 0.02 apart in XYZ, so every passage between spectra and sRGB adapts one to the other: a reflectance of 1 in
// every band is (1, 1, 1) of sRGB under every light.
Srgb srgb_under(const Spectrum& reflectance, Light light);  // not clipped
Lab lab_under(const Spectrum& reflectance, Light light);    // against that light's white
// White of sRGB's matrix, Y = 100.
Xyz srgb_white();

// Bradford adaptation of a colour from one white to another (ICC.1, Annex E).
Xyz adapted(const Xyz& xyz, const Xyz& from_white, const Xyz& to_white);

// CIEDE2000 (Sharma, Wu, Dalal 2005), with parametric factors kL, kC, kH; textiles use kL = 2.
double ciede2000(const Lab& first, const Lab& second, double k_l = 1.0, double k_c = 1.0, double k_h = 1.0);
// CMC(l:c) of `sample` against `standard` (ISO 105-J03); 2:1 is the textile trade's.
double cmc(const Lab& standard, const Lab& sample, double l = 2.0, double c = 1.0);

// "#2f5d50" (also "#abc"), 8 bits a channel; and back with rounding after clipping.
measure::Expected<Srgb> parse_hex(std::string_view text);
std::string hex(const Srgb& colour);

}  // namespace battwright::colour
