#include "solve/appearance.hpp"

#include "colour/large.hpp"

#include <algorithm>
#include <cmath>

namespace battwright::solve {
namespace {

using colour::bands;
using Eigen::Index;
using Eigen::Vector3d;

constexpr double darkest_f = 1e-300;  // Friele's function of a black fibre
constexpr double apart = 1e-4;        // of f: how far to each side a difference is taken

// Where to take differences of the inverse, so that both sides are reflectances: Kubelka and Munk's function
// ends at 0 (white), Friele's runs from 0 (black) to 1 (white), Stearns and Noechel's can be carried past
// white.
struct Stencil {
    double at = 0.0, h = 0.0;
};
Stencil stencil(double f, colour::Optics optics) {
    double at = f;
    if (optics == colour::Optics::kubelka_munk) at = std::max(f, 1e-8);
    if (optics == colour::Optics::friele) at = std::clamp(f, 1e-30, 1.0 - apart);
    const double h = apart * at;
    return {at, optics == colour::Optics::stearns_noechel ? std::max(h, 1e-6) : h};
}

colour::Lab lab_of(const Vector3d& xyz) {
    static const colour::Xyz white = colour::white(colour::Light::d65);
    return colour::lab({xyz.x(), xyz.y(), xyz.z()}, white);
}

const Eigen::Matrix3Xd& weights() {
    static const Eigen::Matrix3Xd matrix = [] {
        const colour::Observer& w = colour::weights(colour::Light::d65);
        Eigen::Matrix3Xd m(3, Index(bands));
        for (Index b = 0; b < Index(bands); ++b) {
            const auto i = std::size_t(b);
            m.col(b) = Vector3d(w.x[i], w.y[i], w.z[i]);
        }
        return m;
    }();
    return matrix;
}

double reflectance(double f, const colour::OpticsModel& optics) {
    double at = std::max(f, darkest_f);
    if (optics.optics == colour::Optics::friele) at = std::min(at, 1.0);
    return colour::inverse(at, optics);
}

VectorXd reflectances(const VectorXd& f, const colour::OpticsModel& optics) {
    VectorXd r(f.size());
    for (Index b = 0; b < f.size(); ++b) r[b] = reflectance(f[b], optics);
    return r;
}

// Central differences over X, Y and Z.
void differentiate(LocalColour& local, const Vector3d& xyz, const OfLab& of) {
    const auto at = [&](const Vector3d& point) { return of(lab_of(point)); };
    local.value = at(xyz);
    const Vector3d step = 2e-4 * (xyz.array() + 0.2);
    Vector3d up, down;
    for (Index c = 0; c < 3; ++c) {
        const Vector3d h = step[c] * Vector3d::Unit(c);
        up[c] = at(xyz + h);
        down[c] = at(xyz - h);
        local.gradient[c] = (up[c] - down[c]) / (2.0 * step[c]);
        local.hessian(c, c) = (up[c] - 2.0 * local.value + down[c]) / (step[c] * step[c]);
    }
    for (Index c = 0; c < 3; ++c) {
        for (Index e = 0; e < c; ++e) {
            const Vector3d h = step[c] * Vector3d::Unit(c) + step[e] * Vector3d::Unit(e);
            const double mixed =
                at(xyz + h) + at(xyz - h) - up[c] - down[c] - up[e] - down[e] + 2.0 * local.value;
            local.hessian(c, e) = local.hessian(e, c) = mixed / (2.0 * step[c] * step[e]);
        }
    }
}

}  // namespace

colour::Lab lab_of_f(const VectorXd& f, const colour::OpticsModel& optics) {
    return lab_of(weights() * reflectances(f, optics));
}

OfLab squared_difference(const Target& target, double k_l) {
    return [difference = colour::MatchTo(target.lab, k_l)](const colour::Lab& at) {
        const double e = difference(at);
        return e * e;
    };
}

LocalColour local_colour(const VectorXd& f, const colour::OpticsModel& optics, const OfLab& of) {
    LocalColour local;
    VectorXd r(f.size()), first(f.size()), second(f.size());
    for (Index b = 0; b < f.size(); ++b) {
        const auto [at, h] = stencil(f[b], optics.optics);
        const double up = colour::inverse(at + h, optics), down = colour::inverse(at - h, optics);
        first[b] = (up - down) / (2.0 * h);
        second[b] = (up - 2.0 * colour::inverse(at, optics) + down) / (h * h);
        r[b] = reflectance(f[b], optics);
    }
    const Vector3d xyz = weights() * r;
    differentiate(local, xyz, of);
    local.slope = weights() * first.asDiagonal();
    local.bend = (weights().transpose() * local.gradient).cwiseProduct(second);
    return local;
}

}  // namespace battwright::solve
