// Strands made by hand, for tests of distributions that need no catalogue.
#pragma once

#include "recipe/composition.hpp"

inline battwright::recipe::Strand strand_of(double grams, double staple_mm, double staple_cv, double tex,
                                            double diameter_um = 20.0, double diameter_cv = 0.22) {
    battwright::recipe::Strand strand;
    strand.grams = grams;
    strand.staple_mm = staple_mm;
    strand.fibre_mm = staple_mm;
    strand.staple_cv = staple_cv;
    strand.tex = tex;
    strand.diameter_um = diameter_um;
    strand.diameter_cv = diameter_cv;
    return strand;
}
