#include "colour/sighting.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

#include "colour/spaces.hpp"
#include "text/believe.hpp"

namespace battwright::colour {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

constexpr int most_steps = 40;
constexpr double longest_step = 0.5, half_difference = 0.02;
// Lab units, squared: no photo knows a colour better, and the matrix stays one that can be inverted.
constexpr double least_variance = 1e-4;
constexpr double least_information = 1e-6;

Vector3d vector_of(const Lab& c) {
    return {c.l, c.a, c.b};
}

// Slope, residual and information at one value of the figure.
struct Look {
    double information = 0.0, pull = 0.0, squares = 0.0;
};

template <class At>
double most_likely(const At& look, const PriorNormal& prior) {
    const double weight = 1.0 / (prior.sd * prior.sd);
    double x = prior.mean;
    for (int i = 0; i < most_steps; ++i) {
        const Look here = look(x);
        const double step = (here.pull - weight * (x - prior.mean)) / (here.information + weight);
        x += std::clamp(step, -longest_step, longest_step);
        if (std::abs(step) < 1e-6) break;
    }
    return x;
}

Sighting sighted(const Look& look, double x, double count) {
    Sighting sighting{x, std::numeric_limits<double>::infinity(), std::sqrt(look.squares / count)};
    if (look.information < least_information) return sighting;
    sighting.at = x + look.pull / look.information;
    sighting.sd = 1.0 / std::sqrt(look.information);
    return sighting;
}

}  // namespace

Lab minus(const Lab& first, const Lab& second) {
    return {first.l - second.l, first.a - second.a, first.b - second.b};
}

Sighting sighting_of(const Lab& seen, const std::function<Lab(double)>& foretold, std::span<const Lab> errors,
                     const PriorNormal& prior) {
    Matrix3d covariance = least_variance * Matrix3d::Identity();
    for (const Lab& error : errors) covariance += vector_of(error) * vector_of(error).transpose();
    const Matrix3d weights = covariance.inverse();
    const auto look = [&](double x) {
        const Vector3d slope =
            (vector_of(foretold(x + half_difference)) - vector_of(foretold(x - half_difference))) /
            (2.0 * half_difference);
        const Vector3d left = vector_of(seen) - vector_of(foretold(x));
        return Look{slope.dot(weights * slope), slope.dot(weights * left), left.dot(weights * left)};
    };
    const double x = most_likely(look, prior);
    return sighted(look(x), x, 3.0);
}

double CurvedSighting::foretold(double x) const {
    const double bottom = bend > 0.0 ? std::max(x, -slope / (2.0 * bend)) : x;
    return level + slope * bottom + bend * bottom * bottom;
}

double CurvedSighting::slope_at(double x) const {
    const double steep = slope + 2.0 * bend * x;
    return bend > 0.0 ? std::max(0.0, steep) : steep;
}

CurvedSighting curved_through(std::span<const double> at, std::span<const double> values) {
    BATTWRIGHT_BELIEVE(at.size() == values.size() && at.size() >= 3);
    BATTWRIGHT_BELIEVE(*std::max_element(at.begin(), at.end()) > *std::min_element(at.begin(), at.end()));
    Eigen::MatrixXd powers(static_cast<Eigen::Index>(at.size()), 3);
    Eigen::VectorXd sides(static_cast<Eigen::Index>(at.size()));
    for (std::size_t i = 0; i < at.size(); ++i) {
        const auto row = static_cast<Eigen::Index>(i);
        powers.row(row) << 1.0, at[i], at[i] * at[i];
        sides[row] = values[i];
    }
    const Vector3d fit = powers.colPivHouseholderQr().solve(sides);
    CurvedSighting curve;
    curve.level = fit[0];
    curve.slope = fit[1];
    curve.bend = fit[2];
    return curve;
}

BeliefNormal believed(const PriorNormal& prior, std::span<const CurvedSighting> sightings,
                      const PriorNormal& other) {
    const auto look = [&](double x) {
        Look sum;
        for (const CurvedSighting& one : sightings) {
            const double steep = one.slope_at(x) / one.sd;
            const double left = (one.seen - one.foretold(x) - one.by_other * other.mean) / one.sd;
            sum.information += steep * steep;
            sum.pull += steep * left;
            sum.squares += left * left;
        }
        return sum;
    };
    const double x = most_likely(look, prior), off = (x - prior.mean) / prior.sd;
    const Look here = look(x);
    const double variance = 1.0 / (here.information + 1.0 / (prior.sd * prior.sd));
    double moved = 0.0;  // of x, by one standard deviation of the other
    for (const CurvedSighting& one : sightings)
        moved += variance * one.slope_at(x) * one.by_other * other.sd / (one.sd * one.sd);
    return {x, variance + moved * moved, here.squares + off * off};
}

std::array<Lab, 3> errors_of(const Lab& colour, double de00) {
    const double chroma = std::hypot(colour.a, colour.b);
    const double ca = chroma > 1e-6 ? colour.a / chroma : 1.0, cb = chroma > 1e-6 ? colour.b / chroma : 0.0;
    constexpr double small = 0.5;
    std::array<Lab, 3> errors{Lab{small, 0.0, 0.0}, Lab{0.0, small * ca, small * cb},
                              Lab{0.0, -small * cb, small * ca}};
    for (Lab& error : errors) {
        const double apart = ciede2000(colour, {colour.l + error.l, colour.a + error.a, colour.b + error.b});
        const double times = de00 / std::sqrt(3.0) / apart;
        error = {error.l * times, error.a * times, error.b * times};
    }
    return errors;
}

}  // namespace battwright::colour
