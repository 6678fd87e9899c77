// How far this spinner's yarn runs from the forecast, learnt from the skeins and batts she logs.
#pragma once

#include <array>
#include <optional>

#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"
#include "yarn/law.hpp"

namespace battwright::yarn {

// Model: ln(real length / uncalibrated forecast) = habit + chance, both normal; one habit and one variance of
// the chance for each spinner and preparation. The prior on the two together is normal-inverse-gamma, which
// stays in its family (conjugate), so that an update is a few sums and the next skein follows Student's t
// (Gelman and others, Bayesian Data Analysis, 3.3). Not the known-variance model: with that an erratic
// spinner would be promised the range of a steady one.
//
// Two habits are learnt apart: loft (metres per gram at the wraps got, over the law) and aim (wraps got over
// wraps wanted). The prior of both is what strangers' records show (law.hpp), believed as firmly as if eight
// skeins had shown it (common practice, no source).
inline constexpr double skein_log_sd = loft_chance_log_sd;
inline constexpr int prior_freedom = 8;
// What of the prior is habit, as the number of skeins it is worth: variance of the chance over the habit's.
inline constexpr double prior_skeins = skein_log_sd * skein_log_sd / (loft_habit_log_sd * loft_habit_log_sd);
// A preparation's own skeins speak for it from this many on; below, all of hers together do.
inline constexpr int enough_skeins = 3;
// An unknown kind of fibre adds this much, times its share of the mass. Common practice, no source.
inline constexpr double unknown_fibre_log_sd = 0.15;
// A logged length farther than this factor from the forecast is taken for a slip of the pen.
inline constexpr double believable_factor = 5.0;
// Wraps farther than this factor from those wanted are asked about ("did you change your mind?"), and metres
// per gram this many standard deviations from the forecast are asked about before they teach anything.
inline constexpr double asked_aim_factor = 1.2;
inline constexpr double asked_loft_sds = 2.5;

// The value that 10 % of the distribution exceed, so that 80 % lie within +- it: the standard normal's, and
// Student's t of that many degrees of freedom by halving its distribution function, which for whole
// degrees is a finite sum (Abramowitz & Stegun 26.7.3 and 26.7.4). Precondition: freedom >= 1.
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
    static Belief of_prior(double habit_log_sd, double chance_log_sd);
    void update(double log_ratio);
    bool operator==(const Belief&) const = default;
};

// One finished skein, as it was logged. Zero: not known.
struct Lesson {
    recipe::Preparation preparation = recipe::Preparation::woollen;
    double metres = 0.0, grams = 0.0;
    double nominal_m = 0.0;   // foretold for its weight, before calibration
    bool by_wraps = false;    // the plan said wraps, not a name or a grist
    double wanted_wpi = 0.0;  // of the plan
    double got_wpi = 0.0;     // counted on the skein
    int plies = 2;
    bool changed_plan = false;  // she says the wraps were meant: loft alone is taught
    bool confirmed = false;     // asked, and the figures are right
};

// What a skein taught, and what to ask about it.
enum class Taught { nothing, product_only, loft_only, aim_and_loft };
enum class Question { none, changed_her_mind, is_it_right };

// ln(real / nominal) of the next skein: middle, its standard deviations, and how many skeins it rests on.
struct Prediction {
    double mean = 0.0, habit_sd = 0.0, chance_sd = 0.0;
    int freedom = prior_freedom;
    int count = 0;
};

class Calibration {
  public:
    Calibration();
    // Length against the plan's forecast, of one preparation, whatever made it so.
    const Belief& of(recipe::Preparation preparation) const;
    // The two habits: this preparation's own, or of all together while it has fewer than `enough_skeins`.
    const Belief& aim(recipe::Preparation preparation) const;
    const Belief& loft(recipe::Preparation preparation) const;
    // That it is of all together.
    bool aim_is_borrowed(recipe::Preparation preparation) const;
    bool loft_is_borrowed(recipe::Preparation preparation) const;

    // The next skein of a plan by wraps (aim, loft and skeins that were never wrapped), of a plan by name or
    // grist, and of a skein in hand whose wraps were counted (loft alone).
    Prediction planned(recipe::Preparation preparation, double wanted_wpi) const;
    Prediction stated(recipe::Preparation preparation) const;
    Prediction in_hand(recipe::Preparation preparation) const;

    // One more skein without wraps: its measured length and the `nominal_length_m` that was forecast for it.
    // A length that is not above zero, or more than `believable_factor` off, is a complaint and changes
    // nothing.
    [[nodiscard]] std::optional<measure::Complaint> update(recipe::Preparation preparation, double real_m,
                                                           double nominal_m);
    // One more skein with all that is known of it. With wraps it teaches loft, and aim where the plan said
    // wraps and was kept; without, only the product of both. A skein to be asked about first teaches nothing.
    measure::Expected<Taught> learn(const Lesson& lesson);
    // What to ask of it, given what is believed now.
    Question question_about(const Lesson& lesson) const;

    // Share (0..1) of what is fed that comes off the drum: as usual (finish.hpp) until her own batts are
    // known.
    double carded_share(recipe::Preparation preparation) const;
    // Precondition: the share is above zero.
    void set_carded_share(recipe::Preparation preparation, double share);
    bool operator==(const Calibration&) const = default;

  private:
    struct Habits {
        Belief plan, aim, loft, unwrapped, stated;
        bool operator==(const Habits&) const = default;
    };
    static Habits prior();
    const Belief& own_or_all(recipe::Preparation preparation, Belief Habits::*which) const;
    double sds_off(const Lesson& lesson) const;
    void teach(recipe::Preparation preparation, Belief Habits::*which, double log_ratio);

    std::array<Habits, recipe::preparations.size()> habits_;
    Habits all_;
    std::array<std::optional<double>, recipe::preparations.size()> carded_shares_;
};

// The range four skeins in five fall in: median * exp(-+ half width).
struct Range {
    double low = 0.0, high = 0.0;
};
Range range_80_percent(double median, double half_width);
// Of the next skein, with `more_log_sd` of other doubt added in squares.
double half_width_80_percent(const Belief& belief, double more_log_sd = 0.0);
double half_width_80_percent(const Prediction& outlook, double more_log_sd = 0.0);

}  // namespace battwright::yarn
