// From the batt to the wheel: the order in which its colours reach the hands.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <vector>

#include "carding/field.hpp"
#include "measure/choices.hpp"

namespace battwright::carding {

// `long_strip`: drawn off in one piece, round and round the drum from the left edge to the right.
// `torn_lengthwise`: in strips along the drum, each as wide as the next, spun in order: a gradient across is
// kept. `torn_across`: in pieces across the drum, each spun from edge to edge: the colours come mixed.
enum class Pull { long_strip, torn_lengthwise, torn_across };
inline constexpr std::array<measure::Word<Pull>, 3> pulls{{{Pull::long_strip, "long strip"},
                                                           {Pull::torn_lengthwise, "torn lengthwise"},
                                                           {Pull::torn_across, "torn across"}}};
static_assert(measure::one_row_each(pulls));
std::string_view word_for(Pull pull);

// Compositions along the strip in the order they are spun: mean shares of the strip's section, every step.
struct Sequence {
    double step_mm = 0.0;  // of strip; the yarn is longer by the draft
    std::size_t portions = 0;
    std::vector<double> shares;  // step by step, one value a portion

    std::size_t steps() const { return portions == 0 ? 0 : shares.size() / portions; }
    std::span<const double> at(std::size_t step) const {
        return std::span(shares).subspan(step * portions, portions);
    }
};
// `strips`: how many strips, pieces or turns the batt gives (at least 1). Steps are `step_mm` or a little
// less, so that each strip has a whole number. Torn either way, all of the
// batt is in the sequence once; a long strip leans across and leaves a corner at each end out of account.
Sequence sequence_of(const Field& field, Pull pull, int strips, double step_mm);

}  // namespace battwright::carding
