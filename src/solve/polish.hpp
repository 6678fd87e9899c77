// Inside this room: the last bit, where the colour difference is not smooth.
#pragma once

#include "solve/objective.hpp"

namespace battwright::solve {

// CIEDE2000 jumps where two colours have opposite hues, and a target far off is matched best right at such an
// edge. There Newton's method stops short: a simplex search (NLopt's Subplex, after Rowan 1990) over the lots
// in use, and those whose price is nearly as good, goes along the edge, and seeded
// random steps after it, longer after a gain and shorter after none (Rechenberg 1973), where the edge runs
// askew. The total stays; no bound is broken. `step`: how far it looks first, in mass shares.
VectorXd polished(const Objective& objective, const VectorXd& grams, const VectorXd& prices, double step);

}  // namespace battwright::solve
