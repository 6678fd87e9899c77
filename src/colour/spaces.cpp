#include "colour/spaces.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace battwright::colour {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

Matrix3d rows(double a, double b, double c, double d, double e, double f, double g, double h, double i) {
    Matrix3d m;
    m << a, b, c, d, e, f, g, h, i;
    return m;
}

// IEC 61966-2-1, equation 7. Its inverse is taken here, not from the standard's four digits, so that there
// and back is exact.
const Matrix3d& srgb_to_xyz() {
    static const Matrix3d m = rows(0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505);
    return m;
}

const Matrix3d& xyz_to_srgb() {
    static const Matrix3d m = srgb_to_xyz().inverse();
    return m;
}

// ICC.1, Annex E: cone responses "sharpened" for adaptation.
const Matrix3d& bradford() {
    static const Matrix3d m = rows(0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296);
    return m;
}

const Matrix3d& bradford_inverse() {
    static const Matrix3d m = bradford().inverse();
    return m;
}

Vector3d vector(const Xyz& c) {
    return {c.x, c.y, c.z};
}
Xyz as_xyz(const Vector3d& v) {
    return {v.x(), v.y(), v.z()};
}

// Mirrored for negative light, so that colours outside the gamut stay ordered and come back.
double decoded_channel(double v) {
    const double size = std::abs(v);
    const double light = size <= 0.04045 ? size / 12.92 : std::pow((size + 0.055) / 1.055, 2.4);
    return std::copysign(light, v);
}

double encoded_channel(double v) {
    const double size = std::abs(v);
    const double code = size <= 0.0031308 ? size * 12.92 : 1.055 * std::pow(size, 1.0 / 2.4) - 0.055;
    return std::copysign(code, v);
}

// CIE 15: cube root with a straight piece near black, joined at (6/29)^3.
constexpr double knee = 6.0 / 29.0;

double lab_root(double t) {
    return t > knee * knee * knee ? std::cbrt(t) : t / (3.0 * knee * knee) + 4.0 / 29.0;
}

double lab_cube(double f) {
    return f > knee ? f * f * f : 3.0 * knee * knee * (f - 4.0 / 29.0);
}

}  // namespace

LinearRgb linear(const Srgb& colour) {
    return {decoded_channel(colour.r), decoded_channel(colour.g), decoded_channel(colour.b)};
}

Srgb encoded(const LinearRgb& colour) {
    return {encoded_channel(colour.r), encoded_channel(colour.g), encoded_channel(colour.b)};
}

Srgb clipped(const Srgb& colour) {
    const auto inside = [](double v) { return v > 0.0 ? std::min(v, 1.0) : 0.0; };
    return {inside(colour.r), inside(colour.g), inside(colour.b)};
}

Xyz xyz_from(const LinearRgb& colour) {
    return as_xyz(100.0 * (srgb_to_xyz() * Vector3d(colour.r, colour.g, colour.b)));
}

LinearRgb linear_from(const Xyz& xyz) {
    const Vector3d v = xyz_to_srgb() * vector(xyz) / 100.0;
    return {v.x(), v.y(), v.z()};
}

Xyz srgb_white() {
    return xyz_from(LinearRgb{1.0, 1.0, 1.0});
}

Lab lab(const Xyz& xyz, const Xyz& white) {
    const double fx = lab_root(xyz.x / white.x);
    const double fy = lab_root(xyz.y / white.y);
    const double fz = lab_root(xyz.z / white.z);
    return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

Xyz xyz_from(const Lab& lab, const Xyz& white) {
    const double fy = (lab.l + 16.0) / 116.0;
    return {white.x * lab_cube(fy + lab.a / 500.0), white.y * lab_cube(fy),
            white.z * lab_cube(fy - lab.b / 200.0)};
}

Lab lab(const Srgb& colour) {
    return lab(xyz_from(linear(colour)), srgb_white());
}

Srgb srgb_from(const Lab& lab) {
    return encoded(linear_from(xyz_from(lab, srgb_white())));
}

Xyz adapted(const Xyz& xyz, const Xyz& from_white, const Xyz& to_white) {
    const Vector3d from = bradford() * vector(from_white);
    const Vector3d to = bradford() * vector(to_white);
    const Vector3d cones = bradford() * vector(xyz);
    return as_xyz(bradford_inverse() * cones.cwiseProduct(to).cwiseQuotient(from));
}

Srgb srgb_under(const Spectrum& reflectance, Light light) {
    return encoded(linear_from(adapted(xyz(reflectance, light), white(light), srgb_white())));
}

Lab lab_under(const Spectrum& reflectance, Light light) {
    return lab(xyz(reflectance, light), white(light));
}

}  // namespace battwright::colour
