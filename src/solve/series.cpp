// solve_series(), declared in solve/solve.hpp.
#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "solve/candidates.hpp"
#include "solve/explain.hpp"
#include "solve/linear.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;
using measure::Complaint;
using measure::Expected;

constexpr std::size_t pool_a_batt = 8;
constexpr int sweeps = 2;

// One batt of the series: its problem, its model, and what is chosen for it.
struct Place {
    Problem problem;
    Model model;
    VectorXd planned;  // grams of each lot
    std::optional<Found> chosen;
};

class Planner {
  public:
    Planner(const Problem& problem, const std::vector<Target>& targets, const Shelf& shelf,
            Reporter& reporter)
        : shelf_(shelf), reporter_(reporter) {
        places_.reserve(targets.size());
        for (const Target& target : targets) {
            Place& place = places_.emplace_back(Place{problem, {}, {}, {}});
            place.problem.goal.target = target;
            for (Lot& lot : place.problem.lots) lot.least_grams = 0.0;
        }
    }

    Series run() {
        Series series;
        for (std::size_t b = 0; b < places_.size(); ++b) {
            if (!choose_model(places_[b])) return failed(b, places_[b].problem);
        }
        const Problem& problem = places_.front().problem;
        stock_.resize(Index(problem.lots.size()));
        for (Index j = 0; j < stock_.size(); ++j)
            stock_[j] = usable_grams(problem.lots[std::size_t(j)], problem.goal.bounds);
        plan_together();
        for (std::size_t b = 0; b < places_.size(); ++b) {
            reporter_.tell(0.2 + 0.5 * double(b) / double(places_.size()), "choosing each batt");
            if (reporter_.stopped()) break;
            if (!choose(b)) return failed(b, left_for(b));
        }
        for (int sweep = 0; sweep < sweeps && improve(); ++sweep) {
            reporter_.tell(0.7 + 0.15 * double(sweep), "trying again with what is left");
        }
        return whole();
    }

  private:
    bool choose_model(Place& place) {
        const auto models = models_of(place.problem, shelf_);
        const auto promises = promising(models, shelf_, place.problem.goal, reporter_.stop());
        if (promises.empty()) return false;
        place.model = models[promises.front().model];
        place.planned = VectorXd::Zero(Index(place.model.lots()));
        return true;
    }

    // Lots worth planning with: those each batt would use if it were alone, and the next best.
    std::vector<Index> pool() {
        std::set<Index> lots;
        for (const Place& place : places_) {
            VectorXd prices;
            const Objective objective(place.model, shelf_, place.problem.goal);
            const auto alone = best_relaxed(objective, 2, reporter_.stop(), &prices);
            if (!alone) continue;
            std::vector<Index> order;
            for (Index j = 0; j < prices.size(); ++j) {
                if (alone->grams[j] > 1e-6) lots.insert(j);
                if (place.model.high[j] > 0.0) order.push_back(j);
            }
            const auto take = [&](const VectorXd& by) {
                std::stable_sort(order.begin(), order.end(), [&](Index a, Index c) { return by[a] < by[c]; });
                for (std::size_t k = 0; k < std::min(order.size(), pool_a_batt); ++k) lots.insert(order[k]);
            };
            take(prices);
            take(objective.lot_delta_e());
        }
        return {lots.begin(), lots.end()};
    }

    // The least sum of squared differences with the shelf shared; no plan when it does not go round.
    void plan_together() {
        const auto lots = pool();
        const Index n = Index(lots.size()), count = Index(places_.size());
        FitProblem problem;
        problem.f = &shelf_.f;
        problem.optics = shelf_.optics;
        problem.stop = reporter_.stop();
        const Index own = places_.front().model.rows.rows();
        problem.rows = MatrixXd::Zero(own * count + n, n * count);
        problem.row_low = VectorXd::Constant(own * count + n, -no_limit);
        problem.row_high.resize(own * count + n);
        VectorXd low = VectorXd::Zero(n * count), high(n * count), cost(n * count);
        for (Index b = 0; b < count; ++b) {
            const Place& place = places_[std::size_t(b)];
            const Objective objective(place.model, shelf_, place.problem.goal);
            problem.of.push_back(
                squared_difference(*place.problem.goal.target, place.problem.goal.textile_k_l));
            problem.rows.block(own * b, n * b, own, n) = place.model.rows(Eigen::all, lots);
            problem.row_low.segment(own * b, own) = place.model.row_low;
            problem.row_high.segment(own * b, own) = place.model.row_high;
            high.segment(n * b, n) = place.model.high(lots);
            cost.segment(n * b, n) = objective.lot_delta_e()(lots);
            problem.rows.block(own * count, n * b, n, n).setIdentity();
            for (const Index j : lots) problem.columns.push_back({b, j, 0.0, place.model.high[j]});
        }
        problem.row_high.tail(n) = stock_(lots);
        LinearProgram program(problem.rows, problem.row_low, problem.row_high);
        const auto start = program.minimise(cost, low, high);
        if (!start) return;
        const Fit together = fit(problem, *start);
        for (Index b = 0; b < count; ++b)
            places_[std::size_t(b)].planned(lots) = together.grams.segment(n * b, n);
    }

    // What the others leave of each lot: what they have chosen, and, if asked, what is planned for the rest.
    VectorXd left_by_others(std::size_t batt, bool with_plans) const {
        VectorXd left = stock_;
        for (std::size_t b = 0; b < places_.size(); ++b) {
            if (b == batt) continue;
            if (places_[b].chosen) {
                left -= places_[b].chosen->grams;
            } else if (with_plans) {
                left -= places_[b].planned;
            }
        }
        return left.cwiseMax(0.0);
    }

    std::optional<Found> best_from(std::size_t batt, const VectorXd& left, const FinderEffort& effort) const {
        const Place& place = places_[batt];
        Model model = place.model;
        for (Index j = 0; j < left.size(); ++j) {
            double high = std::min(model.high[j], left[j]);
            if (model.granule > 0.0) high = std::floor(high / model.granule + 1e-7) * model.granule;
            model.high[j] = high < std::max(model.least[j], 1e-7) ? 0.0 : high;
            if (model.high[j] <= 0.0) model.least[j] = 0.0;
        }
        const auto found = candidates_of(model, 0, shelf_, place.problem.goal, effort, reporter_.stop());
        if (found.empty()) return std::nullopt;
        return found.front().found;
    }

    bool choose(std::size_t batt) {
        auto found = best_from(batt, left_by_others(batt, true), {});
        if (!found) found = best_from(batt, left_by_others(batt, false), {});
        places_[batt].chosen = found;
        return found.has_value();
    }

    bool improve() {
        bool better = false;
        for (std::size_t b = 0; b < places_.size() && !reporter_.stopped(); ++b) {
            if (!places_[b].chosen) continue;
            const auto found = best_from(b, left_by_others(b, false), {2, 16, 200});
            if (!found || found->objective >= places_[b].chosen->objective - 1e-6) continue;
            places_[b].chosen = found;
            better = true;
        }
        return better;
    }

    // The problem of one batt with what the earlier ones leave.
    Problem left_for(std::size_t batt) const {
        Problem problem = places_[batt].problem;
        for (std::size_t j = 0; j < problem.lots.size(); ++j) {
            double used = 0.0;
            for (const Place& place : places_) used += place.chosen ? place.chosen->grams[Index(j)] : 0.0;
            problem.lots[j].on_hand_grams = std::max(0.0, problem.lots[j].on_hand_grams - used);
        }
        return problem;
    }

    Series failed(std::size_t batt, const Problem& problem) {
        Series series = whole();
        if (!reporter_.stopped()) series.conflict = explain(problem, shelf_, reporter_);
        if (reporter_.stopped()) series.conflict.reset();
        series.conflict_at = batt;
        return series;
    }

    Series whole() {
        Series series;
        for (const Lot& lot : places_.front().problem.lots) series.left_grams.push_back(lot.on_hand_grams);
        for (const Place& place : places_) {
            if (!place.chosen) break;
            const Objective objective(place.model, shelf_, place.problem.goal);
            series.batts.push_back(proposal_of(place.problem, shelf_, objective, place.chosen->grams));
            for (std::size_t j = 0; j < series.left_grams.size(); ++j)
                series.left_grams[j] = std::max(0.0, series.left_grams[j] - series.batts.back().grams[j]);
        }
        series.cancelled = reporter_.stopped();
        return series;
    }

    const Shelf& shelf_;
    Reporter& reporter_;
    std::vector<Place> places_;
    VectorXd stock_;
};

}  // namespace

Expected<Series> solve_series(const Problem& problem, const std::vector<Target>& targets,
                              const Setting& setting, const Control& control) {
    const auto wrong = [](const char* where, const char* what, const char* mend) {
        return tl::make_unexpected(Complaint{what, mend, where});
    };
    if (targets.empty()) return wrong("targets", "there are no colours to match", "give one or more");
    if (targets.size() > 100) return wrong("targets", "more than 100 colours", "ask for fewer");
    const Goal& goal = problem.goal;
    if (goal.batts.count != 1)
        return wrong("batts", "a series makes one batt of each colour", "ask for 1 batt");
    if (!goal.total.least_grams && !goal.total.most_grams && !goal.batts.least_grams)
        return wrong("total", "a series needs to know how large each batt is", "give a total for one batt");
    for (const Target& target : targets) {
        Problem one = problem;
        one.goal.target = target;
        if (auto checked = check(one, setting); !checked) return tl::make_unexpected(checked.error());
    }
    Reporter reporter(control);
    reporter.tell(0.0, "reading the lots");
    const auto shelf = shelf_of(problem.lots, setting);
    if (!shelf) return tl::make_unexpected(shelf.error());
    Series series = Planner(problem, targets, *shelf, reporter).run();
    reporter.tell(1.0, "done");
    return series;
}

}  // namespace battwright::solve
