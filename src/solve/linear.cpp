#include "solve/linear.hpp"

#include <ClpFactorization.hpp>
#include <ClpSimplex.hpp>
#include <algorithm>
#include <cmath>
#include <vector>

namespace battwright::solve {

using Eigen::Index;

namespace {

constexpr Index few_rows = 60;

// What a weighted sum of bounded numbers can be, and how large its largest term is.
struct Range {
    double low = 0.0, high = 0.0, size = 0.0;

    void add(double weight, double from, double to) {
        if (weight == 0.0) return;
        low += weight * (weight > 0.0 ? from : to);
        high += weight * (weight > 0.0 ? to : from);
        size = std::max(size, std::abs(weight) * std::min(std::abs(from), std::abs(to)));
    }
};

}  // namespace

struct LinearProgram::Solver {
    ClpSimplex clp;
    bool solved = false;

    // Whether the dual simplex's own proof (Farkas' lemma) stands on its feet: a sum of the rows, weighted by
    // its ray, whose value within the columns' bounds lies clear of what the rows' bounds allow.
    bool proves_none() const {
        if (!clp.isProvenPrimalInfeasible()) return false;
        const std::unique_ptr<double[]> ray(clp.infeasibilityRay());
        if (!ray) return false;
        // Any weights prove it: those that are only rounding are better nought.
        double largest = 0.0;
        for (int r = 0; r < clp.numberRows(); ++r) largest = std::max(largest, std::abs(ray[std::size_t(r)]));
        Range rows, columns;
        for (int r = 0; r < clp.numberRows(); ++r) {
            double& weight = ray[std::size_t(r)];
            if (std::abs(weight) < 1e-11 * largest) weight = 0.0;
            rows.add(weight, clp.rowLower()[r], clp.rowUpper()[r]);
        }
        std::vector<double> weights(std::size_t(clp.numberColumns()), 0.0);
        clp.transposeTimes(1.0, ray.get(), weights.data());
        for (int j = 0; j < clp.numberColumns(); ++j)
            columns.add(weights[std::size_t(j)], clp.columnLower()[j], clp.columnUpper()[j]);
        const double clear = 1e-7 * (1.0 + rows.size + columns.size);
        return rows.low > columns.high + clear || columns.low > rows.high + clear;
    }
};

LinearProgram::LinearProgram(const MatrixXd& rows, const VectorXd& row_low, const VectorXd& row_high)
    : solver_(std::make_unique<Solver>()) {
    // All columns at once: appended one by one, each would copy those before it.
    std::vector<CoinBigIndex> starts{0};
    std::vector<int> indices;
    std::vector<double> values;
    for (Index j = 0; j < rows.cols(); ++j) {
        for (Index r = 0; r < rows.rows(); ++r) {
            if (rows(r, j) == 0.0) continue;
            indices.push_back(int(r));
            values.push_back(rows(r, j));
        }
        starts.push_back(CoinBigIndex(values.size()));
    }
    const std::vector<double> zeros(std::size_t(rows.cols()), 0.0);
    ClpSimplex& clp = solver_->clp;
    clp.setLogLevel(0);
    clp.loadProblem(int(rows.cols()), int(rows.rows()), starts.data(), indices.data(), values.data(),
                    zeros.data(), zeros.data(), zeros.data(), row_low.data(), row_high.data());
    // A model has a dozen rows: factors kept dense need none of the room that sparse ones ask the system for.
    if (rows.rows() <= few_rows) clp.factorization()->forceOtherFactorization(1);
    clp.setPrimalTolerance(1e-9);
    clp.setDualTolerance(1e-9);
}

LinearProgram::~LinearProgram() = default;

void LinearProgram::set_row(Index row, double low, double high) {
    ClpSimplex& clp = solver_->clp;
    if (clp.rowLower()[row] != low || clp.rowUpper()[row] != high) clp.setRowBounds(int(row), low, high);
}

std::optional<VectorXd> LinearProgram::minimise(const VectorXd& cost, const VectorXd& low,
                                                const VectorXd& high) {
    if ((low.array() > high.array()).any()) return std::nullopt;
    ClpSimplex& clp = solver_->clp;
    for (Index j = 0; j < cost.size(); ++j) {
        if (clp.objective()[j] != cost[j]) clp.setObjectiveCoefficient(int(j), cost[j]);
        if (clp.columnLower()[j] != low[j] || clp.columnUpper()[j] != high[j])
            clp.setColumnBounds(int(j), low[j], high[j]);
    }
    if (solver_->solved) {
        clp.dual();
    } else {
        clp.primal();
    }
    solver_->solved = true;
    if (solver_->proves_none()) return std::nullopt;
    if (!clp.isProvenOptimal()) {
        // A warm start can mislead: only a cold one decides.
        clp.allSlackBasis(true);
        clp.primal();
        if (!clp.isProvenOptimal()) return std::nullopt;
    }
    const Eigen::Map<const VectorXd> x(clp.getColSolution(), cost.size());
    return x.cwiseMax(low).cwiseMin(high);
}

}  // namespace battwright::solve
