// What is asked: a colour, scraps to use up, and the bounds on how.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "colour/spaces.hpp"
#include "colour/spectrum.hpp"
#include "solve/lot.hpp"

namespace battwright::solve {

// The colour to reach: Lab under D65 (against our grid's white), and the reflectance that stands for it under
// the other lights.
struct Target {
    colour::Lab lab;
    colour::Spectrum reflectance{};
};
Target target_of(const colour::Srgb& colour);
Target target_of(const colour::Spectrum& reflectance);
// A Lab outside sRGB keeps its place under D65; its reflectance is that of the nearest sRGB by clipping.
Target target_of(const colour::Lab& lab);
// `count` targets from one colour to the other, evenly in Lab, both ends included (one: the middle).
std::vector<Target> between(const colour::Lab& from, const colour::Lab& to, std::size_t count);

enum class UseUpBy {
    weight,         // as many grams as possible
    oldest,         // as many gram-days as possible: grams times age
    smallest_first  // as many lots finished as possible: each lot counts 1 when none of it is left
};
// Lots one wants off the shelf. `worth_delta_e`: how much colour difference using all of them may cost.
struct UseUp {
    std::vector<std::string> lots;  // ids
    UseUpBy by = UseUpBy::weight;
    double worth_delta_e = 5.0;
};

// Grams in all. Both the same: fixed. Neither: as much as possible of what the goal asks for (see Goal).
// Totals are read to the nearest whole number of the scale's steps a batt.
struct Total {
    std::optional<double> least_grams, most_grams;
};

// Equal batts: every lot's weight is the same in each, on the scale's step.
struct Batts {
    std::size_t count = 1;                          // 0: the fewest that hold it, up to 24
    std::optional<double> least_grams, most_grams;  // of one batt: the carder's load
};

enum class ShareOf { kind, family, label, lot };
// "at least 60 % wool", "silk 10-20 %": percent of the mass of the batt. `what`: a kind's id, a word of
// fibre::word_for(Family), an EU label name, or a lot's id.
struct ShareBound {
    ShareOf of = ShareOf::kind;
    std::string what;
    double least_pct = 0.0;
    double most_pct = 100.0;
};

// With a bound on cost, a lot without a price is not used. With one on staple, every fibre of a lot must keep
// it (neps, locks and film are let off).
struct Bounds {
    std::vector<ShareBound> shares;
    std::optional<double> most_cost;  // all batts together
    std::optional<double> most_cost_per_100_g;
    std::optional<double> least_staple_mm, most_staple_mm;
    std::optional<double> staple_spread;  // longest at most so many times the shortest, of the lots used
    std::optional<std::size_t> most_lots;
    double least_used_grams = 0.0;  // of a lot that is used at all, in each batt
    double keep_back_pct = 0.0;     // of every lot; a lot's own keep_back_grams counts if more
};

// The objective, in units of CIEDE2000, least is best:
//   delta_e (0 without a target) + worth_delta_e * (1 - used) + lot_worth_delta_e * lots not asked to be used
//   up
// where `used` is the weighted share of what can be taken of the use-up lots. Without target and use-up lots
// all lots are to be used up. With a target alone and a range of totals, the shares are found first and the
// weights are then as large as the range and the shelf allow.
struct Goal {
    std::optional<Target> target;
    std::optional<UseUp> use_up;
    Total total;
    Batts batts;
    Bounds bounds;
    double scale_step_grams = 0.1;    // 0: any weight
    double lot_worth_delta_e = 0.02;  // a lot that brings less than this is left on the shelf
    double textile_k_l = 1.0;         // kL of CIEDE2000; textiles use 2
    colour::Light second_light = colour::Light::a;
    std::size_t most_proposals = 5;
    double worst_delta_e = 5.0;  // proposals no worse than the best by more than this
};

struct Problem {
    std::vector<Lot> lots;
    Goal goal;
    // That its bounds are told in.
    measure::MassUnit mass = measure::MassUnit::gram;
    measure::LengthUnit length = measure::LengthUnit::millimetre;
};

// The use-up goal for all lots marked as scrap.
UseUp use_up_scraps(const std::vector<Lot>& lots, UseUpBy by = UseUpBy::weight);
// Grams of a lot that may be used: on hand, less what is kept back, no more than its most.
double usable_grams(const Lot& lot, const Bounds& bounds);

// What forecast() needs too: the catalogue must outlive the call.
struct Setting {
    const fibre::Catalogue* catalogue = nullptr;
    colour::OpticsModel optics;
};
// The first thing wrong with a problem: no lots, an id twice, weights negative or not numbers, bounds
// crossed, names that no lot or catalogue has.
measure::Expected<void> check(const Problem& problem, const Setting& setting);

}  // namespace battwright::solve
