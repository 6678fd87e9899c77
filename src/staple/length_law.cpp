#include "staple/length_law.hpp"

#include <cmath>

#include "text/believe.hpp"

namespace battwright::staple {
namespace {

// ln(1 + CV^2) of the Weibull law of this shape: falls as the shape grows.
double log_second_moment(double shape) {
    const double first = std::tgamma(1.0 + 1.0 / shape);
    return std::log(std::tgamma(1.0 + 2.0 / shape) / (first * first));
}

// The shape of a CV, by secants on logarithms, from the usual start a = CV^-1.086.
double shape_of(double cv) {
    const double wanted = std::log(std::log1p(cv * cv));
    double x0 = -1.086 * std::log(cv), x1 = x0 + 0.01;
    double y0 = std::log(log_second_moment(std::exp(x0))) - wanted;
    for (int step = 0; step < 30; ++step) {
        const double y1 = std::log(log_second_moment(std::exp(x1))) - wanted;
        if (std::abs(y1) < 1e-12 || y1 == y0) break;
        const double x2 = x1 - y1 * (x1 - x0) / (y1 - y0);
        x0 = x1;
        y0 = y1;
        x1 = x2;
    }
    return std::exp(x1);
}

// Regularised incomplete gamma P(a, x): the series for small x (DLMF 8.11.4), else 1 less the continued
// fraction (DLMF 8.9.2, evaluated forwards as Lentz has it).
double incomplete_gamma(double a, double x) {
    if (x <= 0.0) return 0.0;
    const double front = std::exp(a * std::log(x) - x) / std::tgamma(a);
    if (x < a + 1.0) {
        double term = 1.0 / a, sum = term;
        for (int n = 1; n < 500 && term > 1e-16 * sum; ++n) {
            term *= x / (a + n);
            sum += term;
        }
        return front * sum;
    }
    constexpr double tiny = 1e-300;
    double b = x + 1.0 - a, c = 1.0 / tiny, d = 1.0 / b, fraction = d;
    for (int n = 1; n < 500; ++n) {
        const double numerator = -n * (n - a);
        b += 2.0;
        d = numerator * d + b;
        c = b + numerator / c;
        if (std::abs(d) < tiny) d = tiny;
        if (std::abs(c) < tiny) c = tiny;
        d = 1.0 / d;
        fraction *= d * c;
        if (std::abs(d * c - 1.0) < 1e-15) break;
    }
    return 1.0 - front * fraction;
}

}  // namespace

LengthLaw::LengthLaw(double mean, double cv) : mean_(mean) {
    BATTWRIGHT_BELIEVE(mean > 0.0 && cv >= 0.0);
    if (cv <= 0.0) return;
    shape_ = shape_of(cv);
    scale_ = mean / std::tgamma(1.0 + 1.0 / shape_);
}

double LengthLaw::under(double x, int k) const {
    if (x <= 0.0) return 0.0;
    if (shape_ <= 0.0) return mean_ < x ? 1.0 : 0.0;
    const double t = std::pow(x / scale_, shape_);
    return k == 0 ? -std::expm1(-t) : incomplete_gamma(1.0 + k / shape_, t);
}

double LengthLaw::over(double x, int k) const {
    if (x <= 0.0) return 1.0;
    if (shape_ <= 0.0) return mean_ > x ? 1.0 : 0.0;
    return k == 0 ? std::exp(-std::pow(x / scale_, shape_)) : 1.0 - under(x, k);
}

double LengthLaw::exceeded_by(double share) const {
    BATTWRIGHT_BELIEVE(share > 0.0 && share < 1.0);
    return shape_ <= 0.0 ? mean_ : scale_ * std::pow(-std::log(share), 1.0 / shape_);
}

}  // namespace battwright::staple
