// How much goes on at once, and what to weigh out for each batt.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "recipe/carder.hpp"
#include "staple/findings.hpp"

namespace battwright::carding {

using recipe::ToolKind;

// Anything fibre is carded on. Loads are grams of clean fibre a batt, rolag or board (common practice).
struct Tool {
    std::string id;
    std::string name;
    ToolKind kind = ToolKind::drum;
    double load_low_grams = 0.0;   // less than this makes a thin batt that is hard to lift in one piece
    double load_high_grams = 0.0;  // more than this rides on the tips of the teeth
};
// "hand-cards" and "blending-board" as recipe::carder_presets() has them.
const std::vector<Tool>& hand_tools();
Tool tool_of(const recipe::Carder& carder);

// How the total is split.
enum class Splitting {
    automatic,   // as few batts as hold it, a little over-full rather than one more
    equal_only,  // equal batts, none over-full
    full_first   // full batts, and what is left in a last small one
};
struct Allowance {
    double over_full_share = staple::over_full_share;
    double scale_step_grams = 0.1;
    Splitting splitting = Splitting::automatic;
};

// What goes on each batt. All weights are multiples of the scale's step.
struct WeighOut {
    std::size_t batts = 0;
    std::size_t components = 0;
    std::vector<double> grams;       // batt by batt, one per component
    std::vector<double> batt_grams;  // sum of each batt
    std::vector<double>
        component_grams;  // sum of each component: its weight on the scale, all batts together
    bool over_full = false, thin = false, last_small = false;
    // What a person should know about this split: in g, and for staple::words_in.
    std::vector<std::string> words, words_with_quantities;

    double at(std::size_t batt, std::size_t component) const { return grams[batt * components + component]; }
};

// Splits component weights over batts. Each component's sum over the batts is its rounded weight, and these
// sum to the total rounded to the step (largest remainders: measure::round_to_step). Equal batts differ by at
// most a step or, in a component, by at most a step. A complaint when the load or the step is not above zero,
// when nothing is weighed out or when it would take more than 1,000 batts.
measure::Expected<WeighOut> weigh_out(std::span<const double> component_grams, const Tool& tool,
                                      const Allowance& allowance = {});

}  // namespace battwright::carding
