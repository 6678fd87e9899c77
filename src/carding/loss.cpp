#include "carding/loss.hpp"

#include <algorithm>
#include <cmath>

#include "carding/habits.hpp"
#include "staple/distribution.hpp"

namespace battwright::carding {
namespace {

// What one pass does on each tool, of a drum's breakage and of the shortest fibre.
struct PassCosts {
    double breaks = 1.0, short_lost = habits::short_lost_a_pass;
};
PassCosts costs_on(ToolKind tool) {
    switch (tool) {
        case ToolKind::board:
            return {habits::board_breaks, habits::short_left_on_board};
        case ToolKind::hand_cards:
            return {habits::cards_break, habits::short_left_on_cards};
        case ToolKind::drum:
            break;
    }
    return {};
}

double break_rate(const recipe::Strand& strand, ToolKind tool) {
    const double finer = std::sqrt(habits::broken_um / strand.diameter_um);
    return costs_on(tool).breaks * habits::broken_a_pass * strand.staple_mm / habits::broken_mm * finer;
}

bool is_plain(const recipe::Strand& strand) {
    return strand.kind != nullptr && strand.kind->form == fibre::Form::fibre;
}

int trips_of(const Portion& portion, int passes) {
    return std::max(1, passes - portion.pass + 1);
}

// Of one strand of the portion.
double kept_grams(const Portion& portion, std::span<const recipe::Strand> strand, int passes, ToolKind tool) {
    const double grams = strand.front().grams;
    if (!is_plain(strand.front())) return grams;
    const int trips = trips_of(portion, passes);
    // On its first pass such fibre is laid straight onto the drum, as the plan says; after it the wool round
    // it holds most of it.
    const double licked = tool == ToolKind::drum
                              ? std::pow(1.0 - habits::licker_in_later * licker_in_share(portion), trips - 1)
                              : 1.0;
    const double shorts = staple::summarise_lengths(strand).short_share_pct / 100.0;
    return grams * licked * std::pow(1.0 - costs_on(tool).short_lost * shorts, trips);
}

}  // namespace

bool keeps_to_licker_in(const Portion& portion) {
    return licker_in_share(portion) > 0.0;
}

double licker_in_share(const Portion& portion) {
    if (portion.lump_grams > 0.0 || !(portion.staple_mm > 0.0)) return 0.0;
    if (portion.staple_mm < habits::licker_in_mm)
        return habits::licker_in_keeps_short * (1.0 - portion.staple_mm / habits::licker_in_mm) +
               habits::licker_in_keeps;
    const bool clings =
        portion.slipperiness >= habits::licker_in_slick && portion.diameter_um < habits::licker_in_um;
    return clings ? habits::licker_in_keeps : 0.0;
}

std::vector<double> kept_shares(std::span<const Portion> portions, std::span<const recipe::Strand> strands,
                                int passes, ToolKind tool) {
    std::vector<double> shares;
    for (const Portion& portion : portions) {
        double grams = 0.0, kept = 0.0;
        for (const std::size_t s : portion.strands) {
            grams += strands[s].grams;
            kept += kept_grams(portion, strands.subspan(s, 1), passes, tool);
        }
        shares.push_back(grams > 0.0 ? kept / grams : 1.0);
    }
    return shares;
}

Wear wear_of(std::span<const Portion> portions, std::span<const recipe::Strand> strands, int passes,
             ToolKind tool) {
    Wear wear;
    double grams = 0.0, kept = 0.0, fibres = 0.0, after = 0.0;
    for (const Portion& portion : portions) {
        for (const std::size_t s : portion.strands) {
            const recipe::Strand& strand = strands[s];
            grams += strand.grams;
            kept += kept_grams(portion, strands.subspan(s, 1), passes, tool);
            if (!is_plain(strand)) continue;
            fibres += strand.count_share;
            after += strand.count_share * strand.staple_mm /
                     std::pow(1.0 + break_rate(strand, tool), trips_of(portion, passes));
        }
    }
    double before = 0.0;
    for (const recipe::Strand& strand : strands)
        if (is_plain(strand)) before += strand.count_share * strand.staple_mm;
    if (grams > 0.0) wear.kept_share = kept / grams;
    if (fibres > 0.0 && before > 0.0) wear.length_share = after / before;
    return wear;
}

}  // namespace battwright::carding
