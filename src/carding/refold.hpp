// Inside this room: one more pass. What lies where after it, as maps from the old batt to the new.
#pragma once

#include <cstdint>
#include <vector>

#include "carding/feed.hpp"
#include "carding/field.hpp"
#include "carding/layings.hpp"
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
//
// On a board nothing turns and nothing is drawn out: a piece is spread where it is put, and its own layers
// stay layers. The third line is not averaged but KEPT: it becomes the line along the new batt.
//   strips, halves  k parts across;  depth: depth;   across: across;  along: along;   one over another
//   torn, folded    k parts along;   depth: depth;   across: across;  along: along, every other turned
//   own places      whole;           depth: depth;   across: across;  along: along
//   sideways        n parts along;   depth: depth;   across: along;   along: across;  one over another
//   quarter turn    whole;           depth: depth;   across: along;   along: across
//   on edge         k parts across;  depth: across;  across: depth;   along: along;   side by side
// So k strips one over another are k times as many layers, each a k-th as thick: the baker's map. Hand cards
// keep every line; their own transfer turns the depth over (see flat.hpp).
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
    bool kept = false;  // the third line: on what lies flat

    const Part& part(Line line) const;
    Line averaged() const;
};
// The pieces in the order they are fed, filling the new batt. `staple_mm` sets how many go sideways.
std::vector<Fed> fed_pieces(Refeed refeed, int strips, double circumference_mm, double staple_mm);
// The same on a board of that length, as they are laid one over another.
std::vector<Fed> laid_pieces(Refeed refeed, int strips, double length_mm, double staple_mm);

// What is laid on a later pass: under the pieces, between them (between two when those go in one after
// another, else when half of them is in) or over them, and how thick each is in each column. What has no
// place of its own comes in handfuls like everything else; the fibre over and under it is moved aside to fill
// the hollows.
struct Fresh {
    struct Layer {
        Content content;
        std::size_t lay = 0;  // index among the lays it was made from
        recipe::Lies lies = recipe::Lies::between;
    };
    double cut = 0.5;    // of the pieces' depth: how much of them lies under what is laid between
    double share = 0.0;  // of the new batt, all of them
    double under = 0.0, between = 0.0;
    Placing placing;                       // of the new batt
    std::size_t round = 1;                 // cells round the drum
    std::vector<Layer> layers;             // from the drum outwards
    std::vector<double> thickness;         // layer by layer, one value a column
    std::vector<Tap> moved;                // new columns over even ones, across
    std::vector<std::vector<Tap>> depths;  // column by column: new depth cells over even ones
};
// A lay of a later pass, with what it is made of and its share of the new batt.
struct FreshLay {
    Lay lay;
    Content content;
    double share = 0.0;
    std::size_t number = 0;  // index among all the lays
};

struct Refold {
    std::vector<Fed> order;
    Already already;  // what remapping has spread, to be taken off the card's own spread
    struct Taps {
        std::vector<Tap> thickness, depths, acrosses;  // `thickness`: along, where the third line is kept
    };
    std::vector<Taps> taps;  // one for each of `order`
    Fresh fresh;

    bool keeps_all() const { return !order.empty() && order.front().kept; }
};
Refold refold_of(const std::vector<Fed>& order, const std::vector<FreshLay>& fresh, const Grid& from,
                 const Field& to, std::uint64_t seed, int pass);

// What a block holds: a portion's shares, or the mean square of the shares at a point, plain or by the mass
// of the tufts.
inline constexpr std::size_t second_moment = static_cast<std::size_t>(-1);
inline constexpr std::size_t clumped_moment = second_moment - 1;
// What one part of a lay's fibre is worth in such a block.
double worth_of(const Content& content, std::size_t what);
// Adds to one block of the new batt (one cell round; of what lies flat as many as it has) what these pieces
// of an old one bring. Conservative: exact averages through the thickness, piecewise linear along the other
// two; no mass is lost, none negative.
void fold_pieces(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
                 const Refold& refold, std::vector<double>& scratch);
// The same where every line is kept: line by line, first along, then across, then in depth.
void fold_flat(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
               const Refold& refold, std::vector<double>& scratch);
// How many cells a line has, and how far apart they are in a block.
struct Strides {
    std::size_t cells, step;
};
Strides strides_of(Line line, const Grid& grid);
// Lays the fresh fibre into a block of the pieces alone (`pieces`, one cell round or as many as the grid).
void lay_fresh(std::span<const double> pieces, std::span<double> block, const Grid& grid, std::size_t what,
               const Fresh& fresh);
// One block of the new batt from its block of the old.
void refold_block(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
                  std::size_t what, const Refold& refold, std::vector<double>& scratch);

}  // namespace battwright::carding
