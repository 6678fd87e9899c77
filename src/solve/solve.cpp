#include "solve/solve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solve/candidates.hpp"
#include "solve/explain.hpp"

namespace battwright::solve {
namespace {

using measure::Expected;

constexpr std::size_t models_matched = 3;
constexpr std::size_t models_branched = 12;

// Candidates of the most promising models. One that cannot be made on the step makes room for the next.
std::vector<Candidate> first_candidates(const std::vector<Model>& models, const Shelf& shelf,
                                        const Goal& goal, Reporter& reporter) {
    const std::size_t most = goal.target ? models_matched : models_branched;
    std::vector<Candidate> all;
    std::size_t searched = 0;
    double best = std::numeric_limits<double>::infinity(), unsearched = best;
    for (const ModelRank& promise : promising(models, shelf, goal, reporter.stop())) {
        const bool cannot_be_better = !goal.target && promise.objective >= best - 1e-9;
        if (searched >= most || cannot_be_better || (reporter.stopped() && !all.empty())) {
            unsearched = promise.objective;
            break;
        }
        reporter.tell(0.1 + 0.5 * double(searched) / double(most), "looking for lots");
        const auto found =
            candidates_of(models[promise.model], promise.model, shelf, goal, {}, reporter.stop());
        if (found.empty()) continue;
        best = std::min(best, found.front().found.objective);
        reporter.found(best);
        all.insert(all.end(), found.begin(), found.end());
        ++searched;
    }
    // No proposal is better than the best bound of all models.
    double bound = std::min(best, unsearched);
    for (const Candidate& candidate : all) bound = std::min(bound, candidate.best_possible);
    for (Candidate& candidate : all) candidate.best_possible = goal.target ? 0.0 : bound;
    return all;
}

}  // namespace

double difference(const Proposal& first, const Proposal& second) {
    const auto grams = [](const Proposal& one) {
        return Eigen::Map<const VectorXd>(one.grams.data(), Eigen::Index(one.grams.size()));
    };
    return variation(grams(first), grams(second));
}

Expected<Answer> solve(const Problem& problem, const Setting& setting, const Control& control) {
    if (auto checked = check(problem, setting); !checked) return tl::make_unexpected(checked.error());
    Reporter reporter(control);
    reporter.tell(0.0, "reading the lots");
    const auto shelf = shelf_of(problem.lots, setting);
    if (!shelf) return tl::make_unexpected(shelf.error());
    const auto models = models_of(problem, *shelf);

    Answer answer;
    auto first = first_candidates(models, *shelf, problem.goal, reporter);
    answer.cancelled = reporter.stopped();
    if (first.empty() && !answer.cancelled) {
        reporter.tell(0.6, "finding what is in the way");
        answer.conflict = explain(problem, *shelf, reporter);
    }
    const double bound = first.empty() ? 0.0 : first.front().best_possible;
    for (const Candidate& candidate : varied(models, std::move(first), *shelf, problem.goal, reporter)) {
        const Objective objective(models[candidate.model], *shelf, problem.goal);
        Proposal proposal = proposal_of(problem, *shelf, objective, candidate.found.grams);
        proposal.best_possible = bound;
        answer.proposals.push_back(std::move(proposal));
    }
    answer.cancelled = reporter.stopped();
    if (answer.cancelled) answer.conflict.reset();
    reporter.tell(1.0, "done");
    return answer;
}

Expected<std::optional<Match>> best_match(const Problem& problem, const Setting& setting) {
    if (auto checked = check(problem, setting); !checked) return tl::make_unexpected(checked.error());
    if (!problem.goal.target) {
        return tl::make_unexpected(
            measure::Complaint{"there is no colour to match", "give a target colour", "target"});
    }
    Problem plain = problem;
    plain.goal.scale_step_grams = 0.0;
    plain.goal.use_up.reset();
    const auto shelf = shelf_of(plain.lots, setting);
    if (!shelf) return tl::make_unexpected(shelf.error());
    std::optional<Match> best;
    for (const Model& model : models_of(plain, *shelf)) {
        const Objective objective(model, *shelf, plain.goal);
        const auto found = best_relaxed(objective, 8, {});
        if (!found) continue;
        const double delta_e = objective.delta_e(found->grams);
        if (best && best->delta_e <= delta_e) continue;
        best = Match{{found->grams.data(), found->grams.data() + found->grams.size()}, delta_e};
    }
    return best;
}

}  // namespace battwright::solve
