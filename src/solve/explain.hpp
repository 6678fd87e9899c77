// Inside this room: the conflict behind a problem that nothing solves.
#pragma once

#include "solve/conflict.hpp"
#include "solve/model.hpp"
#include "solve/reporter.hpp"

namespace battwright::solve {

// Of a problem that has passed check() and for which no weights were found. Where none of its bounds can be
// shown to conflict, since a search was cut short, none is named and the words say so.
Conflict explain(const Problem& problem, const Shelf& shelf, Reporter& reporter);

struct Verdict {
    bool feasible = false;
    bool proved = true;
    std::size_t work = 0;  // as in Branched
};
// Whether any model has a solution; a search cut short counts as no.
Verdict verdict(const Problem& problem, const Shelf& shelf, std::size_t most_programs,
                const std::stop_token& stop);

}  // namespace battwright::solve
