#include "app/bench/shown_colours.hpp"

#include "colour/spaces.hpp"

namespace battwright::app {

Shown shown_colours(const recipe::Component& component, const fibre::Catalogue& catalogue) {
    Shown shown;
    for (const auto& tint : component.palette) {
        shown.colours.push_back(tint.colour);
        shown.shares.push_back(tint.share_pct);
    }
    if (!shown.colours.empty()) return shown;
    for (const auto& content : component.content) {
        const fibre::Kind* kind = catalogue.find(content.fibre);
        if (kind == nullptr || kind->natural_colours.empty()) continue;
        const auto colour = colour::parse_hex(kind->natural_colours.front());
        if (!colour) continue;
        shown.colours.push_back(*colour);
        shown.shares.push_back(content.share_pct);
    }
    if (shown.colours.empty()) return {{colour::Srgb{0.9, 0.88, 0.82}}, {100.0}};
    return shown;
}

}  // namespace battwright::app
