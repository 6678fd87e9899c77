// Inside this room: the same colour from fewer lots, and the same shares at a larger weight.
#pragma once

#include "solve/objective.hpp"

namespace battwright::solve {

// Masses of the same colour, near enough, from as few of the same lots as a linear program finds. Counts and
// steps are not looked at.
VectorXd spared(const Objective& objective, const VectorXd& grams);

// All masses times the most that rows, lots and shelf allow, when the model asks for as much as it can.
VectorXd scaled_up(const Model& model, const VectorXd& grams);

}  // namespace battwright::solve
