// Inside this room: the steps both markets' labels are made of.
#pragma once

#include "card/label.hpp"

namespace battwright::card {

// Merged by name (case of ASCII letters ignored), scaled to 100, none below zero, most first.
std::vector<Share> merged(std::span<const Share> shares);
// The share of what `pick` picks, in percent.
double sum_of(const std::vector<Share>& shares, bool (*pick)(const Share&));
// Scales what is left to 100 again.
void rescale(std::vector<Share>& shares);
// Whole percents that sum to 100, in the order given. What rounds to nothing is still named, with 1 %; where
// there are several such, they share one line under `together`, put last.
std::vector<Entry> whole_percents(const std::vector<Share>& shares, const std::string& together);

std::string in_words(const std::string& name, const LabelOptions& options);

Label label_eu(std::span<const Share> shares, const LabelOptions& options);
Label label_us(std::span<const Share> shares, const LabelOptions& options);

}  // namespace battwright::card
