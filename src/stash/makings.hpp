// Inside this room: batts and skeins as rows.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "stash/batt_photo.hpp"
#include "stash/database.hpp"
#include "stash/making.hpp"

namespace battwright::stash {

// The query for all rows, or for those whose `key` is the one named, in that order.
Statement rows_asked(const Database& database, std::string query, std::string_view key,
                     std::optional<std::int64_t> only, std::string_view order);
// Oldest first; or that one alone, if there is such a one.
std::vector<Batt> read_batts(const Database& database, std::optional<std::int64_t> only = std::nullopt);
Batt read_batt(const Database& database, std::int64_t id);
// By date; or that one alone, if there is such a one.
std::vector<Skein> read_skeins(const Database& database, std::optional<std::int64_t> only = std::nullopt);
Skein read_skein(const Database& database, std::int64_t id);

std::vector<BattPhoto> read_photos(const Database& database);  // by date
// Throws for one with texts, figures or a batt that cannot be.
void check_photo(const Database& database, const BattPhoto& photo);

inline constexpr int most_batts = 1000;  // of one carding
// Throws for a skein with texts, measures or batts that cannot be.
void check_skein(const Database& database, const Skein& skein);

// The last day that counts: ISO dates sort as text, and for "" this comes after all of them. Throws for a
// date that is none.
std::string last_day(std::string_view until);

recipe::Preparation preparation_of(std::string_view word);  // of a file's own word

// Several colours seen as one from across the room: the mean of their light by weight; none for no weight.
std::optional<colour::Lab> mixed_colour(std::span<const std::pair<colour::Lab, double>> colours);

}  // namespace battwright::stash
