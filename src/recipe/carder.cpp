#include "recipe/carder.hpp"

#include <algorithm>

#include "recipe/recipe.hpp"

namespace battwright::recipe {

const std::vector<Carder>& carder_presets() {
    // Sizes and clothing are common practice, no source; drum and belt sizes vary from maker to maker. Loads:
    // a small drum takes 21-28 g with comfort and 43 g packed, 10 mm teeth 28-57 g, a full hand-turned drum
    // 78 g (reports of makers and a guild's page).
    static const std::vector<Carder> presets{
        {"table-small", "Small table drum", 440.0, 100.0, 72.0, 21.0, 43.0, usual_licker_in_ratio},
        {"table-standard", "Standard 200 mm drum", 560.0, 200.0, 72.0, 28.0, 80.0, usual_licker_in_ratio},
        {"table-wide", "Wide drum", 600.0, 300.0, 72.0, 80.0, 150.0, usual_licker_in_ratio},
        {"fine-cloth", "200 mm drum, fine cloth", 560.0, 200.0, 128.0, 28.0, 60.0, 6.0},
    };
    return presets;
}

const Carder* find_carder(std::string_view id) {
    for (const Carder& carder : carder_presets()) {
        if (carder.id == id) return &carder;
    }
    return nullptr;
}

bool lays_apart(const Carding& carding) {
    if (!carding.layings.empty())
        return std::any_of(carding.layings.begin(), carding.layings.end(), [](const Laying& laying) {
            return laying.how != Spreading::even || !laying.across.is_whole() || !laying.round.is_whole();
        });
    return carding.feed == Manner::stripes_across || carding.feed == Manner::gradient_across ||
           carding.feed == Manner::gradient_round || carding.feed == Manner::dabs;
}

Refeed refeed_for(const Carding& carding, int pass) {
    const auto at = static_cast<std::size_t>(std::max(0, pass - 2));
    return at < carding.refeeds.size() ? carding.refeeds[at] : carding.refeed;
}

Carder carder_of(const Carding& carding) {
    if (carding.own) return *carding.own;
    const Carder* const preset = find_carder(carding.carder);
    return preset != nullptr ? *preset : carder_presets().front();
}

}  // namespace battwright::recipe
