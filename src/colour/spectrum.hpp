// Spectra, observer and lights on one grid: 380 to 730 nm by 5 nm.
#pragma once

#include <array>
#include <cstddef>

namespace battwright::colour {

inline constexpr std::size_t bands = 71;
inline constexpr double first_nanometre = 380.0;
inline constexpr double band_nanometres = 5.0;

// Reflectance (0..1) or power per band.
using Spectrum = std::array<double, bands>;

// CIE XYZ with Y = 100 for a perfect white in the same light.
struct Xyz {
    double x = 0.0, y = 0.0, z = 0.0;
};
// CIE 1976 L*a*b* against the white of the light it was computed for.
struct Lab {
    double l = 0.0, a = 0.0, b = 0.0;
};
// Non-linear sRGB (IEC 61966-2-1), each 0..1; may leave that range before clipping.
struct Srgb {
    double r = 0.0, g = 0.0, b = 0.0;
    bool operator==(const Srgb&) const = default;
};
// Linear-light sRGB primaries, each 0..1.
struct LinearRgb {
    double r = 0.0, g = 0.0, b = 0.0;
};

enum class Light { d65, a, f2 };

// CIE 1931 2-degree colour matching functions and CIE relative power of each light on our grid.
struct Observer {
    Spectrum x{}, y{}, z{};
};
const Observer& observer_1931();
const Spectrum& power(Light light);

// XYZ that a reflectance of 1 in one band alone gives under the light: observer times power, scaled so that
// y sums to 100 over our grid (CIE 15, tristimulus values of object colours).
const Observer& weights(Light light);

// White point of a light: XYZ of the perfect reflector over our grid, Y = 100. The grid stops at 730 nm,
// where the observer has all but gone: D65 comes out at x, y = 0.31270, 0.32903 (0.31272, 0.32903 up to 780
// nm).
Xyz white(Light light);
// XYZ of a reflectance under a light: sum over bands, normalised so that a perfect white has Y = 100.
Xyz xyz(const Spectrum& reflectance, Light light);

}  // namespace battwright::colour
