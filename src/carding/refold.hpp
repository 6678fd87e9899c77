// Inside this room: one more pass. What lies where after it, as maps from the old batt to the new.
#pragma once

#include <cstdint>
#include <vector>

#include "carding/feed.hpp"
#include "carding/field.hpp"
#include "carding/overlap.hpp"
#include "carding/spread.hpp"

namespace battwright::carding {

// The three lines of a batt. The tray takes fibre in at one speed while the drum turns many times: a piece
// that takes N turns to go in is drawn out N drum lengths long. Hence, for a piece fed end first:
//   - a point at the share t of the piece's length goes in at the time t, and lies at the depth
//     bottom + t (top - bottom): what lay ALONG the feed becomes DEPTH;
//   - what lay through the thickness on the tray goes in at the same time and place: it is AVERAGED;
//   - what lay across the tray lies across the drum, spread over the width it was spread to;
//   - one turn of the drum takes 1 / N of the length, so round the drum nothing varies: N is some tens.
// Each way of feeding back says which of the old lines lies along the feed, which across it, and which
// through its thickness, and where the pieces come to lie:
//   strips        k parts across;  along: round;   across: across;  one after another in depth
//   own places    whole;           along: round;   across: across;  the width kept
//   halves        2 parts across;  along: round;   across: across;  together, one on the other
//   torn, folded  k parts round;   along: round;   across: across;  together, every other one end for end
//   sideways      n parts round;   along: across;  across: round;   one after another, n = round / staple
//   quarter turn  whole;           along: across;  across: round;
//   on edge       k parts across;  along: round;   across: depth;   side by side
// and the third line is what lies through the thickness.
enum class Line { round, across, depth };
struct Part {
    double from = 0.0, to = 1.0;  // shares of the line
    bool turned = false;          // end for end
};

// A piece of the old batt as it is fed again. Its place is a range of the new depth and width; `weight` is
// its part of what is fed to that place at that time.
struct Fed {
    Part round{}, across{}, depth{};
    Line to_depth = Line::round, to_across = Line::across;
    double bottom = 0.0, top = 1.0, left = 0.0, right = 1.0;
    double weight = 1.0;

    const Part& part(Line line) const;
    Line averaged() const;
};
// The pieces in the order they are fed, filling the new batt. `staple_mm` sets how many go sideways.
std::vector<Fed> fed_pieces(Refeed refeed, int strips, double circumference_mm, double staple_mm);

// Fresh portions laid in between: where in the depth of the pieces they come (between two when those go in
// one after another, else when half of them is in), and how thick each is in each column. They come in
// handfuls like everything else; the fibre over and under them is moved aside to fill the hollows.
struct Fresh {
    double cut = 0.5;
    double share = 0.0;  // of the new batt, all of them
    std::vector<std::size_t> portions;
    std::vector<double> thickness;         // portion by portion, one value a column
    std::vector<Tap> moved;                // new columns over even ones
    std::vector<std::vector<Tap>> depths;  // column by column: new depth cells over even ones
};

struct Refold {
    std::vector<Fed> order;
    Already already;  // what remapping has spread, to be taken off the card's own spread
    struct Taps {
        std::vector<Tap> thickness, depths, acrosses;
    };
    std::vector<Taps> taps;  // one for each of `order`
    Fresh fresh;
};
// `fresh_shares`: of the new batt, per portion; empty or 0 for none.
Refold refold_of(const std::vector<Fed>& order, const std::vector<double>& fresh_shares, const Grid& from,
                 const Field& to, std::uint64_t seed, int pass);

// What fresh fibre brings to a block: of a portion, 1 where it is that portion; of the mean square of the
// shares at a point, 1 whatever it is.
inline constexpr std::size_t any_portion = static_cast<std::size_t>(-1);
// One block of the new batt (grid: `to`, one cell round) from its block of the old. Conservative: exact
// averages through the thickness, piecewise linear along the other two; no mass is lost, none negative.
void refold_block(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
                  std::size_t portion, const Refold& refold, std::vector<double>& scratch);

}  // namespace battwright::carding
