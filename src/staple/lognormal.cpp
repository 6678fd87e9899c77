#include "staple/lognormal.hpp"

#include <cmath>
#include <numbers>

#include "text/believe.hpp"

namespace battwright::staple {
namespace {

// Upper tail of the standard normal; erfc keeps its digits far out in the tail.
double upper_tail(double z) {
    return 0.5 * std::erfc(z / std::numbers::sqrt2);
}

}  // namespace

LogNormal::LogNormal(double mean, double cv)
    : mean_(mean), sigma_(std::sqrt(std::log1p(cv * cv))), mu_(std::log(mean) - sigma_ * sigma_ / 2.0) {
    BATTWRIGHT_BELIEVE(mean > 0.0 && cv >= 0.0);
}

double LogNormal::standardised(double x, int k) const {
    return (std::log(x) - mu_) / sigma_ - k * sigma_;
}

double LogNormal::under(double x, int k) const {
    if (x <= 0.0) return 0.0;
    if (sigma_ <= 0.0) return mean_ < x ? 1.0 : 0.0;
    return upper_tail(-standardised(x, k));
}

double LogNormal::over(double x, int k) const {
    if (x <= 0.0) return 1.0;
    if (sigma_ <= 0.0) return mean_ > x ? 1.0 : 0.0;
    return upper_tail(standardised(x, k));
}

double LogNormal::quantile_at(double z) const {
    return sigma_ <= 0.0 ? mean_ : std::exp(mu_ + z * sigma_);
}

}  // namespace battwright::staple
