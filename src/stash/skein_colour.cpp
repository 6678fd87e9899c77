#include "stash/skein_colour.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "colour/spaces.hpp"
#include "stash/makings.hpp"

namespace battwright::stash {

std::optional<colour::Lab> seen_colour(const Skein& skein) {
    std::vector<std::pair<colour::Lab, double>> colours;
    for (const recipe::Tint& tint : skein.palette)
        colours.emplace_back(colour::lab(tint.colour), tint.share_pct);
    return mixed_colour(colours);
}

std::optional<colour::Lab> foretold_colour(const Skein& skein, std::span<const Batt> batts) {
    std::vector<std::pair<colour::Lab, double>> colours;
    for (const FromBatt& from : skein.from) {
        const auto batt = std::ranges::find(batts, from.batt, &Batt::id);
        if (batt != batts.end() && batt->carding.colour)
            colours.emplace_back(*batt->carding.colour, from.share_pct);
    }
    return mixed_colour(colours);
}

}  // namespace battwright::stash
