// How fibre goes onto the drum, and how a batt goes back for another pass.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "recipe/composition.hpp"
#include "recipe/feeding.hpp"
#include "recipe/recipe.hpp"

namespace battwright::carding {

inline constexpr double wool_density_g_m3 = 1e6 * fibre::wool_density_g_cm3;
// How high a batt stands that lies so thick.
double loft_mm(double g_m2);

using recipe::Manner;
using recipe::Refeed;
using recipe::ToolKind;

struct Feed {
    Manner manner = Manner::layers;
    Refeed refeed = Refeed::strips;
    int repeats = recipe::usual_repeats;  // of `alternating`
    double overlap = 0.0;                 // of a stripe's width, 0 .. 1
    std::vector<Refeed> refeeds{};        // of pass 2, 3, ...; where there is none, `refeed`
    bool by_hand = false;                 // a list of layings instead of the manner
    bool recombine = false;               // pieces of all the first-pass batts go into each second-pass batt
    ToolKind tool = ToolKind::drum;
    int rolags = 0;  // it is rolled off in; 0: lifted off whole

    Refeed refeed_on(int pass) const;
};
// Whether pieces of all `batts` go into each batt on this pass: on the one after the `first` with anything on
// the drum, when the feed recombines them.
bool shares_out(const Feed& feed, std::size_t batts, int pass, int first);
Feed feed_of(const recipe::Carding& carding);

// What the simulation tells apart: all of one colour within one component.
struct Portion {
    std::size_t component = 0;
    std::vector<std::size_t> strands;  // indices into the strands it was made from, ascending
    double grams = 0.0;                // in the whole making
    int pass = 1;                      // the pass it is first added on, 1 .. passes
    double slipperiness = 0.0;         // mass-weighted, 0 grips .. 1 slides
    double staple_mm = 0.0;            // mass-weighted
    double diameter_um = 0.0;          // mass-weighted
    double tex = 0.0;                  // of one fibre, mean by number
    double lump_grams = 0.0;           // mass of one nep or lock; 0 for plain fibre
    double retention = 1.0;            // mass-weighted share kept
};

// In the order of components, then of first appearance among the strands. `passes` is the recipe's.
std::vector<Portion> portions_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands);

// Mass share of each strand at a place where the portions have the shares `of_portions` (any scale): what a
// picture of that place is drawn with.
std::vector<double> strand_shares(std::span<const Portion> portions, std::span<const recipe::Strand> strands,
                                  std::span<const double> of_portions);

// A stretch of the width or of the way round, as shares of it.
struct Span {
    double from = 0.0, to = 1.0;
    double soft = 0.0;  // standard deviation over which its ends run out
    // How far it is laid over its neighbours, and they over it: there each is half of what lies.
    double over_from = 0.0, over_to = 0.0;
    bool whole() const { return from <= 0.0 && to >= 1.0; }
    bool operator==(const Span&) const = default;
};
// One thing laid on the drum: a portion or part of one. A list of these is all the first pass is made from;
// the manners are short words for such lists. Through the tray fibre has a place across only: the drum turns
// many times while it goes in, so it lies all round. Straight onto the drum it has a place round it too, and
// is hardly carded on this pass.
inline constexpr std::size_t no_blend = static_cast<std::size_t>(-1);
// Which of the recipe's layings a lay is of; none when it is of a manner. It makes no two lays unlike.
inline constexpr std::size_t no_laying = static_cast<std::size_t>(-1);
struct Source {
    std::size_t laying = no_laying;
    bool operator==(const Source&) const { return true; }
};
struct Lay {
    std::size_t portion = 0;
    double grams = 0.0;
    Span across{}, round{};
    bool on_drum = false;
    recipe::Spreading how = recipe::Spreading::even;
    double dab_mm = 0.0;  // in dabs, wisps or handfuls about this wide; 0: all over
    int pass = 1;
    recipe::Lies lies = recipe::Lies::between;  // on a later pass than the first
    std::size_t blend = no_blend;               // the small blend it is of, instead of a portion
    Source source{};

    bool all_over() const { return across.whole() && round.whole(); }
    bool operator==(const Lay&) const = default;
};
// What a feed lays on the first pass, in order.
std::vector<Lay> lays_of(std::span<const Portion> portions, const Feed& feed);
// The order of the first pass without places. Slick fibre laid first is hard to lift off and laid last flies
// off (common practice, no source), so with layers a slick portion at either end moves inwards; with no
// second grippy portion to close with, the grippiest is halved. `sandwich` halves the largest of the grippy
// ones round the rest. Portions of later passes are left out. Grams per portion are kept.
std::vector<Lay> first_lays(std::span<const Portion> portions, Manner manner);

}  // namespace battwright::carding
