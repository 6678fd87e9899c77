// The shelf, or a batt's own components, as lots to solve with; and a proposal as a batt again.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "recipe/limits.hpp"
#include "recipe/recipe.hpp"
#include "solve/solve.hpp"
#include "stash/movement.hpp"
#include "stash/shelf.hpp"

namespace battwright::shelving {

// What a gram of clean fibre of a lot cost: all that was paid for it in `currency` (a cost that names none
// counts as that) over what was bought for it, as later corrected. Nothing when no purchase has such a price.
std::optional<double> cost_per_gram(const stash::Shelved& shelved,
                                    const std::vector<stash::Movement>& movements, std::string_view currency);

struct PricedLot {
    std::shared_ptr<const stash::Shelved> shelved;
    std::optional<double> cost_per_gram;
};

// Lots to solve with, and what each becomes in a batt, in the same order. `frame` holds all of that batt but
// its components.
struct Stock {
    std::vector<solve::Lot> lots;
    std::vector<recipe::Component> components;  // the amount does not count
    recipe::Recipe frame;
};

// How a recipe's batt is carded and spun, without what it is made of: layings and a series name that too.
recipe::Recipe frame_of(recipe::Recipe recipe);

// Of the shelf: a lot's id is its mark, its weight what is clean of it, its age the days since it came (0
// when nobody remembers). Empty lots are left out.
Stock stock_of(const std::vector<PricedLot>& lots, std::chrono::sys_days today,
               double scrap_grams = stash::scrap_grams);
// Of a recipe: what each component weighs is what there is of it, and each is a scrap. The id is the
// component's lot, else its number ("1" is the first). A complaint when the amounts do not close.
measure::Expected<Stock> stock_of(const recipe::Recipe& recipe);

// The lots for which `keep` holds true; as long as the stock has lots.
Stock part_of(const Stock& stock, const std::vector<bool>& keep);

// As many components as a recipe may have, so as many lots as a batt can be made of.
inline constexpr std::size_t most_lots_of_a_batt = recipe::most_components;

// The proposal as a batt: all batts together or one of them, every component by weight.
recipe::Recipe recipe_of(const Stock& stock, const solve::Proposal& proposal, bool one_batt = false);

}  // namespace battwright::shelving
