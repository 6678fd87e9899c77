// Inside this room: what a proposal is worth.
#pragma once

#include "colour/large.hpp"
#include "solve/appearance.hpp"
#include "solve/fit.hpp"
#include "solve/model.hpp"
#include "solve/rounding.hpp"
#include "solve/solve.hpp"

namespace battwright::solve {

// The goal's objective (see Goal) for one model; outlives neither.
class Objective : public Score {
  public:
    Objective(const Model& model, const Shelf& shelf, const Goal& goal);

    double of(const VectorXd& grams) const override;
    double delta_e(const VectorXd& grams) const;  // 0 without a target
    bool has_target() const { return target_ != nullptr; }
    // The smooth part over some lots (columns), each used by at least `low`.
    FitProblem fit_over(const std::vector<Eigen::Index>& lots, bool use_least) const;
    // Of each lot by itself, to the target.
    const VectorXd& lot_delta_e() const { return lot_delta_e_; }
    const Model& model() const { return *model_; }
    const Shelf& shelf() const { return *shelf_; }

  private:
    const Model* model_;
    const Shelf* shelf_;
    const Target* target_;
    std::optional<colour::MatchTo> difference_;
    OfLab squared_;
    VectorXd lot_delta_e_;
};

Proposal proposal_of(const Problem& problem, const Shelf& shelf, const Objective& objective,
                     const VectorXd& grams);

}  // namespace battwright::solve
