// Inside this room: every threshold the advice stands on, in one place, each with where it comes from.
// Shares are 0..1 of the mass unless said.
#pragma once

namespace battwright::staple {

// Common practice, no source: an inch, the length below which a fibre is held only by its neighbours.
inline constexpr double short_fibre_mm = 25.0;
// Common practice, no source: six inches (rounded), the longest staple most people card.
inline constexpr double longest_carded_mm = 150.0;
// The fibre diameter above which an end presses hard enough on skin to be felt. See `prickle_share`.
inline constexpr double prickle_um = 30.0;

namespace limits {

// Tells "at the limit" from "over it" when the share was computed.
inline constexpr double slack = 1e-9;

// Pairs. Common practice, no source, but that mixed lengths draft apart is agreed on.
inline constexpr double pair_least_share = 0.03;     // less than this is a pinch that the rest carries along
inline constexpr double length_factor_advice = 1.8;  // of the mean lengths of the fibres
inline constexpr double length_factor_warning = 2.5;
inline constexpr double length_factor_spoils = 3.5;  // when the longer is also over `longest_carded_mm`
inline constexpr double length_spoils_least_share = 0.10;
inline constexpr double worth_cutting_to_mm = 40.0;
inline constexpr double length_after_cutting = 1.25;  // of the shorter staple: well under the advice
inline constexpr double diameter_least_share = 0.05;
inline constexpr double diameter_factor_advice = 1.7;
inline constexpr double diameter_factor_warning = 2.2;
inline constexpr double diameter_stiff_um = 25.0;  // the coarser one must be stiff for the two to part
inline constexpr double slip_least_share = 0.10;
inline constexpr double slip_difference = 0.4;  // on the catalogue's scale of 0 grips .. 1 slides

// Common practice, no source.
inline constexpr double slick_from = 0.6;  // slipperiness
inline constexpr double slick_share = 0.50;
inline constexpr double short_share_advice = 0.10;
inline constexpr double short_share_warning = 0.25;
inline constexpr double short_share_spoils = 0.75;
inline constexpr double long_least_share = 0.03;

// Card clothing. Teeth per square inch against the finest and the coarsest fibre it serves. The classes of
// clothing (coarse 45-54, all-round 72, fine 90, very fine 120-128) and the diameters beside them are common
// practice, no source; between the classes the diameters are interpolated.
struct ClothServes {
    double teeth_per_square_inch;
    double finest_um;
    double coarsest_um;
};
inline constexpr ClothServes cloth[] = {
    {50.0, 24.0, 60.0}, {72.0, 18.0, 40.0}, {90.0, 15.0, 32.0}, {124.0, 11.0, 26.0}};
inline constexpr double cloth_least_share = 0.05;
inline constexpr double cloth_fine_warning = 0.85;   // of the finest
inline constexpr double cloth_coarse_warning = 1.3;  // of the coarsest

// Extras. Common practice, no source.
inline constexpr double sparkle_share_warning = 0.10;
inline constexpr double inclusion_least_share = 0.01;
inline constexpr double retention_least = 0.90;     // losing less than this is not worth a word
inline constexpr double lost_share_warning = 0.05;  // of the batt's mass
inline constexpr double dust_least_share = 0.05;

// Carding. Common practice, no source: past four or five passes fibre neps and colours go muddy.
inline constexpr int passes_most = 4;
inline constexpr double passes_very_fine_um = 17.5, passes_fine_um = 20.5;
inline constexpr int passes_very_fine = 2, passes_fine = 3;
// Cotton and fine down, short and fine, roll up a pass sooner.
inline constexpr double roll_up_um = 19.0, roll_up_mm = 45.0;
inline constexpr double passes_fine_cloth = 90.0;   // teeth per square inch that spare one pass
inline constexpr double passes_least_share = 0.10;  // of the batt, for fibre of one thickness to count
inline constexpr int passes_to_blend = 2;
inline constexpr double with_ease_on_cards_mm = 75.0;  // three inches: published how-to pages
inline constexpr double under_load = 0.5;              // of the carder's low load

// Feel. A wool test house's glossary (Riverina Wool Testers): more than 5 % of fibres over 30.5 um may
// prickle; 30 um is the rounded figure of the "comfort factor".
inline constexpr double prickle_share = 0.05;  // of the length of fibre, as its test counts snippets
// Common practice, no source: by the mean, what is over the limit goes over other clothes or under feet.
inline constexpr double rug_um = 33.0;
inline constexpr double locks_least_share = 0.05;  // of the batt's mass, for whole locks to be felt
// Common practice, no source: wool treated against felting stays as it is while the other shrinks round it.
inline constexpr double felting_least_share = 0.10;
// Common practice, no source: more than this of lumps and the web has nothing to carry them.
inline constexpr double lumps_warning = 0.40, lumps_spoils = 0.60;
// Common practice, no source: above this share of the mass locks are the batt and not an extra in it.
inline constexpr double locks_are_the_batt = 0.5;
inline constexpr double unknown_share = 0.05;

}  // namespace limits
}  // namespace battwright::staple
