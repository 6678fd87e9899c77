#include "carding/spots.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/dice.hpp"
#include "carding/refold.hpp"

namespace battwright::carding {
namespace {

constexpr double most_spots = 20000.0;

Dice dice_for(std::uint64_t seed, std::uint64_t purpose, const Spot& spot, int pass) {
    return Dice(seed)
        .with(purpose)
        .with(spot.portion)
        .with(spot.number)
        .with(static_cast<std::uint64_t>(pass));
}

double wrapped(double value, double length) {
    return value - length * std::floor(value / length);
}

double mirrored(double value, double length) {
    const double folded = wrapped(value, 2.0 * length);
    return folded <= length ? folded : 2.0 * length - folded;
}

struct Place {
    double round = 0.0, across = 0.0, depth = 0.0;  // shares
};

double within(double value, const Part& part) {
    const double share = (value - part.from) / (part.to - part.from);
    return std::clamp(part.turned ? 1.0 - share : share, 0.0, 1.0);
}

bool holds(const Part& part, double value) {
    return value >= part.from && (value < part.to || part.to >= 1.0);
}

// Where a point of the old batt comes to lie in the new: at the place its piece gives it across and in depth,
// and anywhere round the drum; on what lies flat at its own place along it.
Place carried(const Place& old, const Refold& refold, double round) {
    const auto on = [&](Line line) {
        if (line == Line::round) return old.round;
        return line == Line::across ? old.across : old.depth;
    };
    for (const Fed& fed : refold.order) {
        if (!holds(fed.round, old.round) || !holds(fed.across, old.across) || !holds(fed.depth, old.depth))
            continue;
        const double depth = within(on(fed.to_depth), fed.part(fed.to_depth));
        const double across = within(on(fed.to_across), fed.part(fed.to_across));
        const double even = fed.bottom + depth * (fed.top - fed.bottom);
        const Fresh& fresh = refold.fresh;
        const double under = fresh.under + (1.0 - fresh.share) * even;
        if (fed.kept) round = within(on(fed.averaged()), fed.part(fed.averaged()));
        return {round, fed.left + across * (fed.right - fed.left),
                even < fresh.cut ? under : under + fresh.between};
    }
    return {round, old.across, old.depth};
}

}  // namespace

std::vector<Spot> placed_spots(std::size_t portion, const Portion& fibre, double grams, const Bed& bed,
                               const Field& shape, std::uint64_t seed, std::uint32_t from) {
    std::vector<Spot> spots;
    if (!(fibre.lump_grams > 0.0)) return spots;
    const double mean = std::min(most_spots, grams / fibre.lump_grams);
    Dice dice = Dice(seed).with(4).with(portion);
    if (bed.number > 0) dice = dice.with(bed.number);
    std::vector<double> reach(bed.thickness.begin(), bed.thickness.end());
    std::partial_sum(reach.begin(), reach.end(), reach.begin());
    // Gaps between the events of a Poisson process are exponential.
    double reached = -std::log(1.0 - dice.with(0).uniform(0));
    for (std::uint32_t n = 0; reached < mean; ++n) {
        const Dice own = dice.with(n + 1);
        double round = own.uniform(1), across = own.uniform(2);
        if (!reach.empty()) {
            // The column by how thick the lay is in it, then anywhere within.
            const double drawn = own.uniform(4) * reach.back();
            const auto at = std::upper_bound(reach.begin(), reach.end() - 1, drawn) - reach.begin();
            const auto column = static_cast<std::size_t>(at);
            round = (static_cast<double>(column % shape.grid.round) + round) /
                    static_cast<double>(shape.grid.round);
            across = (static_cast<double>(column / shape.grid.round) + across) /
                     static_cast<double>(shape.grid.across);
        }
        spots.push_back({portion, from + n, static_cast<float>(round * shape.circumference_mm),
                         static_cast<float>(across * shape.width_mm),
                         static_cast<float>(bed.bottom + (bed.top - bed.bottom) * own.uniform(3))});
        reached -= std::log(1.0 - own.uniform(0));
    }
    return spots;
}

void carry_spots(std::vector<Spot>& spots, const Refold& refold, const Spread& spread, const Field& shape,
                 int pass, std::uint64_t seed) {
    for (Spot& spot : spots) {
        const Dice dice = dice_for(seed, 5, spot, pass);
        const Place place =
            carried({static_cast<double>(spot.round_mm) / shape.circumference_mm,
                     static_cast<double>(spot.across_mm) / shape.width_mm, static_cast<double>(spot.depth)},
                    refold, dice.uniform(8));
        const double along = place.round * shape.circumference_mm + spread.round_mm * dice.normal(0);
        spot.round_mm = static_cast<float>(shape.flat ? mirrored(along, shape.circumference_mm)
                                                      : wrapped(along, shape.circumference_mm));
        spot.across_mm = static_cast<float>(
            mirrored(place.across * shape.width_mm + spread.across_mm * dice.normal(1), shape.width_mm));
        spot.depth = static_cast<float>(mirrored(place.depth + spread.depth_share * dice.normal(2), 1.0));
    }
}

void thin_spots(std::vector<Spot>& spots, std::span<const Portion> portions, int pass, std::uint64_t seed) {
    std::erase_if(spots, [&](const Spot& spot) {
        return dice_for(seed, 6, spot, pass).uniform(0) >= portions[spot.portion].retention;
    });
}

}  // namespace battwright::carding
