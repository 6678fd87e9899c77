// How much of the fibre fed comes off the drum, learnt from the batts that were weighed.
#pragma once

#include <array>
#include <optional>

#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"
#include "yarn/calibration.hpp"

namespace battwright::stash {

// Model: ln(off the drum / (fed * retained share)) = habit + chance, with the same conjugate family
// (normal-inverse-gamma) as the yardage. The prior's mean is the middle of yarn::carding_loss_pct; the rest
// of the prior is here. Common practice, no source: two batts of one hand differ by two parts in a hundred,
// believed as firmly as if six had shown it, and the habit itself is believed as firmly as two batts.
inline constexpr double batt_log_sd = 0.02;
inline constexpr int batt_prior_freedom = 6;
inline constexpr double batt_prior_batts = 2.0;
// A batt that weighs less than this share of what was fed, or more than the other, is a slip of the pen (it
// may have drunk some damp).
inline constexpr double least_share = 0.3, most_share = 1.1;

class CardingHabit {
  public:
    CardingHabit();
    // `count` is the number of batts it rests on.
    const yarn::Belief& of(recipe::Preparation preparation) const;
    // Share (0..1) of the fibre fed that comes off the drum: median, and the 80 % range of the next batt.
    double share(recipe::Preparation preparation) const;
    yarn::Range share_80_percent(recipe::Preparation preparation) const;
    // One more batt. `fed_grams` without what drops out of its own accord. Out of bounds is a complaint and
    // changes nothing.
    [[nodiscard]] std::optional<measure::Complaint> update(recipe::Preparation preparation,
                                                           double off_drum_grams, double fed_grams);

  private:
    std::array<yarn::Belief, recipe::preparations.size()> beliefs_;
};

}  // namespace battwright::stash
