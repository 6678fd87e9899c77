#include "stash/more_yarn.hpp"

#include <algorithm>

namespace battwright::stash {
namespace {

double yarn_of_batt(const Skein& skein, std::int64_t batt) {
    double grams = 0.0;
    for (const FromBatt& part : skein.from)
        if (part.batt == batt) grams += 0.01 * part.share_pct * skein.grams;
    return grams;
}

}  // namespace

std::optional<MoreYarn> more_yarn_than_fibre(const Skein& skein, std::span<const Batt> batts,
                                             std::span<const Skein> skeins) {
    if (!(skein.grams > 0.0)) return {};
    for (const FromBatt& part : skein.from) {
        const auto batt = std::ranges::find(batts, part.batt, &Batt::id);
        if (batt == batts.end()) continue;
        double grams = yarn_of_batt(skein, part.batt);
        for (const Skein& other : skeins)
            if (other.id != skein.id) grams += yarn_of_batt(other, part.batt);
        const double fibre = batt->off_drum_grams.value_or(batt->fed_grams);
        if (fibre > 0.0 && grams > fibre * (1.0 + heavier_by_damp))
            return MoreYarn{batt->id, batt->carding.name, grams, fibre};
    }
    return {};
}

}  // namespace battwright::stash
