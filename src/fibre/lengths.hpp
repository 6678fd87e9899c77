// Three lengths that must not be mixed up, and the one way from one to the next.
//
// staple    what a person measures: a lock or a tuft pulled from fleece or top, laid on a ruler
// hauteur   the mean length of the fibres in it, each counted once (by number); CV of hauteur is its spread
// barbe     the mean weighted by mass: hauteur (1 + CV^2) (Morton and Hearle, the length-biased mean)
#pragma once

#include "fibre/catalogue.hpp"

namespace battwright::fibre {

// What a test of greasy wool says besides staple and diameter. The defaults are a sound Australian fleece's
// (from memory), for when nobody has tested it.
struct FleeceTest {
    double strength_n_per_ktex = 35.0;
    double mid_breaks_pct = 45.0;  // the formula takes no less than 45
    double vegetable_matter_pct = 1.0;
};

// Hauteur in mm and its CV in percent of a combed merino top, from the staple (mm) and the diameter (um) of
// the fleece: the TEAM-2 formulae, fitted to 600 consignments of Australian wool in about 70 mills. Merino
// only.
//   H   = 0.52 SL + 0.47 SS + 0.95 D - 0.19 M - 0.45 VM - 3.5
//   CVH = 0.12 SL - 0.41 SS - 0.35 D + 0.20 M + 49.9   (a remembered copy ends in 49.3)
double team_hauteur_mm(double staple_mm, double diameter_um, const FleeceTest& test = {});
double team_hauteur_cv_pct(double staple_mm, double diameter_um, const FleeceTest& test = {});

double barbe_mm(double hauteur_mm, double cv);

// The mean length by number of what has this staple, as the kind's `staple_as` says:
//   fleece_to_top   TEAM-2, the merinos sold as top
//   pulled          a pulled tuft is gripped somewhere along its fibres, which picks them in proportion to
//                   their length: its own length is read as their length-biased mean, so H = staple / (1 +
//                   CV^2)
//   mean            the figure is the mean already: cut fibre, and what a laboratory measured
double mean_fibre_mm(const Kind& kind, double staple_mm, double diameter_um);

}  // namespace battwright::fibre
