// Inside this room: sums of lots that are whole numbers of steps in every solution.
#pragma once

#include "solve/model.hpp"

namespace battwright::solve {

// Rows of ones: all lots, and for each row of the model in which lots count in few ways ("is silk", "is not")
// those that count alike. Lots that no linear program can tell apart can share a sum in any number of ways; a
// search that decides the sum first does not try them one by one.
MatrixXd whole_sums(const Model& model);

}  // namespace battwright::solve
