#include "solve/finder.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>

#include "solve/linear.hpp"
#include "solve/sparing.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;
using Lots = std::vector<Index>;  // sorted

constexpr double noticeable = 1e-4;  // CIEDE2000; less is no reason to change a set
constexpr std::size_t rounded_sets = 80;
constexpr std::size_t polished_sets = 12;
constexpr std::size_t spare_sets = 150;

class Finder {
  public:
    Finder(const Objective& objective, const FinderEffort& effort, const std::stop_token& stop)
        : o_(objective), m_(objective.model()), effort_(effort), stop_(stop) {}

    std::vector<Found> run() {
        VectorXd prices;
        const auto relaxed = best_relaxed(o_, effort_.starts, stop_, &prices);
        if (!relaxed) return {};
        choose_pool(relaxed->grams, prices);
        search_from(spared(o_, relaxed->grams));
        if (tried_.empty() || m_.has_counts()) search_from_branching();
        return rounded();
    }

  private:
    void choose_pool(const VectorXd& grams, const VectorXd& prices) {
        Lots order(m_.lots());
        std::iota(order.begin(), order.end(), Index(0));
        const auto usable = [&](Index j) { return m_.high[j] > 0.0; };
        order.erase(std::stable_partition(order.begin(), order.end(), usable), order.end());
        const auto rank = [&](const auto& less) {
            std::stable_sort(order.begin(), order.end(), less);
            for (std::size_t k = 0; k < std::min(order.size(), effort_.pool / 2); ++k) {
                if (std::find(pool_.begin(), pool_.end(), order[k]) == pool_.end()) pool_.push_back(order[k]);
            }
        };
        rank([&](Index a, Index b) {
            return grams[a] > grams[b] || (grams[a] == grams[b] && prices[a] < prices[b]);
        });
        rank([&](Index a, Index b) { return prices[a] < prices[b]; });
        rank([&](Index a, Index b) { return o_.lot_delta_e()[a] < o_.lot_delta_e()[b]; });
    }

    static Lots used(const VectorXd& grams) {
        Lots lots;
        for (Index j = 0; j < grams.size(); ++j) {
            if (grams[j] > 1e-6) lots.push_back(j);
        }
        return lots;
    }

    bool enough() const { return tried_.size() >= effort_.most_fits || stop_.stop_requested(); }

    // The best masses on a set, each lot used by at least its least; remembered.
    const Found* evaluate(const Lots& lots, const VectorXd& warm) {
        if (lots.empty() || lots.size() > m_.most_lots) return nullptr;
        const auto known = tried_.find(lots);
        if (known != tried_.end()) return known->second ? &*known->second : nullptr;
        auto& entry = tried_[lots];
        FitProblem problem = o_.fit_over(lots, true);
        problem.most_rounds = 25;
        const auto start = start_on(lots, problem, warm);
        if (!start) return nullptr;
        const Fit best = fit(problem, *start);
        Found found{VectorXd::Zero(Index(m_.lots())), 0.0};
        found.grams(lots) = best.grams;
        found.objective = o_.of(found.grams);
        entry = std::move(found);
        return &*entry;
    }

    // The warm masses if they keep the bounds, else a vertex.
    std::optional<VectorXd> start_on(const Lots& lots, const FitProblem& problem,
                                     const VectorXd& warm) const {
        VectorXd x = warm(lots);
        for (Index c = 0; c < x.size(); ++c) {
            const Column& column = problem.columns[std::size_t(c)];
            x[c] = std::clamp(x[c], column.low, std::max(column.low, column.high));
        }
        for (Index j = 0; j < m_.low.size(); ++j) {
            if (m_.low[j] > 0.0 && !std::binary_search(lots.begin(), lots.end(), j)) return std::nullopt;
        }
        const VectorXd sums = problem.rows * x;
        if ((sums.array() >= problem.row_low.array() - 1e-9).all() &&
            (sums.array() <= problem.row_high.array() + 1e-9).all())
            return x;
        VectorXd low(x.size()), high(x.size());
        for (Index c = 0; c < x.size(); ++c) {
            low[c] = problem.columns[std::size_t(c)].low;
            high[c] = problem.columns[std::size_t(c)].high;
        }
        LinearProgram program(problem.rows, problem.row_low, problem.row_high);
        return program.minimise(o_.lot_delta_e()(lots), low, high);
    }

    // Drops lots until the set is small enough and every lot has its least, then improves it.
    void search_from(const VectorXd& masses) {
        Lots lots = used(masses);
        VectorXd warm = masses;
        while (lots.size() > m_.most_lots && !stop_.stop_requested()) lots = with_least_dropped(lots, warm);
        const Found* found = evaluate(lots, warm);
        while (found == nullptr && lots.size() > 1 && !stop_.stop_requested()) {
            lots = with_least_dropped(lots, warm);
            found = evaluate(lots, warm);
        }
        if (found != nullptr) improve(lots);
    }

    // Without the lot of least mass that may go, re-fitted with no regard to counts.
    Lots with_least_dropped(const Lots& lots, VectorXd& warm) const {
        Lots order = lots;
        std::stable_sort(order.begin(), order.end(), [&](Index a, Index b) { return warm[a] < warm[b]; });
        Lots best;
        double best_value = std::numeric_limits<double>::infinity();
        VectorXd best_masses = warm;
        std::size_t trials = 0;
        for (const Index out : order) {
            if (m_.low[out] > 0.0) continue;
            Lots rest = lots;
            rest.erase(std::find(rest.begin(), rest.end(), out));
            FitProblem problem = o_.fit_over(rest, false);
            problem.most_rounds = 15;
            const auto start = start_on(rest, problem, warm);
            if (best.empty()) best = rest;
            if (start) {
                const Fit one = fit(problem, *start);
                if (one.value < best_value) {
                    best = rest;
                    best_value = one.value;
                    best_masses = VectorXd::Zero(warm.size());
                    best_masses(rest) = one.grams;
                }
            }
            if (++trials >= (lots.size() > 12 ? 2u : 6u)) break;
        }
        if (best.empty()) best.assign(lots.begin() + 1, lots.end());
        warm = best_masses;
        return best;
    }

    // Local search over sets: leave out one, take in one, change one for another.
    void improve(Lots lots) {
        const Found* best = evaluate(lots, VectorXd::Zero(Index(m_.lots())));
        bool better = best != nullptr;
        while (better && !enough()) {
            better = false;
            for (const Lots& next : neighbours(lots, *best, false)) {
                if (enough()) break;
                const Found* found = evaluate(next, moved(best->grams, lots, next));
                if (found == nullptr || found->objective >= best->objective - noticeable) continue;
                best = found;
                lots = next;
                better = true;
                break;
            }
        }
        if (best != nullptr && m_.granule > 0.0 && cannot_be_bettered(*best)) look_around(lots, *best);
    }

    bool cannot_be_bettered(const Found& at) const {
        return !(m_.use_worth > 0.0) && o_.delta_e(at.grams) < noticeable;
    }

    // Sets as good as the best may round better.
    void look_around(const Lots& lots, const Found& best) {
        std::size_t looks = 0;
        for (const Lots& next : neighbours(lots, best, true)) {
            if (enough() || ++looks > spare_sets) break;
            evaluate(next, moved(best.grams, lots, next));
        }
    }

    std::vector<Lots> neighbours(const Lots& lots, const Found& at, bool all) const {
        std::vector<Lots> sets;
        Lots order = lots;
        std::stable_sort(order.begin(), order.end(),
                         [&](Index a, Index b) { return at.grams[a] < at.grams[b]; });
        const auto without = [&](Index out) {
            Lots rest = lots;
            rest.erase(std::find(rest.begin(), rest.end(), out));
            return rest;
        };
        for (const Index out : order) sets.push_back(without(out));
        // A match no eye could better gains nothing from other lots.
        if (!all && cannot_be_bettered(at)) return sets;
        for (const Index in : pool_) {
            if (std::binary_search(lots.begin(), lots.end(), in)) continue;
            const auto with = [&](Lots set) {
                set.insert(std::lower_bound(set.begin(), set.end(), in), in);
                return set;
            };
            if (lots.size() < m_.most_lots) sets.push_back(with(lots));
            for (const Index out : order) sets.push_back(with(without(out)));
        }
        return sets;
    }

    // The masses of one set handed on to another: what leaves goes to what comes, or to the rest.
    VectorXd moved(const VectorXd& grams, const Lots& from, const Lots& to) const {
        VectorXd warm = VectorXd::Zero(grams.size());
        double loose = 0.0;
        for (const Index j : from) {
            if (std::binary_search(to.begin(), to.end(), j)) {
                warm[j] = grams[j];
            } else {
                loose += grams[j];
            }
        }
        for (const Index j : to) {
            if (warm[j] > 0.0) continue;
            warm[j] = std::clamp(loose, m_.least[j], std::max(m_.least[j], m_.high[j]));
            loose -= warm[j];
        }
        for (const Index j : to) {
            const double more = std::clamp(loose, -warm[j] + m_.least[j], m_.high[j] - warm[j]);
            warm[j] += more;
            loose -= more;
        }
        return warm;
    }

    VectorXd branching_cost() const {
        VectorXd cost = (o_.lot_delta_e().array() + 1.0) / std::max(1.0, m_.high.sum());
        return cost - 100.0 * m_.use_worth * m_.use;
    }

    void search_from_branching() {
        const VectorXd cost = branching_cost();
        BranchOptions options;
        options.steps = false;
        options.any_will_do = true;
        options.most_programs = 500;
        options.stop = stop_;
        const Branched branched = branch_and_bound(m_, cost, options);
        if (branched.grams) search_from(*branched.grams);
    }

    // The best sets, on the scale's step.
    std::vector<Found> rounded() {
        std::vector<const Found*> order;
        for (const auto& [lots, found] : tried_) {
            if (found) order.push_back(&*found);
        }
        std::stable_sort(order.begin(), order.end(),
                         [](const Found* a, const Found* b) { return a->objective < b->objective; });
        std::vector<Found> kept;
        for (const Found* found : order) {
            if (kept.size() >= rounded_sets || (stop_.stop_requested() && !kept.empty())) break;
            const auto grams = on_steps(m_, scaled_up(m_, found->grams), o_);
            if (grams && keeps(m_, *grams)) kept.push_back({*grams, o_.of(*grams)});
        }
        if (kept.empty()) add_branched(kept);
        const auto sort = [&] {
            std::stable_sort(kept.begin(), kept.end(),
                             [](const Found& a, const Found& b) { return a.objective < b.objective; });
        };
        sort();
        for (std::size_t k = 0; k < std::min(kept.size(), polished_sets); ++k) {
            const auto grams = on_steps(m_, kept[k].grams, o_, true);
            if (grams && keeps(m_, *grams)) kept[k] = {*grams, o_.of(*grams)};
        }
        sort();
        return kept;
    }

    // Where rounding found nothing: the steps themselves by branch and bound, then exchanges for the colour.
    void add_branched(std::vector<Found>& kept) const {
        const VectorXd cost = branching_cost();
        BranchOptions options;
        options.any_will_do = true;
        options.stop = stop_;
        Branched branched = branch_and_bound(m_, cost, options);
        if (!branched.grams && !branched.proved) branched = any_solution(m_, patient, stop_);
        if (!branched.grams) return;
        const auto better = on_steps(m_, *branched.grams, o_);
        const VectorXd& grams = better && keeps(m_, *better) ? *better : *branched.grams;
        kept.push_back({grams, o_.of(grams)});
    }

    const Objective& o_;
    const Model& m_;
    FinderEffort effort_;
    std::stop_token stop_;
    Lots pool_;
    std::map<Lots, std::optional<Found>> tried_;
};

}  // namespace

std::vector<Found> find_blends(const Objective& objective, const FinderEffort& effort,
                               const std::stop_token& stop) {
    return Finder(objective, effort, stop).run();
}

}  // namespace battwright::solve
