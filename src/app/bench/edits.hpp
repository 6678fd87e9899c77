// Every change a person can make to a batt, as a pure function of the sheet. No display, no files.
//
// A change of one amount makes the others give way so that the recipe still closes: parts first, since they
// share what is left; else everything that is not locked, in proportion. When nothing can give way the total
// follows. Precondition of all: indices are in range. A sheet that closes goes in, a sheet that closes comes
// out.
#pragma once

#include "app/bench/sheet.hpp"
#include "fibre/catalogue.hpp"
#include "staple/findings.hpp"

namespace battwright::app {

// Least weight a component keeps when others push it, in grams.
inline constexpr double least_grams = 0.05;
// As many strips as the window offers.
inline constexpr int most_strips = 12;

Sheet set_weight(Sheet sheet, std::size_t index, measure::Mass weight);
// Percent of the total, kept within 0.01 and what the locked components leave.
Sheet set_percent(Sheet sheet, std::size_t index, double percent);
Sheet set_parts(Sheet sheet, std::size_t index, double parts);
Sheet set_amount(Sheet sheet, std::size_t index, const recipe::Amount& amount);
// Scales what is not locked. Unchanged when the locked components alone weigh more.
Sheet set_total(Sheet sheet, measure::Mass total);
Sheet toggle_lock(Sheet sheet, std::size_t index);

// A new component of that kind at the end: an equal share of a batt with a total, else the mean weight of the
// others (25 g on an empty bench).
Sheet add(Sheet sheet, const fibre::Kind& kind);
// Puts a copy after the component; each of the two has half of its amount, so the batt stays what it was.
Sheet duplicate(Sheet sheet, std::size_t index);
Sheet remove(Sheet sheet, std::size_t index);
// Takes the component out and puts it back at `to`, counted after it was taken out.
Sheet reorder(Sheet sheet, std::size_t index, std::size_t to);
// Moves `grams` from component index + 1 to component index (negative: the other way), as far as both keep
// something.
Sheet move_border(Sheet sheet, std::size_t index, double grams);

// The palette with its shares scaled to sum 100, to a tenth, and its colours within what a screen shows.
std::vector<recipe::Tint> closed(std::vector<recipe::Tint> palette);
// Replaces the palette by the closed one. An empty palette means the natural colours.
Sheet set_palette(Sheet sheet, std::size_t index, std::vector<recipe::Tint> palette);
Sheet set_passes(Sheet sheet, int passes);
Sheet set_strips(Sheet sheet, int strips);
Sheet set_feed(Sheet sheet, recipe::Manner manner);
Sheet set_refeed(Sheet sheet, recipe::Refeed refeed);
Sheet set_carder(Sheet sheet, const recipe::Carder& preset);

// True when a program can carry out the finding's remedy, and the sheet with it carried out.
bool can_apply(const staple::Finding& finding);
// What a button says that carries it out; "" for none.
std::string_view remedy_in_words(staple::Remedy remedy);
Sheet apply_remedy(Sheet sheet, const staple::Finding& finding);

}  // namespace battwright::app
