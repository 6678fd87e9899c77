// How far this spinner's yarn runs from the forecast, learnt from the skeins and batts she logs.
#pragma once

#include <array>
#include <optional>

#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"
#include "yarn/thickness.hpp"

namespace battwright::yarn {

// Model: ln(real length / uncalibrated forecast) = habit + chance, both normal; one habit and one variance of
// the chance for each spinner and preparation. The prior on the two together is normal-inverse-gamma, which
// stays in its family (conjugate), so that an update is a few sums and the next skein follows Student's t
// (Gelman and others, Bayesian Data Analysis, 3.3). Not the known-variance model: with that an erratic
// spinner would be promised the range of a steady one.
//
// The prior. Common practice, no source: skeins spun to one plan by one pair of hands differ by about a
// ninth, which is believed as firmly as if eight skeins had shown it.
inline constexpr double skein_log_sd = 0.11;
inline constexpr int prior_freedom = 8;
// All together before anything is logged: the loft of yarns, and the wraps aimed at, squared in the length.
inline constexpr double prior_log_variance =
    packing_log_sd * packing_log_sd + 4.0 * wraps_log_sd * wraps_log_sd;
// What of that is habit, as the number of skeins it is worth: variance of the chance over that of the habit.
inline constexpr double prior_skeins =
    skein_log_sd * skein_log_sd / (prior_log_variance - skein_log_sd * skein_log_sd);
// An unknown kind of fibre adds this much, times its share of the mass. Common practice, no source.
inline constexpr double unknown_fibre_log_sd = 0.15;
// A logged length farther than this factor from the forecast is taken for a slip of the pen.
inline constexpr double believable_factor = 5.0;

// The value that 10 % of the distribution exceed, so that 80 % lie within +- it: the standard normal's, and
// Student's t of that many degrees of freedom (>= 1) by halving its distribution function, which for whole
// degrees is a finite sum (Abramowitz & Stegun 26.7.3 and 26.7.4).
inline constexpr double z_of_80_percent = 1.2815515655446004;
double t_of_80_percent(int freedom);

// What is believed of one preparation.
struct Belief {
    double mean = 0.0;             // of the habit
    double skeins = prior_skeins;  // how many skeins the mean is worth, the prior's own counted
    int freedom = prior_freedom;
    double squares = prior_freedom * skein_log_sd * skein_log_sd;  // about the mean, the prior's own counted
    int count = 0;                                                 // skeins logged

    double chance_sd() const;      // of ln(ratio) from skein to skein
    double sd() const;             // of the habit
    double predictive_sd() const;  // scale of the next skein's t: habit and chance together
    void update(double log_ratio);
};

class Calibration {
  public:
    const Belief& of(recipe::Preparation preparation) const;
    // One more skein: its measured length and the `nominal_length_m` that was forecast for it. A length that
    // is not above zero, or more than `believable_factor` off, is a complaint and changes nothing.
    [[nodiscard]] std::optional<measure::Complaint> update(recipe::Preparation preparation, double real_m,
                                                           double nominal_m);

    // Share (0..1) of what is fed that comes off the drum: as usual (finish.hpp) until her own batts are
    // known.
    double carded_share(recipe::Preparation preparation) const;
    // Precondition: the share is above zero.
    void set_carded_share(recipe::Preparation preparation, double share);

  private:
    std::array<Belief, 3> beliefs_;
    std::array<std::optional<double>, 3> carded_shares_;
};

// The range four skeins in five fall in: median * exp(-+ half width).
struct Range {
    double low = 0.0, high = 0.0;
};
Range range_80_percent(double median, double half_width);
// Of the next skein, with `more_log_sd` of other doubt added in squares.
double half_width_80_percent(const Belief& belief, double more_log_sd = 0.0);

}  // namespace battwright::yarn
