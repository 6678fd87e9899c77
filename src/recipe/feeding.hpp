// How fibre is laid on the drum, and how a batt goes back for another pass.
#pragma once

#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::recipe {

// The first pass. `stripes_across`: side by side over the width of the drum. `gradient_across`: the same with
// each running into the next. `gradient_round`: one after another round the drum. `dabs`: the largest portion
// all over, the others in patches.
enum class Manner { layers, sandwich, stripes_across, gradient_across, gradient_round, dabs };
// Every further pass. `strips`: split lengthwise into k, each drafted, spread to the full width and laid on
// the last. `tear_and_fold`: torn across into k lengths, every other one turned end for end. `halves`: split
// lengthwise in two, the halves laid one on the other.
enum class Refeed { strips, tear_and_fold, halves };

// "layers", "sandwich", "stripes", "gradient-across", "gradient-round", "dabs"; "strips", "tear-and-fold",
// "halves". An unknown word is a complaint with a suggestion.
std::string_view word_for(Manner manner);
std::string_view word_for(Refeed refeed);
measure::Expected<Manner> parse_manner(std::string_view text);
measure::Expected<Refeed> parse_refeed(std::string_view text);

}  // namespace battwright::recipe
