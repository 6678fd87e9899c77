// What can be asked of the shelf, in words and figures, as pure functions. No display, no files.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "app/shelf/stash_requests.hpp"
#include "fibre/catalogue.hpp"
#include "measure/units.hpp"

namespace battwright::app {

// Short pieces of text in one line, with a point between them: adds one; an empty one adds nothing.
inline void append(std::string& line, std::string_view words) {
    if (words.empty()) return;
    line.append(line.empty() ? "" : " \u00b7 ").append(words);
}

// How long a lot has been there, in calendar years back from a day.
enum class Age { any, under_one, one_to_three, over_three };
stash::Filter with_age(stash::Filter filter, Age age, std::chrono::sys_days day);
// The age whose dates these are; none when they are others.
std::optional<Age> age_of(const stash::Filter& filter, std::chrono::sys_days day);

// What the choice asks for beyond its words, for a line under the search field: "roving · from 20 g · within
// 10 of #2f5d50"; empty when nothing.
std::string conditions(const ShelfChoice& choice, const fibre::Catalogue& catalogue, measure::MassUnit unit);
// The choice without those conditions; the words, the order by anything but nearness and the threshold of a
// scrap stay.
ShelfChoice without_conditions(ShelfChoice choice);
// Looks for a colour, nearest first; or no more for one.
ShelfChoice near_to(ShelfChoice choice, const colour::Srgb& colour);
ShelfChoice near_nothing(ShelfChoice choice);

// A kind's name; the id itself when the catalogue has no such kind.
std::string kind_name(const std::string& id, const fibre::Catalogue& catalogue);
// A bare number is in the user's own unit.
measure::Expected<measure::Mass> parse_weight(std::string_view typed, measure::MassUnit unit);
// A bare number is percent.
measure::Expected<double> parse_share(std::string_view typed);
// "24.50" in the user's currency, or "24.50 EUR".
measure::Expected<stash::Money> parse_money(std::string_view typed, std::string_view currency);
std::string print_money(const stash::Money& money);

// The kinds' names with their shares: "Corriedale 70 %, Tussah silk 30 %".
std::string kinds_of(const stash::Lot& lot, const fibre::Catalogue& catalogue);
// What can be said of a lot in a few lines under the pointer; long texts are cut.
std::string lot_in_words(const stash::Shelved& shelved, const fibre::Catalogue& catalogue,
                         measure::MassUnit unit);
// At most so many bytes of the text, whole letters, with an ellipsis when some are missing.
std::string shortened(std::string_view text, std::size_t most_bytes);

}  // namespace battwright::app
