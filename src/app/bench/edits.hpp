// Every change a person can make to a batt, as a pure function of the sheet. No display, no files.
//
// What was typed last holds, what is locked is never touched, the rest gives way so that the recipe still
// closes: parts first, since they share what is left; then what nobody typed; then what was typed longer ago.
// A total that was written or typed holds; one that was found follows. When nothing can give way the Change
// names the two that disagree and the ways out. Precondition of all: indices are in range. A sheet that
// closes goes in, a sheet that closes comes out.
#pragma once

#include <optional>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "fibre/catalogue.hpp"
#include "staple/findings.hpp"

namespace battwright::app {

// Least weight a component keeps when others push it, in grams.
inline constexpr double least_grams = 0.05;
// As many strips as the window offers.
inline constexpr int most_strips = 12;

Change set_weight(const Sheet& sheet, std::size_t index, measure::Mass weight);
// Percent of the total, kept within 0.01 and 99.99; 100 for a component alone.
Change set_percent(const Sheet& sheet, std::size_t index, double percent);
Change set_parts(const Sheet& sheet, std::size_t index, double parts);
Change set_amount(const Sheet& sheet, std::size_t index, const recipe::Amount& amount);
// States the total and scales what is not locked; a locked share stays a share.
Change set_total(const Sheet& sheet, measure::Mass total);
// Lets the total follow from now on, and takes it out of the recipe where the amounts need none.
Sheet free_total(Sheet sheet);
Sheet toggle_lock(Sheet sheet, std::size_t index);

// A newcomer at the end. A batt with a total keeps it: the newcomer has the weight wanted, else an equal
// share (a part, where there are parts). Without a total the batt grows by the weight wanted, else by the
// mean of the others (25 g on an empty bench).
Change add(const Sheet& sheet, recipe::Component newcomer, const std::optional<measure::Mass>& weight);
Change add(const Sheet& sheet, const fibre::Kind& kind);
// Puts a copy after the component; each of the two has half of its amount, so the batt stays what it was.
Sheet duplicate(Sheet sheet, std::size_t index);
Change remove(const Sheet& sheet, std::size_t index);
// Takes the component out and puts it back at `to`, counted after it was taken out.
Sheet reorder(Sheet sheet, std::size_t index, std::size_t to);
// Moves `grams` from component index + 1 to component index (negative: the other way), as far as both keep
// something. A locked one keeps its border.
Sheet move_border(Sheet sheet, std::size_t index, double grams);

// Replaces the palette by the closed one. An empty palette means the natural colours.
Sheet set_palette(Sheet sheet, std::size_t index, std::vector<recipe::Tint> palette);
Sheet set_passes(Sheet sheet, int passes);
Sheet set_strips(Sheet sheet, int strips);
// Of a blending board; 0: lifted off whole.
Sheet set_rolags(Sheet sheet, int rolags);
Sheet set_feed(Sheet sheet, recipe::Manner manner);
Sheet set_refeed(Sheet sheet, recipe::Refeed refeed);
Sheet set_carder(Sheet sheet, const recipe::Carder& preset);

// True when a program can carry out the finding's remedy, and the sheet with it carried out.
bool can_apply(const staple::Finding& finding);
// What a button says that carries it out; "" for none.
std::string_view remedy_in_words(staple::Remedy remedy);
// see_in_light leaves the sheet as it is.
Change apply_remedy(Sheet sheet, const staple::Finding& finding);
// The share of the components together lowered to `share_pct`, in proportion; the others take up the rest.
Change lower_share(const Sheet& sheet, const std::vector<std::size_t>& about, double share_pct);

}  // namespace battwright::app
