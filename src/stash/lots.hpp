// Inside this room: lots and movements as rows.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "stash/database.hpp"
#include "stash/lot.hpp"
#include "stash/movement.hpp"
#include "stash/shelf.hpp"

namespace battwright::stash {

// Six random characters that no lot has.
std::string free_mark(const Database& database);
// With its mark; its id too when that is not 0. Returns the id.
std::int64_t insert_lot(Database& database, const Lot& lot, const fibre::Catalogue& catalogue);
void update_lot(Database& database, const Lot& lot, const fibre::Catalogue& catalogue);
// Every lot with its sum, in the order they came.
Shelf read_shelf(const Database& database);
// By mark in any of the ways parse_mark() forgives; a complaint when there is none.
Shelved read_lot(const Database& database, std::string_view mark);

// The movement's own id and the lot's sum are the file's business; the answer is the id.
std::int64_t insert_movement(Database& database, const Movement& movement);
Movement movement_in(const Statement& row);
// The columns movement_in() wants; `currency` from the lot.
inline constexpr const char* movement_columns =
    "movement.id, movement.lot, movement.reason, movement.micrograms, movement.made_on, movement.note, "
    "movement.cost, lot.currency, movement.batt, movement.of_movement";

// "" becomes today; anything else that is no date is a complaint.
std::string date_or_today(std::string_view date);
// Above zero as whole millionths and not beyond all reason, or a complaint about `field`.
std::int64_t checked_amount(double value, const char* field, const char* unit);
// To the milligram, so that "60.2 g of 60 g" does not read "60 g of 60 g".
std::string grams_text(double grams);
// Colours whose shares come to 100, or none at all.
void check_palette(const std::vector<recipe::Tint>& palette);
// UTF-8 without control characters (line ends and tabs pass when `many_lines`), not too long.
void check_text(std::string_view text, const char* field, bool many_lines = false,
                std::size_t most = most_text_bytes);

}  // namespace battwright::stash
