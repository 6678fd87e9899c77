// Colour differences, declared in colour/spaces.hpp.
#include <cmath>
#include <numbers>

#include "colour/spaces.hpp"

namespace battwright::colour {
namespace {

constexpr double radians_per_degree = std::numbers::pi / 180.0;

double square(double v) {
    return v * v;
}
double cos_degrees(double degrees) {
    return std::cos(degrees * radians_per_degree);
}

// 0..360; 0 for a grey, whose hue means nothing.
double hue_degrees(double a, double b) {
    if (a == 0.0 && b == 0.0) return 0.0;
    const double degrees = std::atan2(b, a) / radians_per_degree;
    return degrees < 0.0 ? degrees + 360.0 : degrees;
}

// 0 for no chroma, towards 1 for much: both formulae of Sharma's paper that use 25^7.
double chroma_weight(double chroma) {
    const double seventh = std::pow(chroma, 7.0);
    return std::sqrt(seventh / (seventh + std::pow(25.0, 7.0)));
}

struct Polar {
    double c = 0.0, h_degrees = 0.0;
};

// Signed hue step by the shorter way round; 0 when either colour is grey (equation 10).
double hue_step(const Polar& p, const Polar& q) {
    if (p.c * q.c == 0.0) return 0.0;
    const double step = q.h_degrees - p.h_degrees;
    if (step > 180.0) return step - 360.0;
    if (step < -180.0) return step + 360.0;
    return step;
}

// Mean hue on the shorter arc (equation 14).
double mean_hue(const Polar& p, const Polar& q) {
    const double sum = p.h_degrees + q.h_degrees;
    if (p.c * q.c == 0.0) return sum;
    if (std::abs(p.h_degrees - q.h_degrees) <= 180.0) return sum / 2.0;
    return sum < 360.0 ? (sum + 360.0) / 2.0 : (sum - 360.0) / 2.0;
}

double hue_weight(double hue) {
    return 1.0 - 0.17 * cos_degrees(hue - 30.0) + 0.24 * cos_degrees(2.0 * hue) +
           0.32 * cos_degrees(3.0 * hue + 6.0) - 0.20 * cos_degrees(4.0 * hue - 63.0);
}

}  // namespace

double ciede2000(const Lab& first, const Lab& second, double k_l, double k_c, double k_h) {
    const double mean_c_ab = (std::hypot(first.a, first.b) + std::hypot(second.a, second.b)) / 2.0;
    const double stretch = 1.0 + 0.5 * (1.0 - chroma_weight(mean_c_ab));
    const Polar p{std::hypot(stretch * first.a, first.b), hue_degrees(stretch * first.a, first.b)};
    const Polar q{std::hypot(stretch * second.a, second.b), hue_degrees(stretch * second.a, second.b)};

    const double mean_l = (first.l + second.l) / 2.0;
    const double mean_c = (p.c + q.c) / 2.0;
    const double hue = mean_hue(p, q);
    const double lightness_bend = square(mean_l - 50.0);
    const double s_l = 1.0 + 0.015 * lightness_bend / std::sqrt(20.0 + lightness_bend);
    const double s_c = 1.0 + 0.045 * mean_c;
    const double s_h = 1.0 + 0.015 * mean_c * hue_weight(hue);
    const double turn_degrees = 30.0 * std::exp(-square((hue - 275.0) / 25.0));
    const double r_t = -2.0 * chroma_weight(mean_c) * std::sin(2.0 * turn_degrees * radians_per_degree);

    const double d_l = (second.l - first.l) / (k_l * s_l);
    const double d_c = (q.c - p.c) / (k_c * s_c);
    const double chord = 2.0 * std::sqrt(p.c * q.c) * std::sin(hue_step(p, q) / 2.0 * radians_per_degree);
    const double d_h = chord / (k_h * s_h);
    // The rotation term can leave a tiny negative sum for equal colours.
    return std::sqrt(std::fmax(0.0, d_l * d_l + d_c * d_c + d_h * d_h + r_t * d_c * d_h));
}

double cmc(const Lab& standard, const Lab& sample, double l, double c) {
    const double c_standard = std::hypot(standard.a, standard.b);
    const double c_sample = std::hypot(sample.a, sample.b);
    const double hue = hue_degrees(standard.a, standard.b);
    const bool bluish_red = hue >= 164.0 && hue <= 345.0;
    const double t = bluish_red ? 0.56 + std::abs(0.2 * cos_degrees(hue + 168.0))
                                : 0.36 + std::abs(0.4 * cos_degrees(hue + 35.0));
    const double fourth = square(square(c_standard));
    const double f = std::sqrt(fourth / (fourth + 1900.0));
    const double s_l = standard.l < 16.0 ? 0.511 : 0.040975 * standard.l / (1.0 + 0.01765 * standard.l);
    const double s_c = 0.0638 * c_standard / (1.0 + 0.0131 * c_standard) + 0.638;
    const double s_h = s_c * (f * t + 1.0 - f);

    const double d_c = c_sample - c_standard;
    const double h_squared = square(sample.a - standard.a) + square(sample.b - standard.b) - d_c * d_c;
    return std::sqrt(square((sample.l - standard.l) / (l * s_l)) + square(d_c / (c * s_c)) +
                     std::fmax(0.0, h_squared) / square(s_h));
}

}  // namespace battwright::colour
