// What carding costs: short fibre falls out or stays in the teeth, long fibre breaks, a little on each pass.
#pragma once

#include <span>
#include <vector>

#include "carding/feed.hpp"

namespace battwright::carding {

// Fibre that the licker-in keeps when it comes by the tray: very short, or slick and very fine. Lumps are
// scattered by hand anyway. Common practice, no source.
bool keeps_to_licker_in(const Portion& portion);
// Share of such a portion that one trip past the licker-in keeps; 0 for others.
double licker_in_share(const Portion& portion);

struct Wear {
    double kept_share = 1.0;    // of the mass put in, by short fibre lost and by the licker-in; the carder's
                                // own habit and what drops out of the finished batt are told elsewhere
    double length_share = 1.0;  // mean fibre length, by number, after over before
};
// What of each portion is still there after all passes, 0..1, in the portions' order.
std::vector<double> kept_shares(std::span<const Portion> portions, std::span<const recipe::Strand> strands,
                                int passes, ToolKind tool = ToolKind::drum);

// After so many passes. Each pass loses a part of the fibre under 25 mm. Breakage: a worsted card breaks 31 %
// of a 58/60s wool's fibres (a published study of staple strength in processing); it works the wool about a
// dozen times where a drum does once; a break makes two of one. Longer and finer fibre breaks more. By hand
// there is no licker-in, and both are less (habits: common practice, no source).
Wear wear_of(std::span<const Portion> portions, std::span<const recipe::Strand> strands, int passes,
             ToolKind tool = ToolKind::drum);

}  // namespace battwright::carding
