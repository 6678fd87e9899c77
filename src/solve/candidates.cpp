#include "solve/candidates.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "colour/large.hpp"
#include "solve/linear.hpp"
#include "solve/sparing.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;

// Without a target the objective is linear but for what each lot costs, which is priced by its mass: never
// more than in truth, so the bound holds.
VectorXd linear_cost(const Model& model) {
    VectorXd cost = -model.use_worth * model.use;
    for (Index j = 0; j < cost.size(); ++j) {
        if (model.high[j] > 0.0) cost[j] += model.lot_worth[j] / model.high[j];
    }
    return cost;
}

std::vector<Candidate> linear_candidates(const Model& model, std::size_t index, const Objective& objective,
                                         std::size_t most_programs, const std::stop_token& stop) {
    const VectorXd cost = linear_cost(model);
    BranchOptions options;
    options.most_programs = most_programs;
    options.stop = stop;
    const Branched branched = branch_and_bound(model, cost, options);
    auto grams = branched.grams;
    if (!grams && !branched.proved) grams = any_solution(model, patient, stop).grams;
    if (!grams) return {};
    Found found{*grams, 0.0};
    if (const auto better = on_steps(model, found.grams, objective); better && keeps(model, *better))
        found.grams = *better;
    found.objective = objective.of(found.grams);
    const double bound = branched.proved ? branched.cost : branched.bound;
    return {{index, found, std::clamp(model.use_worth + bound, 0.0, found.objective)}};
}

bool differs(const std::vector<Candidate>& chosen, const Candidate& candidate) {
    return std::all_of(chosen.begin(), chosen.end(), [&](const Candidate& one) {
        return variation(one.found.grams, candidate.found.grams) >= clearly_different;
    });
}

void sort_best_first(std::vector<Candidate>& candidates) {
    std::stable_sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
        return a.found.objective < b.found.objective;
    });
}

std::vector<Candidate> choose(std::vector<Candidate>& all, const Goal& goal) {
    sort_best_first(all);
    std::vector<Candidate> chosen;
    for (const Candidate& candidate : all) {
        if (chosen.size() >= goal.most_proposals) break;
        if (candidate.found.objective > all.front().found.objective + goal.worst_delta_e) break;
        if (differs(chosen, candidate)) chosen.push_back(candidate);
    }
    return chosen;
}

// The model with a lot cut to where the shares must differ enough, or out of it altogether.
Model held_back(const Model& model, const VectorXd& grams, Index lot) {
    Model held = model;
    const double spare = grams[lot] - clearly_different * grams.sum();
    double high = std::max(0.0, 0.9 * spare);
    if (model.granule > 0.0) high = std::floor(high / model.granule) * model.granule;
    held.high[lot] = high < std::max(model.least[lot], 1e-6) ? 0.0 : high;
    if (held.high[lot] <= 0.0) held.least[lot] = held.low[lot];
    return held;
}

// A lot held back kept the whole small: the same shares as large as the shelf itself allows, with no more of
// what was held back than that.
Found grown(const Model& model, const Model& held, const Found& found, const Objective& objective) {
    if (!model.as_much_as_can) return found;
    const VectorXd grams = scaled_up(model, found.grams);
    Model room = model;
    for (Index j = 0; j < grams.size(); ++j) {
        if (held.high[j] >= model.high[j]) continue;
        const bool steps = model.granule > 0.0;
        room.high[j] = steps ? std::floor(grams[j] / model.granule + 1e-9) * model.granule : grams[j];
        if (room.high[j] <= 0.0) room.least[j] = room.low[j];
    }
    const auto larger = on_steps(room, grams, objective);
    if (!larger || !keeps(room, *larger)) return found;
    return {*larger, objective.of(*larger)};
}

// The heaviest lots that may be held back, as many as there are others wanted.
std::vector<Index> leaned_on(const Model& model, const VectorXd& grams, const Goal& goal) {
    std::vector<Index> lots;
    for (Index j = 0; j < grams.size(); ++j) {
        if (grams[j] > 1e-6 && model.low[j] < grams[j] - 1e-6) lots.push_back(j);
    }
    std::stable_sort(lots.begin(), lots.end(), [&](Index a, Index b) { return grams[a] > grams[b]; });
    const std::size_t others = std::max<std::size_t>(1, goal.most_proposals) - 1;
    if (lots.size() > others) lots.resize(others);
    return lots;
}

std::vector<std::size_t> fewest_batts(const std::vector<Model>& models, std::vector<std::size_t> order,
                                      const std::stop_token& stop) {
    for (const std::size_t k : order) {
        if (!any_solution(models[k], hasty, stop).grams) continue;
        const auto other = [&](std::size_t one) { return models[one].batts != models[k].batts; };
        order.erase(std::remove_if(order.begin(), order.end(), other), order.end());
        return order;
    }
    // None that a hasty look finds: the full search decides.
    return order;
}

}  // namespace

double variation(const VectorXd& first, const VectorXd& second) {
    return 0.5 * (first / first.sum() - second / second.sum()).lpNorm<1>();
}

std::vector<Candidate> candidates_of(const Model& model, std::size_t index, const Shelf& shelf,
                                     const Goal& goal, const FinderEffort& effort,
                                     const std::stop_token& stop) {
    const Objective objective(model, shelf, goal);
    if (!objective.has_target())
        return linear_candidates(model, index, objective, effort.most_programs, stop);
    std::vector<Candidate> candidates;
    for (Found& found : find_blends(objective, effort, stop))
        candidates.push_back({index, std::move(found), 0.0});
    return candidates;
}

std::vector<ModelRank> promising(const std::vector<Model>& models, const Shelf& shelf, const Goal& goal,
                                 const std::stop_token& stop) {
    std::vector<std::size_t> order(models.size());
    for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
    if (goal.target && goal.batts.count == 0) order = fewest_batts(models, order, stop);
    std::vector<ModelRank> ranked;
    for (const std::size_t k : order) {
        const Model& model = models[k];
        if (goal.target && order.size() == 1) {
            ranked.push_back({0.0, k});
        } else if (goal.target) {
            const auto relaxed = best_relaxed(Objective(model, shelf, goal), 1, stop);
            if (relaxed) ranked.push_back({relaxed->objective, k});
        } else {
            LinearProgram program(model);
            const VectorXd cost = linear_cost(model);
            const auto vertex = program.minimise(cost, model.low, model.high);
            if (vertex) ranked.push_back({model.use_worth + cost.dot(*vertex), k});
        }
    }
    // Of those alike but for rounding, the fewest batts come first.
    std::stable_sort(ranked.begin(), ranked.end(), [](const ModelRank& a, const ModelRank& b) {
        constexpr double alike = 1e-6;
        return std::round(a.objective / alike) < std::round(b.objective / alike);
    });
    return ranked;
}

std::vector<Candidate> varied(const std::vector<Model>& models, std::vector<Candidate> first,
                              const Shelf& shelf, const Goal& goal, Reporter& reporter) {
    const FinderEffort light{3, 12, 120, 300};
    std::vector<Candidate> all = std::move(first);
    std::vector<Candidate> chosen = choose(all, goal);
    // Gives the best that keeps the model, as it was before it grew.
    const auto search = [&](const Model& model, std::size_t index) -> std::optional<Candidate> {
        auto more = candidates_of(model, index, shelf, goal, light, reporter.stop());
        if (more.empty()) return std::nullopt;
        const Candidate best = more.front();
        const Objective objective(models[index], shelf, goal);
        for (Candidate& one : more) one.found = grown(models[index], model, one.found, objective);
        all.insert(all.end(), more.begin(), more.end());
        chosen = choose(all, goal);
        reporter.tell(0.6 + 0.08 * double(chosen.size()), "looking for others");
        return best;
    };
    const auto enough = [&] { return reporter.stopped() || chosen.size() >= goal.most_proposals; };
    if (chosen.empty()) return chosen;

    // Each in turn without what the ones before lean on most.
    const std::size_t index = chosen.front().model;
    Model held = models[index];
    Candidate latest = chosen.front();
    const auto all_good = [&] {
        return enough() &&
               chosen.back().found.objective <= chosen.front().found.objective + colour::unseen_de00;
    };
    for (std::size_t k = 1; k < goal.most_proposals && !reporter.stopped() && !all_good(); ++k) {
        const auto lots = leaned_on(held, latest.found.grams, goal);
        if (lots.empty()) break;
        held = held_back(held, latest.found.grams, lots.front());
        const auto next = search(held, index);
        if (!next) break;
        latest = *next;
    }
    for (std::size_t k = 0; k < chosen.size() && !enough(); ++k) {
        const Candidate from = chosen[k];
        for (const Index lot : leaned_on(models[from.model], from.found.grams, goal)) {
            if (enough()) break;
            search(held_back(models[from.model], from.found.grams, lot), from.model);
        }
    }
    return chosen;
}

}  // namespace battwright::solve
