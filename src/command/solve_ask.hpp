// Inside this room: what was asked on the command line, as a problem.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "command/solve.hpp"
#include "shelving/stock.hpp"
#include "solve/gamut.hpp"
#include "stash/hands.hpp"

namespace battwright::command {

struct SolveRequest {
    shelving::Stock stock;
    solve::Problem problem;                     // its lots are the stock's
    std::vector<solve::Target> targets;         // of a gradient; else empty
    std::string currency;                       // "" when nobody named one
    stash::Hands hands;                         // what her photos have taught; the usual for a recipe
    std::shared_ptr<const stash::Shelf> shelf;  // the lots that a recipe for a target names
    std::string title;                          // "Match for #2f5d50"
};

// What is there to solve with: the stash, or the recipe's own components.
SolveRequest stock_asked(const SolveArguments& args, const Context& context);
// Totals, batts, bounds and the scale.
void ask_bounds(SolveRequest& asked, const SolveArguments& args, const Context& context);
// Which lots are to be used up; without `named_only` all scraps when none is named.
void ask_use_up(SolveRequest& asked, const SolveArguments& args, bool named_only);
// The colour, or the colours of the gradient.
void ask_target(SolveRequest& asked, const SolveArguments& args, const Context& context);

}  // namespace battwright::command
