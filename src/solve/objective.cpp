#include "solve/objective.hpp"

#include <algorithm>
#include <cmath>

#include "colour/large.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;

VectorXd mean_f(const Shelf& shelf, const VectorXd& grams) {
    VectorXd f = VectorXd::Zero(shelf.f.rows());
    double total = 0.0;
    for (Index j = 0; j < grams.size(); ++j) {
        if (!(grams[j] > 0.0)) continue;
        f += grams[j] * shelf.f.col(j);
        total += grams[j];
    }
    return f / std::max(total, 1e-12);
}

colour::Spectrum blended(const Shelf& shelf, const VectorXd& grams) {
    std::vector<colour::Portion> portions;
    for (Index j = 0; j < grams.size(); ++j) {
        if (grams[j] > 0.0) portions.push_back({grams[j], shelf.worked[std::size_t(j)].reflectance});
    }
    return colour::blend(portions, shelf.optics);
}

void set_colour(Proposal& proposal, const Goal& goal, const colour::Spectrum& reflectance) {
    proposal.reflectance = reflectance;
    proposal.lab = colour::lab_under(reflectance, colour::Light::d65);
    proposal.srgb = colour::clipped(colour::srgb_under(reflectance, colour::Light::d65));
    if (!goal.target) return;
    const Target& target = *goal.target;
    proposal.delta_e = colour::ciede2000(target.lab, proposal.lab, goal.textile_k_l);
    proposal.difference = colour::match_difference(target.lab, proposal.lab, goal.textile_k_l);
    const colour::Light light = goal.second_light;
    proposal.delta_e_second = colour::ciede2000(colour::lab_under(target.reflectance, light),
                                                colour::lab_under(reflectance, light), goal.textile_k_l);
}

}  // namespace

Objective::Objective(const Model& model, const Shelf& shelf, const Goal& goal)
    : model_(&model), shelf_(&shelf), target_(goal.target ? &*goal.target : nullptr) {
    lot_delta_e_ = VectorXd::Zero(Index(model.lots()));
    if (target_ == nullptr) return;
    difference_.emplace(target_->lab, goal.textile_k_l);
    squared_ = squared_difference(*target_, goal.textile_k_l);
    for (Index j = 0; j < lot_delta_e_.size(); ++j) {
        lot_delta_e_[j] = (*difference_)(lab_of_f(shelf.f.col(j), shelf.optics));
    }
}

double Objective::delta_e(const VectorXd& grams) const {
    if (target_ == nullptr) return 0.0;
    return (*difference_)(lab_of_f(mean_f(*shelf_, grams), shelf_->optics));
}

double Objective::of(const VectorXd& grams) const {
    double value = delta_e(grams) + model_->use_worth * std::max(0.0, 1.0 - model_->use.dot(grams));
    for (Index j = 0; j < grams.size(); ++j) {
        if (grams[j] > 1e-7) value += model_->lot_worth[j];
    }
    return value;
}

FitProblem Objective::fit_over(const std::vector<Index>& lots, bool use_least) const {
    FitProblem problem;
    problem.f = &shelf_->f;
    problem.optics = shelf_->optics;
    problem.of = {squared_};
    for (const Index j : lots) {
        const double low = use_least ? model_->least[j] : model_->low[j];
        problem.columns.push_back({0, j, low, model_->high[j]});
    }
    problem.rows = model_->rows(Eigen::all, lots);
    problem.row_low = model_->row_low;
    problem.row_high = model_->row_high;
    if (model_->use_worth > 0.0) {
        problem.linear = -model_->use_worth * model_->use(lots);
        problem.root = true;
    }
    return problem;
}

Proposal proposal_of(const Problem& problem, const Shelf& shelf, const Objective& objective,
                     const VectorXd& grams) {
    const Model& model = objective.model();
    Proposal proposal;
    proposal.batts = model.batts;
    proposal.cost = 0.0;
    for (Index j = 0; j < grams.size(); ++j) {
        const Lot& lot = problem.lots[std::size_t(j)];
        const double usable = usable_grams(lot, problem.goal.bounds);
        proposal.grams.push_back(grams[j]);
        proposal.batt_grams.push_back(grams[j] / double(model.batts));
        proposal.left_grams.push_back(std::max(0.0, lot.on_hand_grams - grams[j]));
        proposal.total_grams += grams[j];
        if (!(grams[j] > 0.0)) continue;
        // What is left over may be less than the scale tells.
        if (usable - grams[j] < std::max(1e-6, model.granule)) proposal.used_up.push_back(std::size_t(j));
        if (proposal.cost && lot.cost_per_gram) *proposal.cost += grams[j] * *lot.cost_per_gram;
        if (!lot.cost_per_gram) proposal.cost.reset();
    }
    set_colour(proposal, problem.goal, blended(shelf, grams));
    proposal.used_share = std::clamp(model.use.dot(grams), 0.0, 1.0);
    proposal.objective = objective.of(grams);
    return proposal;
}

}  // namespace battwright::solve
