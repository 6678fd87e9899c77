// Laying by hand as pure functions of the sheet: a stroke, and every change of what has been laid. No
// display.
//
// The list always closes: what no stroke has placed goes in as "the rest", evenly through the tray, and a
// stroke takes its fibre from there. What is taken off goes back there. Weights are of one batt of `batts`
// equal ones; the recipe's are of the whole making. Layings are named by their index; those that do not exist
// are passed over.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/bench/disagreement.hpp"
#include "app/lay/brush.hpp"

namespace battwright::app {

using Layings = std::vector<std::size_t>;

// What was done, and a line when it was not all that was asked for; the sheet is then as near as can be.
struct Laid {
    Sheet sheet;
    std::string line;
    Layings layings{};   // those it is about, in the new list
    double grams = 0.0;  // that a stroke laid
};

// The recipe with its manner written out as a list, which is the same batt; as it is when it has one already
// or cannot be carded.
Sheet as_list(const Sheet& sheet, const fibre::Catalogue& catalogue);

// A stroke: clipped at the edges, of no more than is left. One like the last, at the same place or beside it
// and as thick, becomes one with it. A sheet without a list (see as_list) is given one.
Laid lay_stroke(const Sheet& sheet, const Brush& brush, std::size_t batts);

Laid take_off(const Sheet& sheet, const Layings& which);
// All strokes off; small blends stay, laid evenly.
Laid clear_layings(const Sheet& sheet);
// Each once more, right after itself, as far as there is fibre.
Laid double_layings(const Sheet& sheet, const Layings& which);
// Left to right; all of them when none are named.
Laid mirror_layings(const Sheet& sheet, const Layings& which);
// Over the full width and all round, evenly.
Laid spread_evenly(const Sheet& sheet, const Layings& which);
// Those that follow each other and are alike as one, as a stroke and the next would be.
Laid join_layings(const Sheet& sheet);
// What no stroke has placed.
Layings rests_of(const Sheet& sheet);
// To before the laying `to`; at the end when there is none.
Laid move_layings(const Sheet& sheet, const Layings& which, std::size_t to);
// Together, in proportion; of no more than there is.
Laid set_laid_grams(const Sheet& sheet, const Layings& which, double grams, measure::MassUnit unit,
                    std::size_t batts);
Laid set_laid_across(const Sheet& sheet, const Layings& which, const recipe::Stretch& across);
Laid set_laid_round(const Sheet& sheet, const Layings& which, const recipe::Stretch& round);
// Their fade or their overlap; none takes it away.
Laid set_laid_edge(const Sheet& sheet, const Layings& which,
                   std::optional<recipe::Extent> recipe::Laying::*edge,
                   const std::optional<recipe::Extent>& wanted);
Laid set_laid_how(const Sheet& sheet, const Layings& which, recipe::Spreading how,
                  const std::optional<measure::Length>& size);
Laid set_laid_way(const Sheet& sheet, const Layings& which, recipe::Way way);
Laid set_laid_pass(const Sheet& sheet, const Layings& which, int pass);
Laid set_laid_lies(const Sheet& sheet, const Layings& which, recipe::Lies lies);

// What one batt gets of them in grams.
double laid_grams(const Sheet& sheet, const Layings& which, std::size_t batts);

// A list that no longer closes, since weights, passes or the tool changed, made to: what is laid in
// proportion, on passes there are, within the edges.
Laid made_to_fit(const Sheet& sheet);
// Another carder. Where a place in millimetres runs off it, it is asked whether the lay is scaled or cut off.
Change choose_carder(const Sheet& sheet, const recipe::Carder& preset);

}  // namespace battwright::app
