// Inside this room: a function of a blend's colour and its derivatives in the lots' masses.
#pragma once

#include <Eigen/Core>
#include <functional>

#include "colour/optics.hpp"
#include "colour/spaces.hpp"
#include "solve/problem.hpp"

namespace battwright::solve {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// The blend's Lab under D65 from the mean of the lots' additive functions.
colour::Lab lab_of_f(const VectorXd& f, const colour::OpticsModel& optics);

// Any smooth function of Lab under D65.
using OfLab = std::function<double(const colour::Lab&)>;
// The square of colour::match_difference to a target: unlike that itself it is smooth where it is zero.
OfLab squared_difference(const Target& target, double k_l);

// At one blend. With a_c = slope.row(c): d value / d f_b = gradient . a(:, b), and the second derivative is
// a' hessian a + diag(bend).
struct LocalColour {
    double value = 0.0;
    Eigen::Vector3d gradient;  // by X, Y, Z
    Eigen::Matrix3d hessian;
    Eigen::Matrix3Xd slope;  // of X, Y, Z by f, per band
    VectorXd bend;           // gradient times the second derivatives of X, Y, Z by f
};
// The function of three numbers by central differences; the rest by the chain rule.
LocalColour local_colour(const VectorXd& f, const colour::OpticsModel& optics, const OfLab& of);

}  // namespace battwright::solve
