// What a practised spinner would say about this mixture before it is carded.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/units.hpp"
#include "recipe/composition.hpp"
#include "staple/distribution.hpp"

namespace battwright::staple {

enum class Severity { advice, warning, spoils };
enum class Basis { published, common_practice };

// A remedy a program can carry out; `none` when only a person can.
enum class Remedy {
    none,
    lower_share,
    remove_component,
    add_on_last_pass,
    fewer_passes,
    more_passes,
    lay_stripes,  // each strip going back in its own place
    lighten,
    see_in_light
};

struct Finding {
    std::string code;  // stable, kebab-case: "fine-on-coarse-cloth"
    Severity severity = Severity::advice;
    std::string text;    // what and why, with the numbers behind it, in mm and g
    std::string remedy;  // what to do, the same
    std::string
        text_with_quantities;  // the same two, each length and mass as {mm 75} or {g 4.5}: see words_in
    std::string remedy_with_quantities;
    Basis basis = Basis::common_practice;
    std::string source;                   // for a published one
    std::vector<std::size_t> components;  // the ones it is about
    Remedy action = Remedy::none;
    // For lower_share: the joint share of `components` in percent of the batt's mass that clears the finding,
    // with the others growing in proportion. For fewer_passes and more_passes: the number of passes. For
    // lighten: the L* that each colour of the first of `components` gains. For see_in_light: the light's
    // place among colour::Light.
    double action_value = 0.0;
};

// All findings, gravest first, then in recipe order. At most one of each code. The carder is the recipe's.
// Texts do not depend on the order of the components. No strands: no findings.
std::vector<Finding> findings_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                                 const recipe::Carder& carder);

// A text of quantities in a person's units.
struct Units {
    measure::LengthUnit length = measure::LengthUnit::millimetre;
    measure::MassUnit mass = measure::MassUnit::gram;
};
std::string words_in(const std::string& text_with_quantities, const Units& units);
// A weight in such a text that is printed as a scale shows it, whatever the unit: measure::print_mass.
std::string weighed(double grams);
// Turns a finding written with quantities in `text` and `remedy` into both forms.
void settle_words(Finding& finding);
// Gravest first, then in recipe order.
void sort_findings(std::vector<Finding>& findings);

// Common practice, no source: a drum takes this much over its load if it is fed slowly and patted down.
inline constexpr double over_full_share = 0.10;

// How often fibre goes through before it rolls into neps, on this cloth: the finer, the less often, and what
// is short as well (cotton, fine down) once less again. At least 1. Common practice, no source.
int passes_borne(double diameter_um, double staple_mm, double teeth_per_square_inch);
// How many passes on this tool pull no harder than one on a drum (common practice, no source): 1 on a drum.
int gentler(recipe::ToolKind tool);
// What lies together in a batt. Of one thickness it counts together, however the maker has split it.
struct Bulk {
    double grams = 0.0, diameter_um = 0.0, staple_mm = 0.0;
};
// What a batt bears, and the fibre that sets it: the least borne by what makes up enough of `total_grams`.
struct PassLimit {
    int passes = 0;
    double diameter_um = 0.0;
    bool is_fine = false;   // else it is what most fibre bears
    bool is_short = false;  // and fine: it rolls up sooner
};
PassLimit passes_borne(std::span<const Bulk> bulks, double total_grams, double teeth_per_square_inch);

// What a yarn of these diameters is fit for: "next to the skin" while no more than 5 % is over 30 um (the
// published limit of prickle) of it or of its whole locks, else by its mean "over other clothes" or "rugs and
// bags" (common practice).
std::string_view feel_of(const DiameterSummary& diameters, std::span<const Inclusion> inclusions);

std::string_view word_for(Severity severity);  // "advice", "warning", "spoils"
std::string_view word_for(Basis basis);

}  // namespace battwright::staple
