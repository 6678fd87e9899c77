// Inside this room: changes of amounts as attempts, each the sheet with the change carried out and the rest
// given way, or nothing when nothing can give way. The rule is told in edits.hpp.
#pragma once

#include <optional>
#include <vector>

#include "app/bench/sheet.hpp"

namespace battwright::app {

using Grams = std::vector<double>;

double sum_of(const Grams& grams);
// A computed total to 0.01 g, in the unit of the recipe's own.
measure::Mass rounded_total(const Sheet& sheet, double grams);
// Writes down that the amount was typed, after all others.
void just_typed(Sheet& sheet, std::size_t index);

std::optional<Sheet> with_weight(Sheet sheet, std::size_t index, const measure::Mass& weight);
std::optional<Sheet> with_percent(Sheet sheet, std::size_t index, double percent);
std::optional<Sheet> with_parts(const Sheet& before, std::size_t index, double parts);
std::optional<Sheet> with_total(Sheet sheet, const measure::Mass& total);
// The newcomer at the end, its amount written already.
std::optional<Sheet> with_new(Sheet sheet, const recipe::Component& newcomer);
std::optional<Sheet> without(Sheet sheet, std::size_t index);
// The share of `about` together lowered to `share_pct`, in proportion.
std::optional<Sheet> with_less(Sheet sheet, const std::vector<std::size_t>& about, double share_pct);

// As heavy a batt as its parts make: component `index` as it is written, locked percentages as they are
// (typed ones too, when `typed`), the others of the weight in `grams`. Nothing when that makes no batt.
std::optional<Sheet> with_total_following(Sheet sheet, Grams grams, std::size_t index, bool typed);
// With the total following; nothing when it holds nothing back.
std::optional<Sheet> freed_total(Sheet sheet, std::size_t index, const recipe::Amount& amount);

}  // namespace battwright::app
