#include "solve/explain.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numeric>

#include "solve/bounds.hpp"
#include "solve/linear.hpp"
#include "text/words.hpp"

namespace battwright::solve {
namespace {

using Eigen::Index;
using Set = std::vector<Bound>;

// Subsets tried for a smaller conflict: each is a program over all lots, so on a full shelf fewer of them.
constexpr std::size_t most_subsets = 400, fewest_subsets = 12;
constexpr std::size_t most_lots_tried = 40'000;
std::size_t most_subsets_of(std::size_t lots) {
    return std::clamp(most_lots_tried / std::max<std::size_t>(lots, 1), fewest_subsets, most_subsets);
}

// Work after which a person has waited long enough: what is not settled then is only looked at in passing.
constexpr std::size_t most_work = 6'000'000;
constexpr std::size_t in_passing = 40;  // linear programs

// Answers whether a problem can be solved, and remembers whether every answer was proved.
class FeasibilityCheck {
  public:
    FeasibilityCheck(const Problem& problem, const Shelf& shelf, Reporter& reporter)
        : problem_(problem), shelf_(shelf), reporter_(reporter), all_(bounds_of(problem)) {}

    FeasibilityCheck(const FeasibilityCheck& other, const Problem& problem)
        : FeasibilityCheck(problem, other.shelf_, other.reporter_) {
        work_ = other.work_;
    }

    const Set& all() const { return all_; }
    const Problem& problem() const { return problem_; }
    bool proved() const { return proved_; }
    bool stopped() const { return reporter_.stopped(); }
    void tell(double done, std::string_view doing) { reporter_.tell(done, doing); }

    // Values to move a bound to are many, and one not found is only a somewhat larger move.
    bool solves(const Problem& problem, std::size_t most_programs = hasty) {
        return ask(problem, most_programs).feasible;
    }
    // These bounds and no others. What cannot be settled is taken to hold, so that a conflict that is told is
    // one.
    bool holds(const Set& set) {
        Set rest;
        for (const Bound& bound : all_) {
            if (std::find(set.begin(), set.end(), bound) == set.end()) rest.push_back(bound);
        }
        const Verdict answer = ask(without(problem_, rest), patient);
        return answer.feasible || !answer.proved;
    }

  private:
    Verdict ask(const Problem& problem, std::size_t most_programs) {
        if (*work_ > most_work) most_programs = in_passing;
        const Verdict answer = verdict(problem, shelf_, most_programs, reporter_.stop());
        *work_ += answer.work;
        proved_ = proved_ && answer.proved;
        return answer;
    }

    const Problem& problem_;
    const Shelf& shelf_;
    Reporter& reporter_;
    Set all_;
    std::shared_ptr<std::size_t> work_ =
        std::make_shared<std::size_t>(0);  // of all that ask about one problem
    bool proved_ = true;
};

// Deletion filter (Chinneck & Dravnieks 1991), by blocks first: what is left conflicts, and nothing in it can
// go.
Set minimal_conflict(FeasibilityCheck& judge) {
    Set set = judge.all();
    for (std::size_t block = std::max<std::size_t>(set.size() / 2, 1); block > 0; block /= 2) {
        for (std::size_t first = 0; first < set.size() && !judge.stopped();) {
            Set less(set.begin(), set.begin() + std::ptrdiff_t(first));
            less.insert(less.end(), set.begin() + std::ptrdiff_t(std::min(first + block, set.size())),
                        set.end());
            if (judge.holds(less)) {
                first += block;
            } else {
                set = std::move(less);
            }
        }
    }
    return set;
}

// The next choice of `picked.size()` out of n, in order. False after the last.
bool next_choice(std::vector<std::size_t>& picked, std::size_t n) {
    const std::size_t k = picked.size();
    for (std::size_t i = k; i-- > 0;) {
        if (picked[i] + (k - i) >= n) continue;
        ++picked[i];
        for (std::size_t j = i + 1; j < k; ++j) picked[j] = picked[j - 1] + 1;
        return true;
    }
    return false;
}

// A conflict of fewer bounds than `found`, by trying all of them, smallest first. `smallest` when all were.
Set smallest_conflict(FeasibilityCheck& judge, const Set& found, bool& smallest) {
    std::size_t trials = 0;
    const std::size_t most = most_subsets_of(judge.problem().lots.size());
    const Set& all = judge.all();
    for (std::size_t size = 1; size < found.size(); ++size) {
        std::vector<std::size_t> picked(size);
        std::iota(picked.begin(), picked.end(), std::size_t(0));
        do {
            if (++trials > most || judge.stopped()) return found;
            Set set;
            for (const std::size_t i : picked) set.push_back(all[i]);
            if (!judge.holds(set)) {
                smallest = true;
                return set;
            }
        } while (next_choice(picked, all.size()));
    }
    smallest = true;
    return found;
}

// Values a person would write: on this grid, from just looser than now to as loose as it gets.
struct Scale {
    double grid = 1.0;
    double loosest = 0.0;
};
Scale scale_of(const Problem& problem, const Shelf& shelf, const Bound& bound) {
    double on_hand = 0.0, longest = 0.0, shortest = no_limit, cost = 0.0;
    for (std::size_t j = 0; j < problem.lots.size(); ++j) {
        on_hand += problem.lots[j].on_hand_grams;
        const LotProperties& worked = shelf.worked[j];
        longest = std::max(longest, worked.longest_mm);
        if (worked.longest_mm > 0.0) shortest = std::min(shortest, worked.shortest_mm);
        cost += problem.lots[j].on_hand_grams * problem.lots[j].cost_per_gram.value_or(0.0);
    }
    const double step = problem.goal.scale_step_grams > 0.0 ? problem.goal.scale_step_grams : 0.1;
    const double granule = step * double(std::max<std::size_t>(problem.goal.batts.count, 1));
    switch (bound.kind) {
        case BoundKind::share_least:
        case BoundKind::keep_back:
            return {0.1, 0.0};
        case BoundKind::share_most:
            return {0.1, ShareBound{}.most_pct};
        case BoundKind::cost:
            return {0.01, std::max(cost, bound.value)};
        case BoundKind::cost_per_100_g:
            return {0.01, priced_grams * std::max(cost, bound.value)};
        case BoundKind::staple_least:
            return {1.0, 0.0};
        case BoundKind::staple_most:
            return {1.0, longest + 1.0};
        case BoundKind::staple_spread:
            return {0.1, longest / shortest + 1.0};
        case BoundKind::most_lots:
            return {1.0, double(problem.lots.size())};
        case BoundKind::total_most:
        case BoundKind::lot_most:
            return {granule, on_hand};
        case BoundKind::batt_most:
            return {step, on_hand};
        case BoundKind::total_least:
        case BoundKind::lot_least:
            return {granule, 0.0};
        case BoundKind::scale_step:
            return {finest_scale_grams, finest_scale_grams};
        case BoundKind::batt_least:
        case BoundKind::least_used:
        case BoundKind::lot_keep_back:
            break;
    }
    return {step, 0.0};
}

double moved(const Bound& bound, const Scale& scale, double steps) {
    const double at = bound.value / scale.grid;
    if (looser_when_lower(bound.kind)) return std::max(0.0, (std::ceil(at - 1e-6) - steps) * scale.grid);
    return (std::floor(at + 1e-6) + steps) * scale.grid;
}

// The least change of one bound, the others as they are; nothing when even without it there is no solution.
std::optional<Change> change_of(FeasibilityCheck& judge, const Problem& problem, const Shelf& shelf,
                                const Bound& bound) {
    if (!judge.solves(without(problem, {bound}), patient)) return std::nullopt;
    const Scale scale = scale_of(problem, shelf, bound);
    const auto solves_at = [&](double steps) {
        Problem other = problem;
        set_bound(other, bound, moved(bound, scale, steps));
        return judge.solves(other);
    };
    double high = std::max(1.0, std::ceil(std::abs(bound.value - scale.loosest) / scale.grid));
    Change change{bound, scale.loosest, true, {}};
    if (solves_at(high)) {
        double low = 0.0;
        while (high - low > 1.0) {
            const double middle = std::floor((low + high) / 2.0);
            (solves_at(middle) ? high : low) = middle;
        }
        change.to = moved(bound, scale, high);
        change.drop = false;
    }
    change.words = change.drop ? "without: " + bound.words
                               : words_for(problem, bound, change.to) + " (instead of " + bound.words + ")";
    return change;
}

double size_of(const Change& change) {
    if (change.drop) return std::numeric_limits<double>::infinity();
    return std::abs(change.to - change.bound.value) / std::max(std::abs(change.bound.value), 1e-9);
}

// One is not enough: takes bounds away until there is a solution, then puts each back as far as it will go.
std::vector<Change> several_changes(FeasibilityCheck& judge, const Shelf& shelf) {
    Set dropped;
    Problem loose = judge.problem();
    while (!judge.stopped() && !judge.solves(loose)) {
        FeasibilityCheck inner(judge, loose);
        const Set conflict = minimal_conflict(inner);
        if (conflict.empty()) return {};
        dropped.push_back(conflict.front());
        loose = without(loose, {conflict.front()});
    }
    std::vector<Change> changes;
    for (const Bound& bound : dropped) {
        Problem others = loose;
        set_bound(others, bound, bound.value);
        const auto change = change_of(judge, others, shelf, bound);
        if (!change) continue;
        loose = changed(others, *change);
        changes.push_back(*change);
    }
    return changes;
}

std::vector<Change> least_change(FeasibilityCheck& judge, const Shelf& shelf, const Set& conflict) {
    std::optional<Change> best;
    for (const Bound& bound : conflict) {
        if (judge.stopped()) break;
        const auto change = change_of(judge, judge.problem(), shelf, bound);
        if (change && (!best || size_of(*change) < size_of(*best))) best = change;
    }
    if (best) return {*best};
    return several_changes(judge, shelf);
}

std::string words_of(const Conflict& conflict) {
    std::vector<std::string> bounds, changes;
    for (const Bound& bound : conflict.bounds) bounds.push_back("\"" + bound.words + "\"");
    for (const Change& change : conflict.least_change) changes.push_back(change.words);
    std::string text = bounds.empty() ? "there is nothing on hand that may be used" : text::listed(bounds);
    if (!bounds.empty())
        text +=
            bounds.size() > 1 ? " cannot hold together with these lots" : " cannot be kept with these lots";
    if (!changes.empty()) text += "; the least that would do: " + text::listed(changes);
    if (!conflict.proved) text += " (found without trying everything)";
    return text;
}

// Nothing was found, nor shown to conflict.
Conflict unexplained() {
    Conflict conflict;
    conflict.proved = false;
    conflict.words =
        "no weights were found before the search was cut short, and no bounds were shown to "
        "conflict; loosen one, or ask for fewer lots";
    return conflict;
}

// Totals as the models read them, so that taking the step away only ever loosens.
Problem snapped(const Problem& problem) {
    Problem other = problem;
    const double granule = problem.goal.scale_step_grams * double(problem.goal.batts.count);
    if (!(granule > 0.0)) return other;
    for (auto* total : {&other.goal.total.least_grams, &other.goal.total.most_grams}) {
        if (*total) *total = std::max(1.0, std::round(**total / granule)) * granule;
    }
    return other;
}

}  // namespace

Verdict verdict(const Problem& problem, const Shelf& shelf, std::size_t most_programs,
                const std::stop_token& stop) {
    Verdict answer;
    for (const Model& model : models_of(problem, shelf)) {
        const Branched branched = any_solution(model, most_programs, stop);
        answer.work += branched.work;
        if (branched.grams) return {true, true, answer.work};
        answer.proved = answer.proved && branched.proved;
    }
    return answer;
}

Conflict explain(const Problem& problem, const Shelf& shelf, Reporter& reporter) {
    const Problem read = snapped(problem);
    FeasibilityCheck judge(read, shelf, reporter);
    Conflict conflict;
    conflict.bounds = minimal_conflict(judge);
    if (conflict.bounds.size() == judge.all().size() && judge.holds(judge.all())) return unexplained();
    reporter.tell(0.8, "finding the smallest conflict");
    conflict.bounds = smallest_conflict(judge, conflict.bounds, conflict.smallest);
    reporter.tell(0.9, "finding the least change");
    conflict.least_change = least_change(judge, shelf, conflict.bounds);
    conflict.proved = judge.proved();
    conflict.words = words_of(conflict);
    return conflict;
}

measure::Expected<bool> feasible(const Problem& problem, const Setting& setting) {
    if (auto checked = check(problem, setting); !checked) return tl::make_unexpected(checked.error());
    const auto shelf = shelf_of(problem.lots, setting);
    if (!shelf) return tl::make_unexpected(shelf.error());
    return verdict(problem, *shelf, patient, {}).feasible;
}

}  // namespace battwright::solve
