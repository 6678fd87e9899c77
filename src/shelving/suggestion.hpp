// A proposal as a person judges it: the batt it would be, and what the forecast says of that.
#pragma once

#include <vector>

#include "forecast/forecast.hpp"
#include "shelving/stock.hpp"

namespace battwright::shelving {

struct Suggestion {
    solve::Proposal proposal;
    forecast::Forecast forecast;  // of the recipe, all batts together
    const recipe::Recipe& recipe() const { return forecast.recipe; }
};

// The batt is called `name`. A complaint when a recipe cannot hold it.
measure::Expected<Suggestion> suggestion_of(const Stock& stock, const solve::Proposal& proposal,
                                            const std::string& name, const forecast::Bench& bench);
// All of an answer's, in its order.
measure::Expected<std::vector<Suggestion>> suggestions_of(const Stock& stock,
                                                          const std::vector<solve::Proposal>& proposals,
                                                          const std::string& name,
                                                          const forecast::Bench& bench);

// Those that a finding would spoil go behind those that none would, each in its own order.
void spoilt_last(std::vector<Suggestion>& suggestions);

// The gravest finding; nullptr when there is none.
const staple::Finding* worst_of(const forecast::Forecast& forecast);

}  // namespace battwright::shelving
