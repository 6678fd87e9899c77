// The single: how few fibres hold, how much twist, and how the feet make it.
#pragma once

#include <span>

#include "recipe/composition.hpp"
#include "yarn/thickness.hpp"

namespace battwright::yarn {

// Published lower anchors, for ring-spun cotton (Klein, The Rieter Manual of Spinning, vol. 1): fewest fibres
// in the cross-section of a combed and of a carded yarn.
inline constexpr double klein_combed_fibres = 33.0;
inline constexpr double klein_carded_fibres = 75.0;
// What hands draft without constant breaks, above those anchors. Common practice, no source.
inline constexpr double least_fibres_worsted = 40.0;
inline constexpr double least_fibres_semi_woollen = 60.0;
inline constexpr double least_fibres_woollen = 80.0;
double least_fibres(recipe::Preparation preparation);
// Fewer than this do not hold even in a practised hand: half of that. Common practice, no source.
double fewest_fibres(recipe::Preparation preparation);
// tex of the finest single that makes sense: the least fibres, each of `fibre_tex`.
double finest_single_tex(recipe::Preparation preparation, double fibre_tex);

// k of Ashenhurst's formula for the single as it is spun. Semi-woollen lies between the two given.
double spinning_k(recipe::Preparation preparation);
// Thickness of the single while the wheel pulls it taut: the compact diameter, not the relaxed one. Every
// twist angle here is measured on it.
double taut_diameter_mm(double single_tex, recipe::Preparation preparation);

// Surface twist angle: tan(angle) = pi d turns (Morton & Hearle), d the taut diameter. Degrees, turns per
// metre, millimetres. 0 turns for a yarn of no thickness.
double turns_per_metre(double angle_degrees, double diameter_mm);
double twist_angle_degrees(double turns_per_m, double diameter_mm);
double per_inch(double per_metre);

// Words for angles, common practice, no source: soft 10-17 degrees, medium to 25, firm to 40.
struct AngleRange {
    double from_degrees = 0.0, to_degrees = 0.0;
};
AngleRange range_of(Twist twist);
Twist twist_word(double angle_degrees);

// The angle to spin at: the staple room's for medium (short staple takes more), the tangent, that is the
// turns, a quarter less for soft and a third more for firm (common practice, no source). 0 for no strands.
double spinning_angle_degrees(std::span<const recipe::Strand> strands, Twist twist);

// Treadles a metre for a wheel whose flyer turns `wheel_ratio` times a treadle. 0 when the ratio is not above
// zero.
double treadles_per_metre(double turns_per_m, double wheel_ratio);

}  // namespace battwright::yarn
