#include "stash/habit.hpp"

#include <cmath>

#include "measure/units.hpp"
#include "yarn/finish.hpp"

namespace battwright::stash {
namespace {

yarn::Belief prior_of(recipe::Preparation preparation) {
    yarn::Belief belief;
    belief.mean = std::log1p(-yarn::carding_loss_pct(preparation).middle() / 100.0);
    belief.skeins = batt_prior_batts;
    belief.freedom = batt_prior_freedom;
    belief.squares = batt_prior_freedom * batt_log_sd * batt_log_sd;
    return belief;
}

std::string in_grams(double grams) {
    return measure::print_mass(grams, measure::MassUnit::gram);
}

}  // namespace

CardingHabit::CardingHabit() {
    for (const auto& row : recipe::preparations)
        beliefs_[static_cast<std::size_t>(row.value)] = prior_of(row.value);
}

const yarn::Belief& CardingHabit::of(recipe::Preparation preparation) const {
    return beliefs_[static_cast<std::size_t>(preparation)];
}

double CardingHabit::share(recipe::Preparation preparation) const {
    return std::exp(of(preparation).mean);
}

yarn::Range CardingHabit::share_80_percent(recipe::Preparation preparation) const {
    return yarn::range_80_percent(share(preparation), yarn::half_width_80_percent(of(preparation)));
}

std::optional<measure::Complaint> CardingHabit::update(recipe::Preparation preparation, double off_drum_grams,
                                                       double fed_grams) {
    const double share = off_drum_grams / fed_grams;
    if (!(fed_grams > 0.0) || !(share >= least_share && share <= most_share))
        return measure::Complaint{
            "the batt weighs " + in_grams(off_drum_grams) + " where " + in_grams(fed_grams) + " were fed",
            "weigh all its batts together, and look again at the unit", "weight"};
    beliefs_[static_cast<std::size_t>(preparation)].update(std::log(share));
    return std::nullopt;
}

}  // namespace battwright::stash
