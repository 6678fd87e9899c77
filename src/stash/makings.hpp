// Inside this room: batts and skeins as rows.
#pragma once

#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "stash/database.hpp"
#include "stash/making.hpp"

namespace battwright::stash {

std::vector<Batt> read_batts(const Database& database);  // oldest first
Batt read_batt(const Database& database, std::int64_t id);
std::vector<Skein> read_skeins(const Database& database);  // by date
Skein read_skein(const Database& database, std::int64_t id);

inline constexpr int most_batts = 1000;  // of one carding
// Throws for a skein with texts, measures or batts that cannot be.
void check_skein(const Database& database, const Skein& skein);

recipe::Preparation preparation_of(std::string_view word);  // of a file's own word

// Several colours seen as one from across the room: the mean of their light by weight; none for no weight.
std::optional<colour::Lab> mixed_colour(std::span<const std::pair<colour::Lab, double>> colours);

}  // namespace battwright::stash
