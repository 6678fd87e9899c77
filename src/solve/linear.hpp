// Inside this room: linear programs over a model's rows (COIN-OR Clp), and branch and bound over them.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>

#include "solve/model.hpp"

namespace battwright::solve {

// minimise cost . x over low <= x <= high and the rows; each solve starts from the basis of the last.
class LinearProgram {
  public:
    LinearProgram(const MatrixXd& rows, const VectorXd& row_low, const VectorXd& row_high);
    explicit LinearProgram(const Model& model) : LinearProgram(model.rows, model.row_low, model.row_high) {}
    LinearProgram(const LinearProgram&) = delete;
    LinearProgram& operator=(const LinearProgram&) = delete;
    ~LinearProgram();

    void set_row(Eigen::Index row, double low, double high);
    // A vertex, or nothing when there is none.
    std::optional<VectorXd> minimise(const VectorXd& cost, const VectorXd& low, const VectorXd& high);

  private:
    struct Solver;
    std::unique_ptr<Solver> solver_;
};

struct BranchOptions {
    std::size_t most_programs = 4000;
    bool steps = true;         // whole granules too
    bool any_will_do = false;  // stop at the first
    std::stop_token stop;
};
// `bound`: no solution has a lower cost. `proved`: the search was not cut short.
struct Branched {
    std::optional<VectorXd> grams;
    double cost = 0.0, bound = 0.0;
    bool proved = true;
    std::size_t work = 0;  // linear programs times their lots
};
// The model with its counts, least weights and steps: exact, if it is given time. Rounding to steps is tried
// at each relaxed solution first (see rounding.hpp), so deep trees are rare; and what lots that count alike
// in a row weigh together is brought to whole steps before any of them is (see whole_sums.hpp).
Branched branch_and_bound(const Model& model, const VectorXd& cost, const BranchOptions& options);

// Linear programs before a search for any solution at all is cut short.
inline constexpr std::size_t patient = 20000, hasty = 1500;
// Any solution, leaning to few lots where they are counted.
Branched any_solution(const Model& model, std::size_t most_programs, const std::stop_token& stop);

}  // namespace battwright::solve
