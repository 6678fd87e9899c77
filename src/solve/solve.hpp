// The two questions of everyone who owns a carder: what can I make of these bits, and how do I get that
// colour.
#pragma once

#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "colour/spaces.hpp"
#include "recipe/recipe.hpp"
#include "solve/conflict.hpp"
#include "solve/problem.hpp"

namespace battwright::solve {

struct Progress {
    double done = 0.0;       // 0..1, never falls
    std::string_view doing;  // "looking for lots"
    double objective = 0.0;  // best so far; infinite before the first
};
// How a long search is watched and stopped. `progress` is called on the calling thread.
struct Control {
    std::stop_token stop;
    std::function<void(const Progress&)> progress;
};

// Weights to take off the shelf. `grams` has one entry a lot of the problem, all batts together: a whole
// number of scale steps in each batt.
struct Proposal {
    std::vector<double> grams, batt_grams, left_grams;  // in the problem's order of lots
    double total_grams = 0.0;
    std::size_t batts = 1;
    colour::Spectrum reflectance{};
    colour::Lab lab;                       // under D65
    colour::Srgb srgb;                     // clipped, for the screen
    std::optional<double> delta_e;         // CIEDE2000 to the target under D65
    std::optional<double> difference;      // what it was matched by: colour::match_difference
    std::optional<double> delta_e_second;  // under the goal's second light
    double used_share = 0.0;               // of the use-up lots, weighted as asked, 0..1
    std::vector<std::size_t> used_up;      // lots of which nothing is left that may be used
    std::optional<double> cost;            // empty when a lot used has no price
    double objective = 0.0;                // see Goal
    double best_possible = 0.0;            // nothing can be below this (0 with a target: no claim is made)
};

// Two proposals are clearly different when they place a quarter of the mass differently: total variation of
// their mass shares, half the sum of absolute differences, at least this.
inline constexpr double clearly_different = 0.25;
double difference(const Proposal& first, const Proposal& second);

struct Answer {
    std::vector<Proposal> proposals;   // best first; clearly different from each other
    std::optional<Conflict> conflict;  // when there are none
    bool cancelled = false;            // stopped early: proposals may be missing or not the best
};

// Guaranteed: every proposal keeps every bound, sum and step. If there is none, the conflict says why.
// Without a target the best proposal is optimal but for rounding to the step (see best_possible) for problems
// that branch and bound ends within 4,000 linear programs; with a target it is the best of a multi-start
// local search over weights and sets of lots, not a proven optimum. Deterministic; single-threaded. A
// complaint for a problem that check() refuses.
measure::Expected<Answer> solve(const Problem& problem, const Setting& setting, const Control& control = {});

// The best match without steps, least weights or a limit on lots: what rounding and sparing lots cost is the
// difference. Empty when the linear bounds conflict.
struct Match {
    std::vector<double> grams;
    double delta_e = 0.0;
};
measure::Expected<std::optional<Match>> best_match(const Problem& problem, const Setting& setting);

// One batt for each target, out of one shelf: what one takes the others cannot. The goal holds for each batt
// (its total, which must be given, bounds and least weights); its own target and the lots' least_grams are
// not read, and batts.count must be 1. Planned together first (least sum of squared differences), so that an
// early batt leaves what a later one needs more; then each is chosen as solve() would from what the others
// leave.
struct Series {
    std::vector<Proposal> batts;       // one a target
    std::vector<double> left_grams;    // of each lot, after all of them
    std::optional<Conflict> conflict;  // of the first batt that could not be made
    std::size_t conflict_at = 0;
    bool cancelled = false;
};
measure::Expected<Series> solve_series(const Problem& problem, const std::vector<Target>& targets,
                                       const Setting& setting, const Control& control = {});

// The proposal as a batt: one component a lot used, by weight, of one batt or of all together.
recipe::Recipe recipe_of(const Proposal& proposal, const Problem& problem, std::string name,
                         bool one_batt = false);

}  // namespace battwright::solve
