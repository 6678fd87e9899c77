#include "solve/linear.hpp"

#include <ClpFactorization.hpp>
#include <ClpSimplex.hpp>
#include <vector>

namespace battwright::solve {

using Eigen::Index;

namespace {

constexpr Index few_rows = 60;

}  // namespace

struct LinearProgram::Solver {
    ClpSimplex clp;
    bool solved = false;
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

std::optional<VectorXd> LinearProgram::minimise(const VectorXd& cost, const VectorXd& low,
                                                const VectorXd& high) {
    if ((low.array() > high.array()).any()) return std::nullopt;
    ClpSimplex& clp = solver_->clp;
    for (Index j = 0; j < cost.size(); ++j) {
        clp.setObjectiveCoefficient(int(j), cost[j]);
        clp.setColumnBounds(int(j), low[j], high[j]);
    }
    if (solver_->solved) {
        clp.dual();
    } else {
        clp.primal();
    }
    solver_->solved = true;
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
