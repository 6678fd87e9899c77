// Inside this room: lots that no bound tells apart. Whether there is any solution at all can be asked of far
// fewer of them.
#pragma once

#include "solve/model.hpp"

namespace battwright::solve {

// A model with a solution exactly when the whole one has one.
struct Fewer {
    Model model;
    std::vector<std::vector<Eigen::Index>> stands_for;  // of each lot of it, lots of the whole

    // A solution of `model` as one of the whole it was made from.
    VectorXd in_whole(const VectorXd& grams, const Model& whole) const;
};
// Two lots are alike when every row has the same number for both; what they cost and look like does not count
// here. Where lots are counted, or have a least weight, no more of those alike are needed than may be used,
// those that give most room first: another could be changed for one of them. Where not, all alike are one
// lot.
Fewer fewer_alike(const Model& model);

}  // namespace battwright::solve
