// Inside this room: which lots a linear search need not look at.
#pragma once

#include <vector>

#include "solve/model.hpp"

namespace battwright::solve {

// The lots that a cheapest solution can be made of, in order. Where no more than k lots can be used (as
// many as may be, or as have room with their least weights), one is left out when k others count the same in
// every row, have the same least, cost no more a gram and have as much: whatever it does, one of those that
// is not in use does as well. So is one that may not be used at all.
std::vector<Eigen::Index> lots_to_choose_from(const Model& model, const VectorXd& cost);

// The model of these lots alone.
Model only_of(const Model& model, const std::vector<Eigen::Index>& lots);

}  // namespace battwright::solve
