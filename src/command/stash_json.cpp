#include "command/stash_json.hpp"

#include "colour/spaces.hpp"
#include "recipe/thickness.hpp"

namespace battwright::command {

namespace {

Json above_zero(double value) {
    return value > 0.0 ? Json(value) : Json(nullptr);
}

Json foretold_json(const std::optional<stash::Foretold>& foretold) {
    if (!foretold) return nullptr;
    return {{"nominal_length_m", foretold->nominal_length_m},
            {"length_low_m", foretold->low_m},
            {"length_high_m", foretold->high_m},
            {"wanted_wpi", above_zero(foretold->wanted_wpi)},
            {"mass_g", above_zero(foretold->grams)}};
}

}  // namespace

Json palette_json(const std::vector<recipe::Tint>& palette) {
    return list_json(palette, [](const recipe::Tint& tint) {
        return Json{{"srgb", colour::hex(tint.colour)}, {"share_pct", tint.share_pct}};
    });
}

Json money_json(const std::optional<stash::Money>& money) {
    if (!money) return nullptr;
    return {{"amount", money->amount}, {"currency", money->currency}};
}

Json lab_json(const std::optional<colour::Lab>& lab) {
    if (!lab) return nullptr;
    return {lab->l, lab->a, lab->b};
}

Json lot_json(const stash::Shelved& shelved) {
    const stash::Lot& lot = shelved.lot;
    return {{"mark", lot.mark},
            {"name", lot.name},
            {"content", list_json(lot.content,
                                  [](const recipe::Content& part) {
                                      return Json{{"fibre", part.fibre}, {"share_pct", part.share_pct}};
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
            {"staple_mm", lot.staple_mm},
            {"diameter_um", lot.diameter_um},
            {"notes", lot.notes}};
}

Json movement_json(const stash::Movement& movement) {
    return {{"movement", movement.id},
            {"date", movement.date},
            {"reason", stash::word_for(movement.reason)},
            {"mass_g", movement.grams},
            {"cost", money_json(movement.cost)},
            {"batt", movement.batt},
            {"puts_right", movement.of_movement},
            {"note", movement.note}};
}

Json batt_json(const stash::Batt& batt) {
    const stash::Carding& carding = batt.carding;
    return {{"batt", batt.id},
            {"name", carding.name},
            {"date", carding.date},
            {"preparation", recipe::word_for(carding.preparation)},
            {"batts", carding.batts},
            {"lines", list_json(carding.lines,
                                [](const stash::Line& line) {
                                    return Json{{"mark", line.mark}, {"mass_g", line.grams}};
                                })},
            {"fed_g", batt.fed_grams},
            {"retained_share", carding.retained_share},
            {"off_drum_g", batt.off_drum_grams},
            {"taken_back_on", batt.taken_back_on.empty() ? Json(nullptr) : Json(batt.taken_back_on)},
            {"colour_lab", lab_json(carding.colour)},
            {"notes", carding.notes}};
}

Json skein_json(const stash::Skein& skein) {
    return {{"skein", skein.id},
            {"name", skein.name},
            {"date", skein.date},
            {"from", list_json(skein.from,
                               [](const stash::FromBatt& from) {
                                   return Json{{"batt", from.batt}, {"share_pct", from.share_pct}};
                               })},
            {"mass_g", above_zero(skein.grams)},
            {"length_m", above_zero(skein.metres)},
            {"wpi", above_zero(skein.wpi)},
            {"plies", skein.plies > 0 ? Json(skein.plies) : Json(nullptr)},
            {"preparation", recipe::word_for(skein.preparation)},
            {"foretold", foretold_json(skein.foretold)},
            {"counts", skein.counts},
            {"changed_plan", skein.changed_plan},
            {"confirmed", skein.confirmed},
            {"photo", skein.photo},
            {"colours", palette_json(skein.palette)},
            {"note", skein.note},
            {"became", skein.became}};
}

Json allocation_json(const stash::Allocation& allocation) {
    return {{"allocation", allocation.id},
            {"skein", allocation.skein},
            {"project", allocation.project},
            {"length_m", allocation.metres}};
}

Json cost_json(const stash::Cost& cost) {
    return {{"sums", list_json(cost.sums, [](const stash::Money& sum) { return money_json(sum); })},
            {"unpriced_g", cost.unpriced_grams}};
}

Json shortfalls_json(const std::vector<stash::Shortfall>& lines) {
    return list_json(lines, [](const stash::Shortfall& line) {
        return Json{{"mark", line.mark},
                    {"name", line.name},
                    {"wanted_g", line.wanted_grams},
                    {"on_hand_g", line.on_hand_grams}};
    });
}

}  // namespace battwright::command
