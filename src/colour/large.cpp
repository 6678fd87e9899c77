#include "colour/large.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "text/believe.hpp"
#include "text/numbers.hpp"

namespace battwright::colour {
namespace {

using Cones = std::array<double, 3>;
using Matrix = std::array<std::array<double, 3>, 3>;

constexpr Matrix cat02{{{0.7328, 0.4296, -0.1624}, {-0.7036, 1.6975, 0.0061}, {0.0030, 0.0136, 0.9834}}};
constexpr Matrix cat02_inverse{
    {{1.096124, -0.278869, 0.182745}, {0.454369, 0.473533, 0.072098}, {-0.009628, -0.005698, 1.015326}}};
constexpr Matrix hunt_pointer_estevez{
    {{0.38971, 0.68898, -0.07868}, {-0.22981, 1.18340, 0.04641}, {0.0, 0.0, 1.0}}};
constexpr double surround_c = 0.69, surround_n = 1.0, surround_f = 1.0;

Cones times(const Matrix& m, const Cones& v) {
    Cones out{};
    for (std::size_t i = 0; i < 3; ++i) out[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    return out;
}

// What a viewing fixes for every colour.
struct Adaptation {
    Cones gain;  // of the adaptation, by cone
    double fl = 0.0, n = 0.0, nbb = 0.0, z = 0.0;
    double fl_root = 0.0, background = 0.0;  // fl^0.25, and the background's part of the chroma
    double white = 0.0;                      // the white's achromatic response
};

Cones responses(const Xyz& xyz, const Adaptation& adaptation);
double achromatic(const Cones& r, const Adaptation& adaptation);

Adaptation adaptation_to(const Viewing& v) {
    Adaptation adaptation;
    const double la = v.adapting_cd_m2;
    const double degree = surround_f * (1.0 - std::exp((-la - 42.0) / 92.0) / 3.6);
    const Cones white = times(cat02, {v.white.x, v.white.y, v.white.z});
    for (std::size_t i = 0; i < 3; ++i) adaptation.gain[i] = v.white.y * degree / white[i] + 1.0 - degree;
    // The standard's other term, for the dark, is some millionths of this one at 10 cd/m2 and less above.
    BATTWRIGHT_BELIEVE(la >= 10.0);
    adaptation.fl = 0.1 * std::cbrt(5.0 * la);
    adaptation.n = v.background_y / v.white.y;
    adaptation.nbb = 0.725 * std::pow(1.0 / adaptation.n, 0.2);
    adaptation.z = 1.48 + std::sqrt(adaptation.n);
    adaptation.fl_root = std::pow(adaptation.fl, 0.25);
    adaptation.background = std::pow(1.64 - std::pow(0.29, adaptation.n), 0.73);
    adaptation.white = achromatic(responses(v.white, adaptation), adaptation);
    return adaptation;
}

Cones responses(const Xyz& xyz, const Adaptation& adaptation) {
    Cones adapted = times(cat02, {xyz.x, xyz.y, xyz.z});
    for (std::size_t i = 0; i < 3; ++i) adapted[i] *= adaptation.gain[i];
    Cones cones = times(hunt_pointer_estevez, times(cat02_inverse, adapted));
    for (double& cone : cones) {
        const double p = std::pow(adaptation.fl * std::abs(cone) / 100.0, 0.42);
        cone = std::copysign(400.0 * p / (p + 27.13), cone) + 0.1;
    }
    return cones;
}

double achromatic(const Cones& r, const Adaptation& adaptation) {
    return (2.0 * r[0] + r[1] + r[2] / 20.0 - 0.305) * adaptation.nbb;
}

Appearance appearance_to(const Adaptation& adaptation, const Xyz& xyz) {
    const Cones r = responses(xyz, adaptation);
    const double a = r[0] - 12.0 * r[1] / 11.0 + r[2] / 11.0, b = (r[0] + r[1] - 2.0 * r[2]) / 9.0;
    const double hue = std::atan2(b, a);
    const double eccentricity = 0.25 * (std::cos(hue + 2.0) + 3.8);
    const double relative = achromatic(r, adaptation) / adaptation.white;
    const double j = 100.0 * std::pow(std::max(relative, 0.0), surround_c * adaptation.z);
    const double t = 50000.0 / 13.0 * surround_n * adaptation.nbb * eccentricity * std::hypot(a, b) /
                     (r[0] + r[1] + 21.0 / 20.0 * r[2]);
    const double chroma = std::pow(std::max(t, 0.0), 0.9) * std::sqrt(j / 100.0) * adaptation.background;
    const double degrees = hue * 180.0 / std::numbers::pi;
    return {j, chroma * adaptation.fl_root, degrees < 0.0 ? degrees + 360.0 : degrees};
}

LargeSpace large_space_under_d65(const Lab& colour) {
    static const Xyz light = white(Light::d65);
    static const Adaptation adaptation = adaptation_to(Viewing{light});
    return large_space(appearance_to(adaptation, xyz_from(colour, light)));
}

}  // namespace

Appearance appearance(const Xyz& xyz, const Viewing& viewing) {
    return appearance_to(adaptation_to(viewing), xyz);
}

LargeSpace large_space(const Appearance& seen) {
    constexpr double c1 = 0.007, c2 = 0.0053;
    const double m = std::log1p(c2 * seen.m) / c2, hue = seen.hue_degrees * std::numbers::pi / 180.0;
    return {(1.0 + 100.0 * c1) * seen.j / (1.0 + c1 * seen.j), m * std::cos(hue), m * std::sin(hue)};
}

double cam02_lcd(const LargeSpace& first, const LargeSpace& second) {
    constexpr double k_l = 0.77;
    return std::hypot((first.j - second.j) / k_l, first.a - second.a, first.b - second.b);
}

double cam02_lcd(const Lab& first, const Lab& second) {
    return cam02_lcd(large_space_under_d65(first), large_space_under_d65(second));
}

MatchTo::MatchTo(const Lab& target, double k_l)
    : target_(target), k_l_(k_l), large_(large_space_under_d65(target)) {}

double MatchTo::operator()(const Lab& sample) const {
    const double de00 = ciede2000(target_, sample, k_l_);
    if (de00 <= near_de00) return de00;
    const double t = std::min(1.0, (de00 - near_de00) / (far_de00 - near_de00));
    const double weight = t * t * (3.0 - 2.0 * t);
    return (1.0 - weight) * de00 + weight * cam02_lcd(large_, large_space_under_d65(sample));
}

double match_difference(const Lab& target, const Lab& sample, double k_l) {
    return MatchTo(target, k_l)(sample);
}

ToldDifference told(double de00, std::optional<double> large) {
    if (de00 <= near_de00) return {true, text::number(de00, 1)};
    return {false, text::number(large.value_or(de00), 0)};
}

}  // namespace battwright::colour
