// How fibre is laid on the drum, and how a batt goes back for another pass.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "measure/choices.hpp"

namespace battwright::recipe {

inline constexpr int usual_strips = 4;  // that a batt is split into for another pass

// The first pass. `stripes_across`: side by side over the width of the drum. `gradient_across`: the same with
// each running into the next. `gradient_round`: one after another round the drum. `dabs`: the largest portion
// all over, the others in patches. `alternating`: a thin layer or pinch of each in turn, so many times.
// Round the drum and in patches are laid straight onto it; the others go in by the tray.
enum class Manner { layers, sandwich, stripes_across, gradient_across, gradient_round, dabs, alternating };
// Every further pass. `strips`: split lengthwise into k, each drafted, spread to the full width and fed end
// first, one after another. `tear_and_fold`: torn across into k lengths, laid on one another, every other one
// turned end for end, and the stack fed end first. `halves`: split lengthwise in two, one laid on the other.
// `own_places`: strips fed end first, each where it lay, which keeps a gradient. `sideways`: torn across into
// pieces a staple long, each turned a quarter and fed. `on_edge`: strips stood on edge side by side, so that
// layers become stripes. `quarter_turn`: the whole batt turned a quarter.
enum class Refeed { strips, tear_and_fold, halves, own_places, sideways, on_edge, quarter_turn };

// What has a place of its own: nothing, what lies side by side across the tool or one after another round it
// (along what lies flat), or patches.
enum class Places { none, across, round, patches };
// One row a manner. To add one: a value above, a row here, and then what the compiler asks for.
struct MannerRow {
    Manner value;
    Places places;
    bool fades;               // each runs into the next
    std::string_view word;    // in a recipe
    std::string_view label;   // on a control
    std::string_view help;    // what it means, a sentence
    std::string_view phrase;  // "fed ..." on a card; %s is the tool's surface, %a "round" or "along"
};
inline constexpr auto manners = std::to_array<MannerRow>({
    {Manner::layers, Places::none, false, "layers", "in layers",
     "One thin layer over the whole width after another.", "in layers over the full width"},
    {Manner::sandwich, Places::none, false, "sandwich", "as a sandwich",
     "Half of the largest portion first, the rest of it last.",
     "as a sandwich, the largest portion under and over the others"},
    {Manner::stripes_across, Places::across, false, "stripes", "in stripes",
     "Side by side over the width of the drum.", "in stripes side by side across the %s"},
    {Manner::gradient_across, Places::across, true, "gradient-across", "gradient across",
     "Side by side, each running into the next.", "as a gradient across the %s"},
    {Manner::gradient_round, Places::round, true, "gradient-round", "gradient round",
     "One after another round the drum, each running into the next.", "as a gradient %a the %s"},
    {Manner::dabs, Places::patches, false, "dabs", "in dabs",
     "The largest portion all over, the others in patches.", "in dabs over the largest portion"},
    {Manner::alternating, Places::none, false, "alternating", "thin and in turn",
     "A thin layer of each in turn, so many times: the way to a heather.", "in thin layers of each in turn"},
});
inline constexpr int manner_count = static_cast<int>(manners.size());
// `split`: what is done to the batt between passes, with %k where the number of pieces stands; `laid`: how it
// is laid again on a board. There nothing turns, so pieces lie where they are put, one over another. `label`
// also stands after "the batt goes back".
struct RefeedRow {
    Refeed value;
    std::string_view word, label, help;
    int pieces;  // 0: as many as the recipe's strips
    // What lay so across, or along a board, still does; what lay round a drum never.
    bool keeps_across, keeps_along;
    bool turned;  // it goes in side first
    std::string_view split, laid;
};
inline constexpr auto refeeds = std::to_array<RefeedRow>({
    {Refeed::strips, "strips", "strip by strip",
     "Split lengthwise, each strip drafted and spread to the full width.", 0, false, true, false,
     "split the batt lengthwise into %k strips",
     "lift the batt, split it lengthwise into %k strips and lay them one over another, each spread over the "
     "whole board"},
    {Refeed::tear_and_fold, "tear-and-fold", "torn and turned",
     "Torn across, the lengths laid on one another, every other one end for end, and fed as a stack.", 0,
     true, false, false,
     "tear the batt across into %k lengths and lay them on one another, every other one end for end",
     "lift the batt, tear it across into %k lengths and lay them one over another, every other one end for "
     "end, each spread over the whole board"},
    {Refeed::halves, "halves", "half on half", "Split lengthwise in two, one half laid on the other.", 2,
     false, true, false, "split the batt lengthwise into two halves and lay one on the other",
     "lift the batt, split it lengthwise in two and lay one half over the other, each spread over the whole "
     "board"},
    {Refeed::own_places, "own-places", "each in its place",
     "Strips fed end first, each where it lay across the drum: a gradient is kept.", 0, true, true, false,
     "split the batt lengthwise into %k strips and keep them in their order",
     "lift the batt and lay it back as it lay"},
    {Refeed::sideways, "sideways", "sideways",
     "Torn across into pieces a staple long, each turned a quarter: blends fastest.", 0, false, false, true,
     "tear the batt across into pieces about a staple long",
     "lift the batt, tear it across into pieces about a staple long, turn each a quarter and lay them one "
     "over another, each spread over the whole board"},
    {Refeed::on_edge, "on-edge", "on edge",
     "Strips stood on edge side by side, so that layers become stripes.", 0, false, true, false,
     "split the batt lengthwise into %k strips and stand them on edge, side by side",
     "lift the batt, split it lengthwise into %k strips and stand them on edge, side by side"},
    {Refeed::quarter_turn, "quarter-turn", "side first", "The whole batt turned a quarter.", 1, false, false,
     true, "turn the whole batt a quarter, so that it goes in side first",
     "lift the batt and lay it again turned a quarter"},
});
inline constexpr int refeed_count = static_cast<int>(refeeds.size());
static_assert(measure::one_row_each(manners) && measure::one_row_each(refeeds));

// The word in a recipe: one after another round a drum is `gradient-round`, on what lies flat
// `gradient-along`. An unknown word is a complaint with a suggestion.
std::string_view word_for(Manner manner, bool is_flat = false);
inline constexpr std::string_view gradient_along = "gradient-along";
std::string_view word_for(Refeed refeed);
// A label or a help text as it reads on a tool without a drum: `surface` as ToolRow has it, empty on a drum.
std::string told_on(std::string_view text, std::string_view surface);
measure::Expected<Manner> parse_manner(std::string_view text);
measure::Expected<Refeed> parse_refeed(std::string_view text);

}  // namespace battwright::recipe
