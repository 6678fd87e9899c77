// Inside this room: every figure that is habit rather than law, in one place. All of it is common practice
// with no published source unless said.
#pragma once

namespace battwright::carding::habits {

// Fibre this slippery (catalogue scale) wants grippy fibre under and over it.
inline constexpr double slick_from = 0.6;
// One nep about the size of a pinhead; one curl of a lock.
inline constexpr double nep_grams = 0.002;
inline constexpr double lock_grams = 0.05;

// How far a fibre wanders sideways between feed tray and drum, for all-round cloth: about two teeth.
inline constexpr double across_mm = 5.0;
inline constexpr double all_round_teeth = 72.0;
// Along the drum a fibre is drawn out over a good part of its own length.
inline constexpr double round_of_staple = 0.4;
// In depth it mixes with its neighbours over about this many fibres lying on one another.
inline constexpr double depth_fibres = 1.6;
inline constexpr double depth_least = 0.03, depth_most = 0.15;  // share of the batt's depth
inline constexpr double thin_feed_widens = 1.25;
// Fibre volume over batt volume: 600 g/m2 stand about 30 mm high.
inline constexpr double batt_packing = 0.015;
inline constexpr double wool_density_g_m3 = 1.31e6;

// Fibre comes to the tray in handfuls: how wide one is, how far round the drum it is drawn out, and the CV of
// how thick they lie.
inline constexpr double handful_mm = 60.0, handful_round_mm = 140.0;
inline constexpr double handful_cv = 0.35;
// Dabs: one every so far, and how large one is: drawn out round the drum by the length of its fibres.
inline constexpr double dab_spacing_mm = 80.0, dab_spacing_round_mm = 190.0;
inline constexpr double dab_mm = 45.0, dab_round_mm = 140.0;
// What of a dabbed colour strays over the rest of the drum.
inline constexpr double dab_stray = 0.02;
// A gradient's colours overlap over this share of a neighbour's width (standard deviation).
inline constexpr double gradient_overlap = 0.35;

// What the drafting hands draw from at one moment: a patch of the batt.
inline constexpr double draw_across_mm = 12.0;
inline constexpr double draw_round_mm = 60.0;
inline constexpr double draw_depth_share = 1.0 / 6.0;

// Mean CIEDE2000 along the yarn's supply from its own mean. About 1 is just seen side by side (the unit's
// intention); the other limits are common practice.
inline constexpr double near_solid_below = 1.5;
inline constexpr double heathered_below = 4.0;
inline constexpr double streaky_below = 9.0;

// How finely a portion is fed, by diameter. (Passes it bears: staple::passes_borne.)
inline constexpr double very_fine_um = 17.5, fine_um = 20.5;
inline constexpr double nep_risk_share = 0.10;  // of the batt's mass, for a portion to count

// Feeding speed in grams a minute and the minutes that other steps take.
inline constexpr double grams_per_minute = 4.0, grams_per_minute_fine = 2.5;
inline constexpr double doff_minutes = 3.0, strip_minutes = 0.75, weigh_minutes_per_component = 1.0;
// A feed you can read print through, one you can see the tray through, one you cannot (g/m2 on the tray).
inline constexpr double gauze_g_m2 = 25.0, thin_g_m2 = 45.0, plain_g_m2 = 80.0;

}  // namespace battwright::carding::habits
