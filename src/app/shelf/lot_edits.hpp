// From the shelf to the bench: what a lot becomes in a recipe, as pure functions. No display, no files.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "stash/movement.hpp"
#include "stash/shelf.hpp"

namespace battwright::app {

// The lot as a component, without an amount: its mark, content, palette, tag figures, and the price of what
// was paid for it in `currency`, as shelving::stock_of() makes it.
recipe::Component component_of(const stash::Shelved& shelved, const std::vector<stash::Movement>& movements,
                               std::string_view currency);

// A blend with one kind more (an equal share), with one less, or with another share of one; the others give
// way in proportion and all sum to 100. A kind that is there already, or a blend of one kind, stays as it is.
std::vector<recipe::Content> with_kind(std::vector<recipe::Content> blend, const std::string& kind);
std::vector<recipe::Content> without_kind(std::vector<recipe::Content> blend, std::size_t index);
std::vector<recipe::Content> with_share(std::vector<recipe::Content> blend, std::size_t index,
                                        double percent);

// Something has been written down of a lot that is not on the shelf yet: a word, a figure, or its weight.
bool is_begun(const stash::Lot& lot, std::string_view weight);
// All that was said of it, as one text (see half_typed.hpp); "" when it is not begun.
std::string typed_in(const stash::Lot& lot, std::string_view weight);

// Clean grams of the lot that the sheet's components want together; nothing when the sheet does not close.
std::optional<double> wanted_of(const Sheet& sheet, std::string_view mark);

// How much of a lot to take when nobody says: all of a scrap, else what add() gives a newcomer (an equal
// share of a batt with a total, else the mean of the others, 25 g on an empty bench), at most what is left
// beside what the bench already wants.
double suggested_grams(const Sheet& sheet, const stash::Shelved& shelved, double scrap_grams);

// The sheet with the lot as its last component, `weight` of clean fibre, as add() does it. Complaints:
// nothing left of it, a kind the catalogue does not have.
measure::Expected<Change> put_on_bench(const Sheet& sheet, const stash::Shelved& shelved,
                                       measure::Mass weight, const std::vector<stash::Movement>& movements,
                                       std::string_view currency, const fibre::Catalogue& catalogue);

}  // namespace battwright::app
