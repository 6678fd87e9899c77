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
        {"table-standard", "Standard drum", 560.0, 200.0, 72.0, 28.0, 80.0, usual_licker_in_ratio},
        {"table-wide", "Wide drum", 600.0, 300.0, 72.0, 80.0, 150.0, usual_licker_in_ratio},
        {"fine-cloth", "Drum with fine cloth", 560.0, 200.0, 128.0, 28.0, 60.0, 6.0},
        // A board's cloth is about 300 mm square and takes 7 to 14 g for a few light rolags (a spinner's
        // page), three times that packed; a card's is about as wide as the hand is long and half as deep.
        {"blending-board", "Blending board", 300.0, 300.0, 72.0, 10.0, 40.0, usual_licker_in_ratio,
         ToolKind::board},
        {"hand-cards", "Pair of hand cards", 110.0, 215.0, 72.0, 3.0, 8.0, usual_licker_in_ratio,
         ToolKind::hand_cards},
    };
    return presets;
}

const ToolRow& words_of(const Carder& carder) {
    return measure::row_of(tool_rows, carder.kind);
}

bool is_flat(const Carder& carder) {
    return carder.kind != ToolKind::drum;
}

const Carder* find_carder(std::string_view id) {
    for (const Carder& carder : carder_presets()) {
        if (carder.id == id) return &carder;
    }
    return nullptr;
}

bool is_fed_so(Manner manner, const Carder& carder) {
    return carder.kind != ToolKind::hand_cards || measure::row_of(manners, manner).places != Places::round;
}

bool lays_apart(const Carding& carding) {
    if (!carding.layings.empty())
        return std::any_of(carding.layings.begin(), carding.layings.end(), [](const Laying& laying) {
            return laying.how != Spreading::even || !laying.across.is_whole() || !laying.round.is_whole();
        });
    return measure::row_of(manners, carding.feed).places != Places::none;
}

Refeed refeed_for(const Carding& carding, int pass) {
    const auto at = static_cast<std::size_t>(std::max(0, pass - 2));
    return at < carding.refeeds.size() ? carding.refeeds[at] : carding.refeed;
}

int pieces_spun(const Carding& carding) {
    switch (carder_of(carding).kind) {
        case ToolKind::board:
            if (carding.rolags > 0) return carding.rolags;
            break;
        case ToolKind::hand_cards:
            return 1;
        case ToolKind::drum:
            break;
    }
    return std::max(1, carding.strips);
}

bool makes_rolags(const Carding& carding) {
    const ToolKind kind = carder_of(carding).kind;
    return kind == ToolKind::hand_cards || (kind == ToolKind::board && carding.rolags > 0);
}

Preparation preparation_of(const Recipe& recipe) {
    return makes_rolags(recipe.carding) ? Preparation::woollen : recipe.spinning.preparation;
}

Carding on_carder(Carding carding, const Carder& carder, bool is_preset) {
    carding.carder = is_preset ? carder.id : std::string();
    carding.own.reset();
    if (!is_preset) carding.own = carder;
    const bool flat = is_flat(carder), cards = carder.kind == ToolKind::hand_cards;
    const auto fit = [&](std::vector<Laying>& layings) {
        for (Laying& laying : layings) {
            if (flat) laying.way.reset();
            if (cards) laying.round = {};
        }
    };
    fit(carding.layings);
    for (SmallBlend& blend : carding.blends) {
        fit(blend.layings);
        if (cards) blend.refeeds = SmallBlend{}.refeeds;
    }
    const Carding usual;
    if (carder.kind != ToolKind::board) carding.rolags = usual.rolags;
    if (!cards) return carding;
    carding.strips = usual.strips;
    if (!is_fed_so(carding.feed, carder)) carding.feed = Manner::gradient_across;
    carding.refeed = usual.refeed;
    carding.refeeds.clear();
    carding.recombine = false;
    return carding;
}

Carder carder_of(const Carding& carding) {
    if (carding.own) return *carding.own;
    const Carder* const preset = find_carder(carding.carder);
    return preset != nullptr ? *preset : carder_presets().front();
}

}  // namespace battwright::recipe
