// Inside this room: what the findings look at, gathered once.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "recipe/composition.hpp"
#include "staple/findings.hpp"

namespace battwright::staple {

// All of one kind at one length and one thickness, whatever its colours and components.
struct Body {
    const fibre::Kind* kind = nullptr;
    double staple_mm = 0.0;                  // of a lock or tuft
    double fibre_mm = 0.0, staple_cv = 0.0;  // of the fibres
    double diameter_um = 0.0, diameter_cv = 0.0;
    double grams = 0.0;
    double mass_share = 0.0;
    bool opened = false;                  // see recipe::Strand
    bool among = false;                   // recipe::lies_among: no fibre of the mixture
    std::vector<std::size_t> components;  // ascending
};

struct Batch {
    const recipe::Recipe* recipe = nullptr;
    const recipe::Carder* carder = nullptr;
    std::vector<recipe::Strand> strands;  // in an order of their own, not the recipe's
    std::vector<Body> bodies;             // the same
    double total_grams = 0.0;
    int passes = 1;
};

Batch batch_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
               const recipe::Carder& carder);

// The pass a component goes on: 1 .. passes.
int pass_of(const Batch& batch, std::size_t component);
bool goes_on_last(const Batch& batch, std::size_t component);

using BodyTest = std::function<bool(const Body&)>;
double mass_share_where(const Batch& batch, const BodyTest& holds);
// The bodies that pass, their components (ascending, each once), and their names as a person reads them.
std::vector<Body> bodies_where(const Batch& batch, const BodyTest& holds);
std::vector<std::size_t> components_of(std::span<const Body> bodies);
std::string names_of(std::span<const Body> bodies);
std::string is_or_are(std::span<const Body> bodies);  // " is " or " are "

// A share over a limit and how to mend it: who is over by themselves, and what they must fall to together.
// `weight` is what a strand counts for (its mass, its number), `held` the part of it that has the property.
struct Measured {
    double weight = 0.0;
    double held = 0.0;
};
struct Excess {
    double share = 0.0;                   // held / weight of the whole batt
    std::vector<std::size_t> components;  // those over the limit by themselves, ascending
    Remedy action = Remedy::none;         // lower_share or remove_component; none when all are over
    double action_value = 0.0;
};
std::optional<Excess> excess_over(double limit, const Batch& batch,
                                  const std::function<Measured(const recipe::Strand&)>& measured);

// One file each.
using Findings = std::vector<Finding>;
void add_pair_findings(const Batch& batch, Findings& findings);
void add_length_findings(const Batch& batch, Findings& findings);
void add_cloth_findings(const Batch& batch, Findings& findings);
void add_extra_findings(const Batch& batch, Findings& findings);
void add_carding_findings(const Batch& batch, Findings& findings);
void add_feel_findings(const Batch& batch, Findings& findings);

// "3.5"; "48 %", "5 %", "60 mm", "23.1 um", "4.5 g": as many digits as a spinner can use.
std::string number(double value, int decimals = 0);
std::string percent(double share);
std::string percent_to_the_tenth(double value);  // of a figure already in percent: "39.8 %"
std::string millimetres(double value);
std::string micrometres(double value);
std::string grams(double value);
// "1 pass", "3 passes".
std::string counted(int count, const std::string& one, const std::string& many);
// "a", "a and b", "a, b and c".
std::string listed(const std::vector<std::string>& words);

}  // namespace battwright::staple
