// Inside this room: every figure that is habit rather than law, in one place. All of it is common practice
// with no published source unless said.
#pragma once

#include <cstddef>

#include "recipe/laying.hpp"

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
inline constexpr double depth_fibres = 0.6;
inline constexpr double depth_least = 0.02, depth_most = 0.15;  // share of the batt's depth
inline constexpr double thin_feed_widens = 1.25;
// Fibre volume over batt volume: 600 g/m2 stand about 30 mm high.
inline constexpr double batt_packing = 0.015;

// Fibre comes to the tray in handfuls: how wide one is, how far round the drum it is drawn out, and the CV of
// how thick they lie.
inline constexpr double handful_mm = 60.0, handful_round_mm = 140.0;
inline constexpr double handful_cv = 0.35;
// What is drawn over the teeth by hand comes in pinches, as unevenly.
inline constexpr double pinch_mm = 25.0;
// What is added on a later pass comes in fewer handfuls, and lies so much less evenly.
inline constexpr double late_uneven = 1.25;
// A tuft as the feed rollers give it up, and how one pass changes what lies unmixed in tufts: by which factor
// the variance among them falls (fibres let go and mix with their neighbours) and by which their mass (they
// come apart), on all-round cloth, for middling wool in an ordinary load. Common practice, no source: two
// colours fed in layers are a heather at two or three passes and solid at four or five.
inline constexpr double tuft_mg = 50.0;
inline constexpr double variance_kept = 0.30, tuft_kept = 0.30;
// How the opening (an exponent of both) goes with what makes it: with the square root of teeth, of the speed
// of the drum over the licker-in, and of the fibre's diameter (points a fibre: Klein, The Rieter Manual of
// Spinning, vol. 2, from memory); more for thin feeding, less for slick fibre and on an over-full drum.
inline constexpr double middling_um = 21.0, middling_slip = 0.2;
inline constexpr double slick_opens_less = 0.4, thin_feed_opens = 1.15;
// A piece turned sideways meets the teeth with its fibres lying across: they are drawn out one by one.
inline constexpr double sideways_opens = 1.4;

// A board's brush mixes the depth over half as many fibres as a drum. What laying on a board and one transfer
// between hand cards leave of what lies in tufts follows from equal collecting power (see unresolved.cpp);
// that the variance falls with the mass is common practice, no source.
inline constexpr double brush_fibres = 0.5 * depth_fibres;
inline constexpr double board_kept = 1.0 / 2.0, cards_kept = 1.0 / 3.0;
// Hand cards: how far the teeth of one reach into what lies on the other, of the teeth's length (their upper
// half: cards that mesh tear), a full load being as thick as the teeth are long (a spinner's page); what of
// it goes over on a stroke (half, where both cloths collect alike), and when the rest is taken over in one.
inline constexpr double card_sway_mm = 5.0;  // how far a stroke goes astray sideways
inline constexpr double stroke_reach = 0.5, stroke_takes = 0.5, stroked_until = 0.1;
inline constexpr int most_strokes = 12;
// Of the fibre under 25 mm, what one pass by hand leaves in the cloth; of a drum's breakage, what one pass by
// hand does: nothing pulls harder than the hand.
inline constexpr double short_left_on_board = 0.01, short_left_on_cards = 0.02;
inline constexpr double board_breaks = 0.1, cards_break = 0.3;

// Dabs: one every so far, and how large one is: drawn out round the drum by the length of its fibres.
inline constexpr double dab_spacing_mm = 80.0, dab_spacing_round_mm = 190.0;
inline constexpr double dab_mm = measure::row_of(recipe::spreadings, recipe::Spreading::dabs).wide_mm;
inline constexpr double dab_round_mm = 140.0;
// A gradient's colours overlap over this share of a neighbour's width (standard deviation).
inline constexpr double gradient_overlap = 0.35;

// What the drafting hands draw from at one moment: a patch of the batt. Taken to be the same off every tool.
inline constexpr double draw_across_mm = 12.0;
inline constexpr double draw_round_mm = 60.0;
inline constexpr double draw_depth_share = 1.0 / 6.0;
// What a camera sees of a batt's face: two or three mean free paths of light, 1 mm each of some 30.
inline constexpr double seen_depth_share = 1.0 / 12.0;

// Mean CIEDE2000 along the yarn's supply from its own mean. About 1 is just seen side by side (the unit's
// intention); the other limits are common practice. The first is of what another pass could still even out.
inline constexpr double near_solid_below = 0.5;
inline constexpr double heathered_below = 4.0;
inline constexpr double streaky_below = 9.0;

// A spot the eye just tells apart at reading distance, in fibres, and how far such spots must differ to be
// seen as salt and pepper; how far specks must differ from the ground, and what share of the batt they must
// be, for a tweed.
inline constexpr double fleck_fibres = 40.0, fleck_from = 2.0;
inline constexpr double speck_from = 6.0, speck_share = 0.002, speck_longest_mm = 60.0;

// How finely a portion is fed, by diameter. (Passes it bears: staple::passes_borne.)
inline constexpr double very_fine_um = 17.5, fine_um = 20.5;

// Short of this the licker-in keeps fibre; slick fibre it keeps when it is also very fine; how much of it.
inline constexpr double licker_in_mm = 30.0, licker_in_slick = 0.65, licker_in_um = 14.5;
inline constexpr double licker_in_keeps = 0.05, licker_in_keeps_short = 0.5;
inline constexpr double licker_in_later = 0.2;  // of that, once other fibre lies round it
// Of the fibre under 25 mm, what a pass loses under the drum and in the teeth.
inline constexpr double short_lost_a_pass = 0.04;
// Fibres broken on one pass of a drum: a twelfth of a worsted card's 31 %, for the 58/60s wool that was
// measured on (about 25 um and 85 mm).
inline constexpr double broken_a_pass = 0.31 / 12.0, broken_um = 25.0, broken_mm = 85.0;
// Each pass makes a batt loftier, so that the drum holds less of it.
inline constexpr double load_a_pass = 0.85;
inline constexpr double slack = 1e-9;  // tells "just full" from "over" when weights were computed
// Stripes that overlap by less than this come off as batts of their own.
inline constexpr double overlap_holds = 0.2;

// What a person still weighs and lays by hand, how many layings a batt, and how many of them so small.
inline constexpr double least_laid_grams = 0.3;
inline constexpr std::size_t most_lays = 60, most_tiny_lays = 12;

// Feeding speed in grams a minute and the minutes that other steps take.
inline constexpr double grams_per_minute = 4.0, grams_per_minute_fine = 2.5;
inline constexpr double doff_minutes = 3.0, strip_minutes = 0.75, weigh_minutes_per_component = 1.0;
// On a board and on hand cards: laying, brushing in, a stroke of a card, a rolag rolled, and what of the
// weighing a rolag takes when a whole lot is weighed out together.
inline constexpr double grams_per_minute_by_hand = 2.0, brush_minutes = 1.0, stroke_minutes = 0.04,
                        roll_minutes = 0.75, rolag_weighs = 0.25;
// Of fibre just laid, what hides all but a third (1/e) of what is under it.
inline constexpr double covers_g_m2 = 60.0;
// A feed you can read print through, one you can see the tray through, one you cannot (g/m2 on the tray).
inline constexpr double gauze_g_m2 = 25.0, thin_g_m2 = 45.0, plain_g_m2 = 80.0;

}  // namespace battwright::carding::habits
