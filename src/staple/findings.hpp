// What a practised spinner would say about this mixture before it is carded.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "recipe/composition.hpp"

namespace battwright::staple {

enum class Severity { advice, warning, spoils };
enum class Basis { published, common_practice };

// A remedy a program can carry out; `none` when only a person can.
enum class Remedy { none, lower_share, remove_component, add_on_last_pass, fewer_passes, more_passes };

struct Finding {
    std::string code;  // stable, kebab-case: "fine-on-coarse-cloth"
    Severity severity = Severity::advice;
    std::string text;    // what and why, with the numbers behind it
    std::string remedy;  // what to do
    Basis basis = Basis::common_practice;
    std::string source;                   // for a published one
    std::vector<std::size_t> components;  // the ones it is about
    Remedy action = Remedy::none;
    // For lower_share: the joint share of `components` in percent of the batt's mass that clears the finding,
    // with the others growing in proportion. For fewer_passes and more_passes: the number of passes.
    double action_value = 0.0;
};

// All findings, gravest first, then in recipe order. At most one of each code. The carder is the recipe's.
// Texts do not depend on the order of the components. No strands: no findings.
std::vector<Finding> findings_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                                 const recipe::Carder& carder);

std::string_view word_for(Severity severity);  // "advice", "warning", "spoils"
std::string_view word_for(Basis basis);

}  // namespace battwright::staple
