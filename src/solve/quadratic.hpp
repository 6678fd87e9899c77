// Inside this room: small dense convex quadratic programs.
#pragma once

#include <Eigen/Core>
#include <optional>

namespace battwright::solve {

// minimise g.d + d.H.d / 2 over low <= d <= high and row_low <= A d <= row_high, where d = 0 keeps every
// bound and H is positive definite on what the bounds leave free.
struct QuadraticProgram {
    Eigen::MatrixXd h;
    Eigen::VectorXd g;
    Eigen::MatrixXd a;
    Eigen::VectorXd row_low, row_high, low, high;
};
struct QuadraticStep {
    Eigen::VectorXd d;
    Eigen::VectorXd multipliers;  // of the rows: gradient = A' multipliers + those of the lots' own bounds
};
// Primal active-set method by null spaces (Nocedal & Wright, Numerical Optimization, algorithm 16.3). Nothing
// when H is not positive definite there.
std::optional<QuadraticStep> minimise(const QuadraticProgram& program);

}  // namespace battwright::solve
