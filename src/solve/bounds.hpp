// Inside this room: the value of each bound, wherever the problem keeps it.
#pragma once

#include "solve/conflict.hpp"

namespace battwright::solve {

// Writes a value into the problem; nothing takes the bound away.
void set_bound(Problem& problem, const Bound& bound, std::optional<double> value);
// "at least 60 % wool".
std::string words_for(const Problem& problem, const Bound& bound, double value);
// True when lowering the value loosens the bound.
bool looser_when_lower(BoundKind kind);

}  // namespace battwright::solve
