// The solver's answers with what a practised spinner keeps to unasked.
#pragma once

#include "solve/solve.hpp"

namespace battwright::shelving {

// solve::solve() and solve::solve_series(), with no more sparkle in a batt than the fibre around it holds
// (staple::most_sparkle_share), unless a bound speaks of sparkle or nothing can be made so.
measure::Expected<solve::Answer> answer_to(const solve::Problem& problem, const solve::Setting& setting,
                                           const solve::Control& control = {});
measure::Expected<solve::Series> series_for(const solve::Problem& problem,
                                            const std::vector<solve::Target>& targets,
                                            const solve::Setting& setting,
                                            const solve::Control& control = {});

}  // namespace battwright::shelving
