#include "recipe/tints.hpp"

#include <algorithm>
#include <cmath>

#include "colour/spaces.hpp"
#include "measure/units.hpp"

namespace battwright::recipe {

std::vector<Tint> closed(std::vector<Tint> palette) {
    double all = 0.0;
    for (const auto& tint : palette) all += tint.share_pct;
    std::vector<double> shares;
    shares.reserve(palette.size());
    for (const auto& tint : palette)
        shares.push_back(all > 0.0 ? 100.0 * tint.share_pct / all
                                   : 100.0 / static_cast<double>(palette.size()));
    if (!shares.empty()) shares = measure::round_to_step(shares, 0.1);
    for (std::size_t i = 0; i < palette.size(); ++i) {
        palette[i].share_pct = std::round(shares[i] * 10.0) / 10.0;
        palette[i].colour =
            colour::Srgb{std::clamp(palette[i].colour.r, 0.0, 1.0), std::clamp(palette[i].colour.g, 0.0, 1.0),
                         std::clamp(palette[i].colour.b, 0.0, 1.0)};
    }
    return palette;
}

std::vector<Tint> tints_of(const colour::Palette& palette) {
    std::vector<Tint> tints;
    for (const colour::Shade& shade : palette.shades) {
        const colour::Srgb whole = colour::parse_hex(colour::hex(shade.colour)).value();
        const auto known =
            std::find_if(tints.begin(), tints.end(), [&](const Tint& tint) { return tint.colour == whole; });
        if (known == tints.end())
            tints.push_back({whole, shade.share_pct});
        else
            known->share_pct += shade.share_pct;
    }
    std::stable_sort(tints.begin(), tints.end(),
                     [](const Tint& a, const Tint& b) { return a.share_pct > b.share_pct; });
    return closed(std::move(tints));
}

std::vector<Tint> even_palette(const std::vector<colour::Srgb>& colours) {
    std::vector<Tint> palette;
    for (const colour::Srgb& colour : colours) palette.push_back({colour, 1.0});
    return palette.empty() ? palette : closed(std::move(palette));
}

}  // namespace battwright::recipe
