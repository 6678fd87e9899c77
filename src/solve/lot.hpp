// What there is to solve with: lots of fibre, whoever keeps them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "colour/optics.hpp"
#include "colour/spectrum.hpp"
#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "recipe/recipe.hpp"

namespace battwright::solve {

// One bag, braid or pile. Weights in conditioned grams.
struct Lot {
    std::string id;    // unique among the lots of a problem
    std::string name;  // what a person calls it
    std::vector<recipe::Content> content;
    std::vector<recipe::Tint> palette;  // empty: the kinds' natural colours
    double on_hand_grams = 0.0;
    double keep_back_grams = 0.0;      // of this lot, never to be used
    double least_grams = 0.0;          // must be used, all batts together
    std::optional<double> most_grams;  // no more than this, all batts together
    std::optional<double> cost_per_gram;
    std::optional<double> staple_mm;  // the tag's own figures beat the catalogue's
    std::optional<double> diameter_um;
    int age_days = 0;
    bool scrap = false;  // a remainder: see use_up_scraps()
};

// A recipe's component as a lot of `on_hand_grams`: its own weight if that is all there is of it.
Lot lot_of(const recipe::Component& component, std::string id, double on_hand_grams);

// What is worked out once for a lot. Shares are 0..1 of its mass.
struct LotProperties {
    colour::Spectrum reflectance{};  // of the lot carded by itself
    std::map<std::string, double> by_kind;
    std::map<fibre::Family, double> by_family;
    std::map<std::string, double> by_label;  // EU generic names
    double shortest_mm = 0.0;  // staple of its shortest and longest fibre; neps, locks and film do
    double longest_mm = 0.0;   // not count (both 0 when there is nothing else)
};

// The same figures as forecast() gives for a batt of this lot alone. A complaint names the lot (`where`) when
// a kind is unknown, a share or a weight is not a number or below zero, or there is no content.
measure::Expected<LotProperties> work_out(const Lot& lot, const fibre::Catalogue& catalogue,
                                          const colour::OpticsModel& optics);

}  // namespace battwright::solve
