#include "solve/sparing.hpp"

#include <algorithm>

#include "solve/linear.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;

constexpr double same_colour = 1e-5;  // CIEDE2000 squared
constexpr double a_trace = 1e-3;  // of the whole, under which to use a lot costs as much as to use it at all

// XYZ by grams, at the blend these masses make.
MatrixXd colour_rows(const Objective& objective, const std::vector<Index>& lots, const VectorXd& grams) {
    const Shelf& shelf = objective.shelf();
    const VectorXd f = shelf.f(Eigen::all, lots) * grams(lots) / grams(lots).sum();
    const auto none = [](const colour::Lab&) { return 0.0; };
    const LocalColour local = local_colour(f, shelf.optics, none);
    return local.slope * (shelf.f(Eigen::all, lots).colwise() - f);
}

}  // namespace

VectorXd spared(const Objective& objective, const VectorXd& grams) {
    const Model& model = objective.model();
    VectorXd best = grams;
    for (int round = 0; round < 6; ++round) {
        std::vector<Index> lots;
        for (Index j = 0; j < best.size(); ++j) {
            if (best[j] > 1e-9) lots.push_back(j);
        }
        if (lots.size() <= 1) break;
        // A basic solution uses no more lots freely than there are rows: the model's, three of colour.
        const Index r = model.rows.rows();
        MatrixXd rows(r + 4, Index(lots.size()));
        rows << model.rows(Eigen::all, lots), colour_rows(objective, lots, best), model.use(lots).transpose();
        VectorXd low(r + 4), high(r + 4);
        low << model.row_low, Eigen::Vector3d::Zero(), model.use.dot(best) - 1e-12;
        high << model.row_high, Eigen::Vector3d::Zero(), no_limit;
        LinearProgram program(rows, low, high);
        const VectorXd cost = (1.0 + best(lots).array() / (a_trace * best.sum())).inverse();
        const auto vertex = program.minimise(cost, model.low(lots), model.high(lots));
        if (!vertex) break;
        FitProblem problem = objective.fit_over(lots, false);
        std::vector<Index> kept;
        for (Index c = 0; c < vertex->size(); ++c) {
            if ((*vertex)[c] > 1e-9) kept.push_back(lots[std::size_t(c)]);
        }
        if (kept.size() >= lots.size()) break;
        VectorXd next = VectorXd::Zero(best.size());
        next(lots) = *vertex;
        const Fit one = fit(objective.fit_over(kept, false), next(kept));
        const double before = value_of(problem, best(lots));
        if (one.value > before + same_colour) break;
        next.setZero();
        next(kept) = one.grams;
        best = next;
    }
    return best;
}

VectorXd scaled_up(const Model& model, const VectorXd& grams) {
    if (!model.as_much_as_can) return grams;
    double most = no_limit;
    for (Index j = 0; j < grams.size(); ++j) {
        if (grams[j] > 1e-9) most = std::min(most, model.high[j] / grams[j]);
    }
    const VectorXd sums = model.rows * grams;
    for (Index r = 0; r < sums.size(); ++r) {
        const double edge = model.row_high[r];
        if (sums[r] > 0.0 && edge > 0.0 && edge < no_limit) most = std::min(most, edge / sums[r]);
    }
    return grams * std::max(1.0, most);
}

}  // namespace battwright::solve
