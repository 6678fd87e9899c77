// Inside this room: the steps both markets' labels are made of.
#pragma once

#include "card/label.hpp"

namespace battwright::card {

inline constexpr double closing_pct = 1e-9;  // of sums of shares

// Merged by name (case of ASCII letters ignored), scaled to 100, none below zero, most first. Who brought
// them is listed; of pasts and diameters that differ the worse is kept, since the name must be true of all.
std::vector<Share> merged(std::span<const Share> shares);
// The share of what `pick` picks, in percent.
double sum_of(const std::vector<Share>& shares, bool (*pick)(const Share&));
bool is_decorative(const Share& share);
bool is_unknown(const Share& share);
// How the catalogue names for a market what nobody can name.
std::string unknown_name(Market market);
// Scales what is left to 100 again.
void rescale(std::vector<Share>& shares);
// Percents that sum to 100, in the order given: whole ones, and what rounds to nothing is still named, with
// 1 %. Where several would be, to the tenth, with at least 0.1 %.
std::vector<Entry> rounded_percents(const std::vector<Share>& shares);
std::string percent_text(double percent);  // "12", "0.4"
// Whether the fibre has been spun, knitted or woven before, or may have been.
bool may_be_reclaimed(const Share& share);
// "'thrums' and 'scraps'", or "'wool'" when nobody said who brings it.
std::string brought_by(const Share& share);

std::string in_words(const std::string& name, const LabelOptions& options);

Label label_eu(std::span<const Share> shares, const LabelOptions& options);
Label label_us(std::span<const Share> shares, const LabelOptions& options);

}  // namespace battwright::card
