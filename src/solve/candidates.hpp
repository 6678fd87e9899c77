// Inside this room: proposals of every kind for all models of a problem.
#pragma once

#include <vector>

#include "solve/finder.hpp"
#include "solve/model.hpp"
#include "solve/reporter.hpp"

namespace battwright::solve {

// Half the sum of absolute differences of mass shares.
double variation(const VectorXd& first, const VectorXd& second);

// A model, and masses that keep all of it.
struct Candidate {
    std::size_t model = 0;
    Found found;
    double best_possible = 0.0;
};
// Candidates for one model, with bans written into it as limits; best first.
std::vector<Candidate> candidates_of(const Model& model, std::size_t index, const Shelf& shelf,
                                     const Goal& goal, const FinderEffort& effort,
                                     const std::stop_token& stop);
// A model and what its relaxed problem comes to: without a target, a bound on the objective.
struct ModelRank {
    double objective = 0.0;
    std::size_t model = 0;
};
// The models worth a full search, most promising first: with a target by the relaxed match, else by the
// linear bound. With the number of batts left open, the fewest that can be made (with a target) or that use
// the most.
std::vector<ModelRank> promising(const std::vector<Model>& models, const Shelf& shelf, const Goal& goal,
                                 const std::stop_token& stop);
// Up to `most` that are clearly different, best first: `first` and, for each of them, what there is when a
// lot it leans on may not be used as much.
std::vector<Candidate> varied(const std::vector<Model>& models, std::vector<Candidate> first,
                              const Shelf& shelf, const Goal& goal, Reporter& reporter);

}  // namespace battwright::solve
