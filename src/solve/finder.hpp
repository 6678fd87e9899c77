// Inside this room: the search for good sets of lots and their masses, for one model with a target.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "solve/fit.hpp"
#include "solve/objective.hpp"

namespace battwright::solve {

struct Found {
    VectorXd grams;  // one a lot of the model
    double objective = 0.0;
};

// The best of several starts without counts, least weights and steps; nothing when the rows conflict.
std::optional<Found> best_relaxed(const Objective& objective, std::size_t starts, const std::stop_token& stop,
                                  VectorXd* prices = nullptr);

struct FinderEffort {
    std::size_t starts = 5;
    std::size_t pool = 24;             // lots that may come into a set
    std::size_t most_fits = 500;       // sets tried
    std::size_t most_programs = 4000;  // linear, where there is no target
};
// Masses on the scale's step that keep every bound, best first, one entry a set of lots; empty only when
// branch and bound finds none either.
std::vector<Found> find_blends(const Objective& objective, const FinderEffort& effort,
                               const std::stop_token& stop);

}  // namespace battwright::solve
