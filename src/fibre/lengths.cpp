#include "fibre/lengths.hpp"

#include <algorithm>

namespace battwright::fibre {

double team_hauteur_mm(double staple_mm, double diameter_um, const FleeceTest& test) {
    return 0.52 * staple_mm + 0.47 * test.strength_n_per_ktex + 0.95 * diameter_um -
           0.19 * std::max(test.mid_breaks_pct, 45.0) - 0.45 * test.vegetable_matter_pct - 3.5;
}

double team_hauteur_cv_pct(double staple_mm, double diameter_um, const FleeceTest& test) {
    return 0.12 * staple_mm - 0.41 * test.strength_n_per_ktex - 0.35 * diameter_um +
           0.20 * std::max(test.mid_breaks_pct, 45.0) + 49.9;
}

double barbe_mm(double hauteur_mm, double cv) {
    return hauteur_mm * (1.0 + cv * cv);
}

double mean_fibre_mm(const Kind& kind, double staple_mm, double diameter_um) {
    switch (kind.staple_as) {
        case StapleAs::fleece_to_top:
            // No top is longer than its fleece.
            return std::min(team_hauteur_mm(staple_mm, diameter_um), staple_mm);
        case StapleAs::pulled:
            return staple_mm / barbe_mm(1.0, kind.staple_cv);
        case StapleAs::mean:
            break;
    }
    return staple_mm;
}

}  // namespace battwright::fibre
