#include "yarn/calibration.hpp"

#include <cmath>
#include <numbers>

#include "measure/units.hpp"
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

}  // namespace

double t_of_80_percent(int freedom) {
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

double Calibration::carded_share(recipe::Preparation preparation) const {
    return carded_shares_[static_cast<std::size_t>(preparation)].value_or(
        batt_grams_from_fed(1.0, preparation));
}

void Calibration::set_carded_share(recipe::Preparation preparation, double share) {
    carded_shares_[static_cast<std::size_t>(preparation)] = share;
}

const Belief& Calibration::of(recipe::Preparation preparation) const {
    return beliefs_[static_cast<std::size_t>(preparation)];
}

std::optional<measure::Complaint> Calibration::update(recipe::Preparation preparation, double real_m,
                                                      double nominal_m) {
    if (!above_zero(real_m))
        return measure::Complaint{"the length of the skein is not above zero",
                                  "measure it after it is washed and dry, and write its metres", "length"};
    if (!above_zero(nominal_m))
        return measure::Complaint{"there is no forecast to hold the skein against",
                                  "give the batt a weight and a wanted thickness first", "forecast"};
    const double log_ratio = std::log(real_m / nominal_m);
    if (std::abs(log_ratio) > std::log(believable_factor))
        return measure::Complaint{
            "the skein is " + metres(real_m) + " where " + metres(nominal_m) + " were forecast",
            "look again at its length, its unit, and which batt it was spun from", "length"};
    beliefs_[static_cast<std::size_t>(preparation)].update(log_ratio);
    return std::nullopt;
}

Range range_80_percent(double median, double half_width) {
    const double factor = std::exp(half_width);
    return {median / factor, median * factor};
}

double half_width_80_percent(const Belief& belief, double more_log_sd) {
    return t_of_80_percent(belief.freedom) * std::hypot(belief.predictive_sd(), more_log_sd);
}

}  // namespace battwright::yarn
