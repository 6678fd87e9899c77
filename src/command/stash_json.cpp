#include "command/stash_json.hpp"

#include "colour/spaces.hpp"
#include "recipe/thickness.hpp"

namespace battwright::command {

using nlohmann::ordered_json;

namespace {

template <class T>
ordered_json or_null(const std::optional<T>& value) {
    return value ? ordered_json(*value) : ordered_json(nullptr);
}
ordered_json above_zero(double value) {
    return value > 0.0 ? ordered_json(value) : ordered_json(nullptr);
}

ordered_json foretold_json(const std::optional<stash::Foretold>& foretold) {
    if (!foretold) return nullptr;
    return {{"nominal_length_m", foretold->nominal_length_m},
            {"length_low_m", foretold->low_m},
            {"length_high_m", foretold->high_m},
            {"mass_g", above_zero(foretold->grams)}};
}

}  // namespace

std::string printed(const ordered_json& json) {
    return json.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

ordered_json palette_json(const std::vector<recipe::Tint>& palette) {
    return list_json(palette, [](const recipe::Tint& tint) {
        return ordered_json{{"srgb", colour::hex(tint.colour)}, {"share_pct", tint.share_pct}};
    });
}

ordered_json money_json(const std::optional<stash::Money>& money) {
    if (!money) return nullptr;
    return {{"amount", money->amount}, {"currency", money->currency}};
}

ordered_json lab_json(const std::optional<colour::Lab>& lab) {
    if (!lab) return nullptr;
    return {lab->l, lab->a, lab->b};
}

ordered_json lot_json(const stash::Shelved& shelved) {
    const stash::Lot& lot = shelved.lot;
    return {
        {"mark", lot.mark},
        {"name", lot.name},
        {"content", list_json(lot.content,
                              [](const recipe::Content& part) {
                                  return ordered_json{{"fibre", part.fibre}, {"share_pct", part.share_pct}};
                              })},
        {"colours", palette_json(lot.palette)},
        {"colour_lab", lab_json(shelved.colour)},
        {"form", stash::word_for(lot.form)},
        {"mass_g", shelved.grams},
        {"clean_mass_g", shelved.clean_grams()},
        {"scrap", stash::is_scrap(shelved)},
        {"raw", lot.raw},
        {"yield_pct", lot.yield_pct},
        {"cost", money_json(lot.cost)},
        {"maker", lot.maker},
        {"date", lot.got_on},
        {"place", lot.place},
        {"photo", lot.photo},
        {"staple_mm", or_null(lot.staple_mm)},
        {"diameter_um", or_null(lot.diameter_um)},
        {"notes", lot.notes}};
}

ordered_json movement_json(const stash::Movement& movement) {
    return {{"movement", movement.id},
            {"date", movement.date},
            {"reason", stash::word_for(movement.reason)},
            {"mass_g", movement.grams},
            {"cost", money_json(movement.cost)},
            {"batt", or_null(movement.batt)},
            {"puts_right", or_null(movement.of_movement)},
            {"note", movement.note}};
}

ordered_json batt_json(const stash::Batt& batt) {
    const stash::Carding& carding = batt.carding;
    return {{"batt", batt.id},
            {"name", carding.name},
            {"date", carding.date},
            {"preparation", recipe::word_for(carding.preparation)},
            {"batts", carding.batts},
            {"lines", list_json(carding.lines,
                                [](const stash::Line& line) {
                                    return ordered_json{{"mark", line.mark}, {"mass_g", line.grams}};
                                })},
            {"fed_g", batt.fed_grams},
            {"retained_share", carding.retained_share},
            {"off_drum_g", or_null(batt.off_drum_grams)},
            {"taken_back_on",
             batt.taken_back_on.empty() ? ordered_json(nullptr) : ordered_json(batt.taken_back_on)},
            {"colour_lab", lab_json(carding.colour)},
            {"notes", carding.notes}};
}

ordered_json skein_json(const stash::Skein& skein) {
    return {{"skein", skein.id},
            {"name", skein.name},
            {"date", skein.date},
            {"from", list_json(skein.from,
                               [](const stash::FromBatt& from) {
                                   return ordered_json{{"batt", from.batt}, {"share_pct", from.share_pct}};
                               })},
            {"mass_g", above_zero(skein.grams)},
            {"length_m", above_zero(skein.metres)},
            {"wpi", above_zero(skein.wpi)},
            {"plies", skein.plies > 0 ? ordered_json(skein.plies) : ordered_json(nullptr)},
            {"preparation", recipe::word_for(skein.preparation)},
            {"foretold", foretold_json(skein.foretold)},
            {"counts", skein.counts},
            {"photo", skein.photo},
            {"note", skein.note},
            {"became", skein.became}};
}

ordered_json allocation_json(const stash::Allocation& allocation) {
    return {{"allocation", allocation.id},
            {"skein", allocation.skein},
            {"project", allocation.project},
            {"length_m", allocation.metres}};
}

ordered_json cost_json(const stash::Cost& cost) {
    return {{"sums", list_json(cost.sums, [](const stash::Money& sum) { return money_json(sum); })},
            {"unpriced_g", cost.unpriced_grams}};
}

ordered_json shortfalls_json(const std::vector<stash::Shortfall>& lines) {
    return list_json(lines, [](const stash::Shortfall& line) {
        return ordered_json{{"mark", line.mark},
                            {"name", line.name},
                            {"wanted_g", line.wanted_grams},
                            {"on_hand_g", line.on_hand_grams}};
    });
}

}  // namespace battwright::command
