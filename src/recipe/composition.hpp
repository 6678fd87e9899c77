// What a recipe weighs out to, and the flat list of strands every model works on.
#pragma once

#include <memory>
#include <vector>

#include "fibre/catalogue.hpp"
#include "recipe/recipe.hpp"

namespace battwright::recipe {

struct Masses {
    double total_grams = 0.0;
    std::vector<double> grams;  // one per component, conditioned mass
};

// Fixed weights first, percentages of the total, parts share what is left. Without a total it is found from
// the weights and percentages (weights / (1 - percents)); only parts and no total is a complaint, as is any
// sum that does not close within 0.05 % (or 0.01 g). The complaint's `where` names the components that
// disagree.
measure::Expected<Masses> masses_of(const Recipe& recipe);

// One kind in one colour within one component: the smallest thing the models see.
struct Strand {
    std::size_t component = 0;
    std::shared_ptr<const fibre::Kind> kind;  // the same for every strand of a kind
    double grams = 0.0;                       // conditioned
    double dry_grams = 0.0;                   // grams / (1 + allowance)
    double mass_share = 0.0;                  // of the batt, 0..1
    double staple_mm = 0.0;                   // of a pulled lock or tuft
    double fibre_mm = 0.0, staple_cv = 0.0;   // of its fibres, by number: fibre::mean_fibre_mm
    double diameter_um = 0.0, diameter_cv = 0.0;
    double tex = 0.0;          // of one fibre
    double count_share = 0.0;  // of the number of fibres, 0..1: N ~ w / (T L)
    fibre::Past past = fibre::Past::fleece;
    colour::Srgb colour;
    bool opened = false;  // a lock that has been carded before the last pass: it is fibre by then
};

// Neps, noil lumps, film, and locks that stay whole are no fibres of the mixture: they lie among them.
bool lies_among(const Strand& strand);

// The kinds are those of `catalogue`. Precondition: they are in it and the masses are the recipe's, as in one
// that has passed check().
std::vector<Strand> strands_of(const Recipe& recipe, const Masses& masses, const fibre::Catalogue& catalogue);

}  // namespace battwright::recipe
