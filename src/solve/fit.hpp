// Inside this room: masses of many lots, in one or several batts, for the least of a smooth objective.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <stop_token>
#include <vector>

#include "solve/appearance.hpp"

namespace battwright::solve {

// One mass to be found: of a lot, in a batt.
struct Column {
    Eigen::Index batt = 0, lot = 0;
    double low = 0.0, high = 0.0;  // grams
};
// minimise sum over batts of h(of(colour of the batt)) + linear . m over the columns' bounds and
// row_low <= rows m <= row_high; h is the identity, or, where the objective has other terms to be weighed
// against, the root: h(q) = sqrt(q + softness^2) - softness. A batt of no mass counts as white.
struct FitProblem {
    const MatrixXd* f = nullptr;  // bands x lots
    colour::OpticsModel optics;
    std::vector<OfLab> of;  // one a batt
    std::vector<Column> columns;
    MatrixXd rows;
    VectorXd row_low, row_high;
    VectorXd linear;  // one a column; empty: none
    bool root = false;
    std::size_t most_rounds = 60;
    double good_enough = 1e-14;  // of the objective, when there is nothing linear
    std::stop_token stop;
};
inline constexpr double softness = 0.02;

struct Fit {
    VectorXd grams;  // one a column
    double value = 0.0;
    VectorXd
        prices;  // reduced gradient of each column at the end: below zero would lower the objective by rising
};
// Newton steps with a trust term, each a quadratic program over the columns that matter; the others are
// priced and taken in when they would help (column generation). A local minimum: where it starts decides
// which. Precondition: `start` has a mass a column and keeps the rows.
Fit fit(const FitProblem& problem, const VectorXd& start);
double value_of(const FitProblem& problem, const VectorXd& grams);

}  // namespace battwright::solve
