// Length and diameter distributions of a mixture of strands.
#pragma once

#include <span>
#include <vector>

#include "recipe/composition.hpp"

namespace battwright::staple {

// A histogram: class midpoints and relative frequencies by number (they need not sum to 1).
struct Histogram {
    std::vector<double> midpoints;
    std::vector<double> frequencies;
};
enum class Weighting { number, length, mass };

double mean(const Histogram& h);
double standard_deviation(const Histogram& h);
// Mean of a fibre met in the yarn's cross-section: sum f l^2 / sum f l = mean (1 + CV^2).
double length_biased_mean(const Histogram& h);

// Length distribution of one strand on the grid's classes: log-normal of the strand's mean and CV.
// Grid: `classes` equal classes over 0..`longest_mm`.
struct LengthGrid {
    double longest_mm = 400.0;
    std::size_t classes = 200;
};
Histogram strand_lengths(const recipe::Strand& strand, const LengthGrid& grid);
// The mixture: by number (N ~ w / (T L)), by length (share of the cross-section's fibres), or by mass.
Histogram mixture_lengths(std::span<const recipe::Strand> strands, const LengthGrid& grid, Weighting weighting);

struct LengthSummary {
    double number_mean_mm = 0.0;
    double length_biased_mean_mm = 0.0;
    double cv_pct = 0.0;           // by number
    double short_share_pct = 0.0;  // by mass, under 25 mm
    double under_half_mean_pct = 0.0;  // by mass, under half the number mean
    double p95_mm = 0.0;           // the length only 5 % of fibres, by number, exceed
};
struct DiameterSummary {
    double mean_um = 0.0;  // by number
    double cv_pct = 0.0;
    double over_30um_pct = 0.0;  // by number: the prickle share
};
// Closed forms for means and CVs; log-normal tails for the shares. Inclusions (neps, locks, film) are fibres here
// too: they lie in the yarn. Empty input gives zeros.
LengthSummary summarise_lengths(std::span<const recipe::Strand> strands);
DiameterSummary summarise_diameters(std::span<const recipe::Strand> strands);

// Mean linear density of a fibre in tex: number-true (harmonic), 1 / sum(w/T), and the handbook's arithmetic one.
double mean_fibre_tex(std::span<const recipe::Strand> strands);
double mean_fibre_tex_arithmetic(std::span<const recipe::Strand> strands);

// What follows for the hands (common practice unless said).
struct Drafting {
    double hands_apart_mm = 0.0;      // about the length-biased mean staple
    double twist_angle_degrees = 0.0; // surface twist angle to start with
    double limit_irregularity_pct_at_100_fibres = 0.0;  // Martindale (1945)
};
Drafting drafting_of(std::span<const recipe::Strand> strands);

// Martindale's limit: 100 / sqrt(n) * sqrt(1 + 0.0004 CVd^2), CVd in percent.
double martindale_limit_pct(double fibres_in_section, double diameter_cv_pct);

}  // namespace battwright::staple
