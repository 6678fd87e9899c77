#include "yarn/calibration.hpp"

#include <cmath>
#include <numbers>

#include "measure/units.hpp"
#include "text/believe.hpp"
#include "yarn/finish.hpp"

namespace battwright::yarn {
namespace {

// P(|t| < x) for whole degrees of freedom: Abramowitz & Stegun 26.7.3 (odd) and 26.7.4 (even), in
// angle = atan(x / sqrt(freedom)).
double within(double x, int freedom) {
    const double angle = std::atan(x / std::sqrt(freedom));
    const double cosine = std::cos(angle);
    const bool odd = freedom % 2 == 1;
    double term = odd ? cosine : 1.0, sum = 0.0;
    for (int k = odd ? 2 : 1; k < freedom; k += 2) {
        sum += term;
        term *= cosine * cosine * k / (k + 1.0);
    }
    const double even_part = std::sin(angle) * sum;
    return odd ? 2.0 / std::numbers::pi * (angle + even_part) : even_part;
}

std::string metres(double length) {
    return measure::print_yarn_length(length, measure::YarnLengthUnit::metre);
}

bool above_zero(double value) {
    return value > 0.0 && std::isfinite(value);
}

std::optional<measure::Complaint> slip_in(double real_m, double nominal_m) {
    if (!above_zero(real_m))
        return measure::Complaint{"the length of the skein is not above zero",
                                  "measure it after it is washed and dry, and write its metres", "length"};
    if (!above_zero(nominal_m))
        return measure::Complaint{"there is no forecast to hold the skein against",
                                  "give the batt a weight and a wanted thickness first", "forecast"};
    if (std::abs(std::log(real_m / nominal_m)) <= std::log(believable_factor)) return std::nullopt;
    return measure::Complaint{
        "the skein is " + metres(real_m) + " where " + metres(nominal_m) + " were forecast",
        "look again at its length, its unit, and which batt it was spun from", "length"};
}

// Metres per gram over the law at the wraps got. Where the plan said wraps, the law's plies and fibre are
// those of the forecast and fall out of the difference.
std::optional<double> log_loft(const Lesson& lesson) {
    if (!above_zero(lesson.got_wpi) || !above_zero(lesson.metres)) return std::nullopt;
    const Makeup plain{lesson.plies, law_diameter_um};
    const double at_got = log_m_per_kg_at_wraps(lesson.got_wpi, plain);
    if (lesson.by_wraps && above_zero(lesson.wanted_wpi) && above_zero(lesson.nominal_m))
        return std::log(lesson.metres / lesson.nominal_m) -
               (at_got - log_m_per_kg_at_wraps(lesson.wanted_wpi, plain));
    if (!above_zero(lesson.grams)) return std::nullopt;
    return std::log(1000.0 * lesson.metres / lesson.grams) - at_got;
}

std::optional<double> log_aim(const Lesson& lesson) {
    const bool known = lesson.by_wraps && above_zero(lesson.wanted_wpi) && above_zero(lesson.got_wpi);
    if (!known || lesson.changed_plan) return std::nullopt;
    return std::log(lesson.got_wpi / lesson.wanted_wpi);
}

Prediction outlook_of(const Belief& belief) {
    return {belief.mean, belief.sd(), belief.chance_sd(), belief.freedom, belief.count};
}

}  // namespace

double t_of_80_percent(int freedom) {
    BATTWRIGHT_BELIEVE(freedom >= 1);
    double low = z_of_80_percent, high = 4.0;  // t of one degree is 3.08, and it falls to the normal's
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (within(middle, freedom) < 0.8 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

double Belief::chance_sd() const {
    return std::sqrt(squares / freedom);
}

double Belief::sd() const {
    return chance_sd() / std::sqrt(skeins);
}

double Belief::predictive_sd() const {
    return std::hypot(chance_sd(), sd());
}

void Belief::update(double log_ratio) {
    const double error = log_ratio - mean;
    squares += skeins / (skeins + 1.0) * error * error;
    mean += error / (skeins + 1.0);
    skeins += 1.0;
    ++freedom;
    ++count;
}

Belief Belief::of_prior(double habit_log_sd, double chance_log_sd) {
    Belief belief;
    belief.skeins = chance_log_sd * chance_log_sd / (habit_log_sd * habit_log_sd);
    belief.squares = belief.freedom * chance_log_sd * chance_log_sd;
    return belief;
}

Calibration::Habits Calibration::prior() {
    Habits habits;
    habits.aim = Belief::of_prior(aim_habit_log_sd, aim_chance_log_sd);
    habits.stated = Belief::of_prior(name_habit_log_sd, name_chance_log_sd);
    return habits;
}

Calibration::Calibration() : all_(prior()) {
    habits_.fill(all_);
}

double Calibration::carded_share(recipe::Preparation preparation) const {
    return carded_shares_[static_cast<std::size_t>(preparation)].value_or(
        batt_grams_from_fed(1.0, preparation));
}

void Calibration::set_carded_share(recipe::Preparation preparation, double share) {
    BATTWRIGHT_BELIEVE(share > 0.0);
    carded_shares_[static_cast<std::size_t>(preparation)] = share;
}

const Belief& Calibration::of(recipe::Preparation preparation) const {
    return habits_[static_cast<std::size_t>(preparation)].plan;
}

const Belief& Calibration::own_or_all(recipe::Preparation preparation, Belief Habits::*which) const {
    const Belief& own = habits_[static_cast<std::size_t>(preparation)].*which;
    return own.count >= enough_skeins ? own : all_.*which;
}

const Belief& Calibration::aim(recipe::Preparation preparation) const {
    return own_or_all(preparation, &Habits::aim);
}

const Belief& Calibration::loft(recipe::Preparation preparation) const {
    return own_or_all(preparation, &Habits::loft);
}

bool Calibration::aim_is_borrowed(recipe::Preparation preparation) const {
    return &aim(preparation) == &all_.aim;
}

bool Calibration::loft_is_borrowed(recipe::Preparation preparation) const {
    return &loft(preparation) == &all_.loft;
}

Prediction Calibration::in_hand(recipe::Preparation preparation) const {
    return outlook_of(loft(preparation));
}

Prediction Calibration::stated(recipe::Preparation preparation) const {
    return outlook_of(own_or_all(preparation, &Habits::stated));
}

// ln(real / nominal) = slope * aim + loft, each with its own belief; skeins without wraps are observations of
// that sum (two normals multiplied), and share in its chance by their number.
Prediction Calibration::planned(recipe::Preparation preparation, double wanted_wpi) const {
    const double slope = law_slope(wanted_wpi);
    const Belief& a = aim(preparation);
    const Belief& l = loft(preparation);
    Prediction sum{slope * a.mean + l.mean, std::hypot(slope * a.sd(), l.sd()),
                   std::hypot(slope * a.chance_sd(), l.chance_sd()), l.freedom, l.count};
    const Belief& bare = own_or_all(preparation, &Habits::unwrapped);
    if (bare.count == 0) return sum;
    const double n = bare.count, chance = sum.chance_sd, more = bare.chance_sd();
    sum.chance_sd = std::sqrt((sum.freedom * chance * chance + n * more * more) / (sum.freedom + n));
    const double prior_weight = 1.0 / (sum.habit_sd * sum.habit_sd);
    const double weight = n / (sum.chance_sd * sum.chance_sd);
    const double average = bare.mean * bare.skeins / n;  // of the skeins alone: the prior's mean is 0
    sum.mean = (prior_weight * sum.mean + weight * average) / (prior_weight + weight);
    sum.habit_sd = 1.0 / std::sqrt(prior_weight + weight);
    sum.freedom += bare.count;
    sum.count += bare.count;
    return sum;
}

void Calibration::teach(recipe::Preparation preparation, Belief Habits::*which, double log_ratio) {
    (habits_[static_cast<std::size_t>(preparation)].*which).update(log_ratio);
    (all_.*which).update(log_ratio);
}

std::optional<measure::Complaint> Calibration::update(recipe::Preparation preparation, double real_m,
                                                      double nominal_m) {
    if (auto slip = slip_in(real_m, nominal_m)) return slip;
    teach(preparation, &Habits::plan, std::log(real_m / nominal_m));
    teach(preparation, &Habits::unwrapped, std::log(real_m / nominal_m));
    return std::nullopt;
}

// How many standard deviations off: by loft where it was wrapped, else by the plan it was to be.
double Calibration::sds_off(const Lesson& lesson) const {
    const auto loft_seen = log_loft(lesson);
    if (!loft_seen && !(above_zero(lesson.nominal_m) && above_zero(lesson.metres))) return 0.0;
    const Prediction expected = loft_seen         ? in_hand(lesson.preparation)
                                : lesson.by_wraps ? planned(lesson.preparation, lesson.wanted_wpi)
                                                  : stated(lesson.preparation);
    const double seen = loft_seen ? *loft_seen : std::log(lesson.metres / lesson.nominal_m);
    return std::abs(seen - expected.mean) / std::hypot(expected.habit_sd, expected.chance_sd);
}

Question Calibration::question_about(const Lesson& lesson) const {
    if (lesson.confirmed) return Question::none;
    if (sds_off(lesson) > asked_loft_sds) return Question::is_it_right;
    const auto aim_seen = log_aim(lesson);
    const bool far = aim_seen && std::abs(*aim_seen) > std::log(asked_aim_factor);
    return far ? Question::changed_her_mind : Question::none;
}

measure::Expected<Taught> Calibration::learn(const Lesson& lesson) {
    const auto loft_seen = log_loft(lesson);
    const double nominal =
        lesson.nominal_m > 0.0 ? lesson.nominal_m : (loft_seen ? lesson.metres / std::exp(*loft_seen) : 0.0);
    if (auto slip = slip_in(lesson.metres, nominal)) return tl::make_unexpected(*slip);
    if (question_about(lesson) == Question::is_it_right) return Taught::nothing;
    const auto way = lesson.preparation;
    const double product = std::log(lesson.metres / nominal);
    const bool kept_plan = lesson.nominal_m > 0.0 && !lesson.changed_plan;
    if (kept_plan) teach(way, &Habits::plan, product);
    if (kept_plan && !lesson.by_wraps) teach(way, &Habits::stated, product);
    if (!loft_seen) {
        if (kept_plan && lesson.by_wraps) teach(way, &Habits::unwrapped, product);
        return kept_plan ? Taught::product_only : Taught::nothing;
    }
    teach(way, &Habits::loft, *loft_seen);
    const auto aim_seen = log_aim(lesson);
    if (!aim_seen) return Taught::loft_only;
    teach(way, &Habits::aim, *aim_seen);
    return Taught::aim_and_loft;
}

Range range_80_percent(double median, double half_width) {
    const double factor = std::exp(half_width);
    return {median / factor, median * factor};
}

double half_width_80_percent(const Belief& belief, double more_log_sd) {
    return t_of_80_percent(belief.freedom) * std::hypot(belief.predictive_sd(), more_log_sd);
}

double half_width_80_percent(const Prediction& outlook, double more_log_sd) {
    return t_of_80_percent(outlook.freedom) * std::hypot(outlook.chance_sd, outlook.habit_sd, more_log_sd);
}

}  // namespace battwright::yarn
