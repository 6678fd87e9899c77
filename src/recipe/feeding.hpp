// How fibre is laid on the drum, and how a batt goes back for another pass.
#pragma once

#include <array>
#include <string_view>

#include "measure/choices.hpp"

namespace battwright::recipe {

// The first pass. `stripes_across`: side by side over the width of the drum. `gradient_across`: the same with
// each running into the next. `gradient_round`: one after another round the drum. `dabs`: the largest portion
// all over, the others in patches.
enum class Manner { layers, sandwich, stripes_across, gradient_across, gradient_round, dabs };
// Every further pass. `strips`: split lengthwise into k, each drafted, spread to the full width and laid on
// the last. `tear_and_fold`: torn across into k lengths, every other one turned end for end. `halves`: split
// lengthwise in two, the halves laid one on the other.
enum class Refeed { strips, tear_and_fold, halves };

// One row a manner. To add one: a value above, a row here, and then what the compiler asks for.
struct MannerRow {
    Manner value;
    std::string_view word;    // in a recipe
    std::string_view label;   // on a control
    std::string_view help;    // what it means, a sentence
    std::string_view phrase;  // "fed ..." on a card
};
inline constexpr std::array<MannerRow, 6> manners{{
    {Manner::layers, "layers", "in layers", "One thin layer over the whole width after another.",
     "in layers over the full width"},
    {Manner::sandwich, "sandwich", "as a sandwich", "Half of the largest portion first, the rest of it last.",
     "as a sandwich, the largest portion under and over the others"},
    {Manner::stripes_across, "stripes", "in stripes", "Side by side over the width of the drum.",
     "in stripes side by side across the drum"},
    {Manner::gradient_across, "gradient-across", "fading across", "Side by side, each running into the next.",
     "as a gradient across the drum"},
    {Manner::gradient_round, "gradient-round", "fading round",
     "One after another round the drum, each running into the next.", "as a gradient round the drum"},
    {Manner::dabs, "dabs", "in dabs", "The largest portion all over, the others in patches.",
     "in dabs over the largest portion"},
}};
// `split`: what is done to the batt between passes, with %k where the number of pieces stands.
struct RefeedRow {
    Refeed value;
    std::string_view word, label, help;
    int pieces;  // 0: as many as the recipe's strips
    std::string_view split;
};
inline constexpr std::array<RefeedRow, 3> refeeds{{
    {Refeed::strips, "strips", "strip by strip",
     "Split lengthwise, each strip drafted and spread to the full width.", 0,
     "split the batt lengthwise into %k strips"},
    {Refeed::tear_and_fold, "tear-and-fold", "torn and turned",
     "Torn across, every other length turned end for end before it is fed.", 0,
     "tear the batt across into %k lengths and turn every other one end for end"},
    {Refeed::halves, "halves", "halves on halves", "Split lengthwise in two, one half laid on the other.", 2,
     "split the batt lengthwise into two halves"},
}};
static_assert(measure::one_row_each(manners) && measure::one_row_each(refeeds));

// The word in a recipe. An unknown word is a complaint with a suggestion.
std::string_view word_for(Manner manner);
std::string_view word_for(Refeed refeed);
measure::Expected<Manner> parse_manner(std::string_view text);
measure::Expected<Refeed> parse_refeed(std::string_view text);

}  // namespace battwright::recipe
