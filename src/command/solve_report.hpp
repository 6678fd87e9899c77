// Inside this room: proposals as text for a person and as JSON for a program.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "command/solve_ask.hpp"
#include "shelving/suggestion.hpp"

namespace battwright::command {

struct SolveResult {
    std::vector<shelving::Suggestion> suggestions;  // of a gradient: one a batt
    std::optional<solve::Conflict> conflict;
    std::size_t conflict_at = 0;        // of a gradient: which batt
    std::vector<double> left_grams;     // of a gradient: of each lot, after all batts
    std::optional<solve::Reach> reach;  // of one colour
};

std::string found_text(const SolveRequest& asked, const SolveResult& found, measure::MassUnit unit);
// Units are in the names, numbers unrounded but for what a search found.
std::string found_json(const SolveRequest& asked, const SolveResult& found);

}  // namespace battwright::command
