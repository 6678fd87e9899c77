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

// Length distribution of one strand on the grid's classes: Weibull of the strand's mean and CV, each class
// exact (differences of the distribution function). Grid: `classes` equal classes over 0..`longest_mm`; the
// last class also holds whatever is longer, so that the frequencies of a strand sum to 1.
struct LengthGrid {
    double longest_mm = 400.0;
    std::size_t classes = 200;
};
Histogram strand_lengths(const recipe::Strand& strand, const LengthGrid& grid);
// The mixture: by number (N ~ w / (T L)), by length (share of the cross-section's fibres, N L ~ w / T), or by
// mass (N L T ~ w). Frequencies sum to 1, or are all 0 for no strands.
Histogram mixture_lengths(std::span<const recipe::Strand> strands, const LengthGrid& grid,
                          Weighting weighting);

struct LengthSummary {
    double number_mean_mm = 0.0;
    double mean_doubt_mm = 0.0;  // how far the mean may be off for want of knowing the kinds' staples
    double length_biased_mean_mm = 0.0;
    double cv_pct = 0.0;               // by number
    double short_share_pct = 0.0;      // by mass, under 25 mm
    double under_half_mean_pct = 0.0;  // by mass, under half the number mean
    double p95_mm = 0.0;               // the length only 5 % of fibres, by number, exceed
};
struct DiameterSummary {
    double mean_um = 0.0;  // by length
    double mean_doubt_um = 0.0;
    double cv_pct = 0.0;
    double over_30um_pct = 0.0;        // by length: the prickle share
    double over_30um_doubt_pct = 0.0;  // how far it may be off for want of knowing means and spreads
};
// Closed forms for means and CVs; Weibull tails of length and log-normal ones of diameter for the shares.
// Diameters are weighted by length of fibre (w / T), as in the test behind the published limit, which cuts
// fibres into snippets (IWTO-12, IWTO-47). What lies among the fibres (see recipe::lies_among) is left out
// while there is a fibre, and told by inclusions_of. Empty input gives zeros. The doubt of a mean: every
// kind's own (fibre::doubt; none for a figure of the tag's), independent of each other; the CV of length is
// in that of the mean where the mean is read from a pulled tuft (fibre/lengths.hpp).
LengthSummary summarise_lengths(std::span<const recipe::Strand> strands);
DiameterSummary summarise_diameters(std::span<const recipe::Strand> strands);

// What is left out above, kind by kind, most first: its share of the batt, and what it would be by itself.
struct Inclusion {
    const fibre::Kind* kind = nullptr;
    double mass_pct = 0.0;
    double staple_mm = 0.0;
    double diameter_um = 0.0;
    double over_30um_pct = 0.0;  // of its own length of fibre
};
std::vector<Inclusion> inclusions_of(std::span<const recipe::Strand> strands);

// Mean linear density of a fibre in tex, of what drafts: number-true (harmonic), 1 / sum(w/T), and the
// handbook's arithmetic one.
double mean_fibre_tex(std::span<const recipe::Strand> strands);
double mean_fibre_tex_arithmetic(std::span<const recipe::Strand> strands);

// What follows for the hands (common practice unless said), of what drafts.
struct Drafting {
    double hands_apart_mm = 0.0;                        // about the length-biased mean staple
    double twist_angle_degrees = 0.0;                   // surface twist angle to start with, 12..35
    double limit_irregularity_pct_at_100_fibres = 0.0;  // Martindale (1945), CV of the section's diameters
};
Drafting drafting_of(std::span<const recipe::Strand> strands);

// Mean number of fibres in a yarn's cross-section: tex of the yarn over tex of the fibre. 0 for a fibre of no
// mass. Use the harmonic mean tex for a blend.
double fibres_in_section(double tex_yarn, double tex_fibre);
// Martindale's limit, the least CV of mass a yarn can have when fibres lie at random, in percent:
// 100 / sqrt(n) * sqrt(1 + 0.0004 CVd^2), CVd in percent (Martindale 1945). 0 for no fibres.
double martindale_limit_pct(double fibres_in_section, double diameter_cv_pct);
// How far a yarn is from that limit: measured CV over limiting CV, 1 at best. 0 when the limit is 0.
double index_of_irregularity(double measured_cv_pct, double limit_cv_pct);

}  // namespace battwright::staple
