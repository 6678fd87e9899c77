#include "colour/reflectance.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <optional>

#include "colour/spaces.hpp"

namespace battwright::colour {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;
using Constraints = std::array<Spectrum, 3>;  // one row for each of X, Y, Z

// A reflectance of exactly 0 or 1 asks for an infinite z. The colour is drawn in by this much of linear light
// at each end: under 0.02 CIEDE2000 at black, less everywhere else.
constexpr double hair = 2e-5;
// Twice the squared slope: the curvature that two neighbouring bands share.
constexpr double bond = 2.0;

// z of every band with what hangs on it.
struct State {
    Spectrum z{};
    Spectrum r{};                      // (1 + tanh z) / 2
    Spectrum slope{};                  // dR/dz
    double roughness = 0.0;            // sum of squared steps of z: what is minimised
    Vector3d miss = Vector3d::Zero();  // XYZ reached less XYZ wanted, white = 1
};

struct Step {
    Spectrum z{};
    Vector3d multipliers = Vector3d::Zero();
};

// Weights of D65 with Y = 1 for white.
Constraints d65_rows() {
    Constraints rows{weights(Light::d65).x, weights(Light::d65).y, weights(Light::d65).z};
    for (Spectrum& row : rows)
        for (double& value : row) value /= 100.0;
    return rows;
}

const Constraints& rows() {
    static const Constraints d65 = d65_rows();
    return d65;
}

State state_at(const Spectrum& z, const Vector3d& wanted) {
    State s;
    s.z = z;
    s.miss = -wanted;
    for (std::size_t i = 0; i < bands; ++i) {
        const double e = std::exp(-2.0 * std::abs(z[i]));
        const double low = e / (1.0 + e);
        s.r[i] = z[i] < 0.0 ? low : 1.0 - low;
        s.slope[i] = 2.0 * low * (1.0 - low);
        for (int k = 0; k < 3; ++k) s.miss[k] += rows()[static_cast<std::size_t>(k)][i] * s.r[i];
        if (i > 0) s.roughness += (z[i] - z[i - 1]) * (z[i] - z[i - 1]);
    }
    return s;
}

Spectrum roughness_gradient(const Spectrum& z) {
    Spectrum g{};
    for (std::size_t i = 1; i < bands; ++i) {
        const double step = bond * (z[i] - z[i - 1]);
        g[i] += step;
        g[i - 1] -= step;
    }
    return g;
}

// L D L^T of the Lagrangian's Hessian, which is tridiagonal with -bond beside the diagonal.
struct Tridiagonal {
    Spectrum pivot{};
    int negative = 0;  // count of negative pivots: negative eigenvalues (Sylvester)
    bool sound = true;

    Spectrum solved(Spectrum b) const {
        for (std::size_t i = 1; i < bands; ++i) b[i] += bond / pivot[i - 1] * b[i - 1];
        b[bands - 1] /= pivot[bands - 1];
        for (std::size_t i = bands - 1; i-- > 0;) b[i] = (b[i] + bond * b[i + 1]) / pivot[i];
        return b;
    }
};

Tridiagonal factored(const State& s, const Vector3d& multipliers, double shift) {
    Tridiagonal t;
    for (std::size_t i = 0; i < bands; ++i) {
        const double pull =
            multipliers[0] * rows()[0][i] + multipliers[1] * rows()[1][i] + multipliers[2] * rows()[2][i];
        const double curvature = -2.0 * (2.0 * s.r[i] - 1.0) * s.slope[i] * pull;
        const double neighbours = i == 0 || i + 1 == bands ? bond : 2.0 * bond;
        const double carried = i == 0 ? 0.0 : bond * bond / t.pivot[i - 1];
        t.pivot[i] = neighbours + curvature + shift - carried;
        if (t.pivot[i] < 0.0) ++t.negative;
        if (std::abs(t.pivot[i]) < 1e-9) t.sound = false;
    }
    return t;
}

double dot(const Spectrum& a, const Spectrum& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < bands; ++i) sum += a[i] * b[i];
    return sum;
}

// One Newton step of the Lagrangian by the Schur complement, or nothing when it would head for a saddle: the
// whole matrix must have exactly three negative eigenvalues, one for each constraint.
std::optional<Step> newton_step(const State& s, const Vector3d& multipliers, double shift) {
    const Tridiagonal hessian = factored(s, multipliers, shift);
    if (!hessian.sound || hessian.negative > multipliers.size()) return std::nullopt;
    Constraints jacobian{}, spread{};
    for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t i = 0; i < bands; ++i) jacobian[k][i] = rows()[k][i] * s.slope[i];
        spread[k] = hessian.solved(jacobian[k]);
    }
    const Spectrum downhill = hessian.solved(roughness_gradient(s.z));
    Matrix3d schur;
    Vector3d right;
    for (int k = 0; k < 3; ++k) {
        const Spectrum& row = jacobian[static_cast<std::size_t>(k)];
        for (int j = 0; j < 3; ++j) schur(k, j) = dot(row, spread[static_cast<std::size_t>(j)]);
        right[k] = s.miss[k] - dot(row, downhill);
    }
    if (hessian.negative > 0) {
        const Vector3d eigenvalues = Eigen::SelfAdjointEigenSolver<Matrix3d>(schur).eigenvalues();
        if (hessian.negative + (eigenvalues.array() > 0.0).count() != eigenvalues.size()) return std::nullopt;
    }
    Step step;
    step.multipliers = schur.fullPivLu().solve(right);
    for (std::size_t i = 0; i < bands; ++i) {
        step.z[i] = -downhill[i];
        for (std::size_t k = 0; k < 3; ++k) step.z[i] -= spread[k][i] * step.multipliers[static_cast<int>(k)];
    }
    return step;
}

double size_of(const Spectrum& v) {
    double most = 0.0;
    for (const double value : v) most = std::max(most, std::abs(value));
    return most;
}

// The least shift of the Hessian that makes the step go downhill. The first keeps a flat start, where the
// Hessian is singular for equal z, from dividing by nothing.
Step descent_step(const State& s, const Vector3d& multipliers) {
    for (double shift = 1e-9; shift < 1e6; shift = std::max(1e-4, 10.0 * shift)) {
        if (const auto step = newton_step(s, multipliers, shift)) return *step;
    }
    return {};
}

Spectrum moved(const Spectrum& z, const Spectrum& step, double by) {
    Spectrum result = z;
    for (std::size_t i = 0; i < bands; ++i) result[i] += by * step[i];
    return result;
}

// Three overlapping bands, blue, green and red, weighed by the colour: near enough for Newton's method.
Spectrum start_for(const LinearRgb& colour) {
    Spectrum z{};
    for (std::size_t i = 0; i < bands; ++i) {
        const double nanometres = first_nanometre + band_nanometres * static_cast<double>(i);
        const double past_blue = 0.5 + 0.5 * std::tanh((nanometres - 492.0) / 25.0);
        const double past_green = 0.5 + 0.5 * std::tanh((nanometres - 588.0) / 25.0);
        const double r =
            colour.b * (1.0 - past_blue) + colour.g * (past_blue - past_green) + colour.r * past_green;
        z[i] = 0.5 * std::log(r / (1.0 - r));
    }
    return z;
}

// Newton's method on the Lagrangian, each step cut until roughness and miss together fall (an exact penalty,
// Nocedal & Wright, "Numerical Optimization", ch. 18). From `start_for` it takes 4 to 12 steps.
Spectrum smoothest(const Spectrum& start, const Vector3d& wanted) {
    State s = state_at(start, wanted);
    Vector3d multipliers = Vector3d::Zero();
    double price = 1.0;  // of missing the colour, against roughness
    for (int iteration = 0; iteration < 100; ++iteration) {
        const Step step = descent_step(s, multipliers);
        const double length = size_of(step.z);
        if (length < 1e-6 && s.miss.lpNorm<Eigen::Infinity>() < 1e-9) break;
        price = std::max(price, 1.5 * step.multipliers.lpNorm<Eigen::Infinity>());
        const auto merit = [&](const State& t) { return t.roughness + price * t.miss.lpNorm<1>(); };
        const double fall = dot(roughness_gradient(s.z), step.z) - price * s.miss.lpNorm<1>();
        double by = std::min(1.0, 2.0 / length);
        State next = state_at(moved(s.z, step.z, by), wanted);
        while (merit(next) > merit(s) + 1e-4 * by * fall + 1e-10 && by > 1e-6) {
            by *= 0.5;
            next = state_at(moved(s.z, step.z, by), wanted);
        }
        s = next;
        // The multipliers of a step cut short belong to a point never reached. Without any, the next step
        // sees only the roughness, which is convex.
        multipliers = by == 1.0 ? step.multipliers : Vector3d(Vector3d::Zero());
    }
    return s.r;
}

LinearRgb drawn_in(const LinearRgb& c) {
    const auto inside = [](double v) { return hair + (1.0 - 2.0 * hair) * v; };
    return {inside(c.r), inside(c.g), inside(c.b)};
}

}  // namespace

Spectrum reflectance_of(const Srgb& colour) {
    const LinearRgb light = drawn_in(linear(clipped(colour)));
    const Xyz wanted = adapted(xyz_from(light), srgb_white(), white(Light::d65));
    return smoothest(start_for(light), Vector3d(wanted.x, wanted.y, wanted.z) / 100.0);
}

}  // namespace battwright::colour
