#include "solve/lot.hpp"

#include <algorithm>
#include <cmath>

#include "colour/reflectance.hpp"
#include "colour/spaces.hpp"
#include "solve/checking.hpp"

namespace battwright::solve {
namespace {

using measure::Complaint;
using measure::Expected;

bool sound(double value) {
    return std::isfinite(value) && value >= 0.0;
}

// As recipe::strands_of() sees a component: its palette on every kind, or each kind's first natural colour.
std::vector<recipe::Tint> tints_of(const Lot& lot, const fibre::Kind& kind) {
    if (!lot.palette.empty()) return lot.palette;
    recipe::Tint natural;
    if (!kind.natural_colours.empty())
        natural.colour = colour::parse_hex(kind.natural_colours.front()).value_or(colour::Srgb{});
    return {natural};
}

bool drafts(const fibre::Kind& kind) {
    return kind.form == fibre::Form::fibre && kind.family != fibre::Family::inclusion;
}

void add_kind(LotProperties& worked, const Lot& lot, const fibre::Kind& kind, double share) {
    worked.by_kind[kind.id] += share;
    worked.by_family[kind.family] += share;
    worked.by_label[kind.label_eu] += share;
    if (!(share > 0.0) || !drafts(kind)) return;
    const double staple = lot.staple_mm.value_or(kind.staple_mm);
    worked.shortest_mm = worked.longest_mm > 0.0 ? std::min(worked.shortest_mm, staple) : staple;
    worked.longest_mm = std::max(worked.longest_mm, staple);
}

}  // namespace

Expected<void> check_lot(const Lot& lot, const fibre::Catalogue& catalogue) {
    const std::string where = "lot " + measure::quoted(lot.id);
    const auto wrong = [&](std::string what, std::string mend) {
        return tl::make_unexpected(Complaint{std::move(what), std::move(mend), where});
    };
    const bool weights = sound(lot.on_hand_grams) && sound(lot.keep_back_grams) && sound(lot.least_grams) &&
                         sound(lot.most_grams.value_or(0.0));
    if (!weights) return wrong("a weight is negative or not a number", "write weights of 0 g or more");
    if (!sound(lot.cost_per_gram.value_or(0.0)))
        return wrong("the cost is negative or not a number", "write a cost of 0 or more, or none");
    const bool tagged = (!lot.staple_mm || (std::isfinite(*lot.staple_mm) && *lot.staple_mm > 0.0)) &&
                        (!lot.diameter_um || (std::isfinite(*lot.diameter_um) && *lot.diameter_um > 0.0));
    if (!tagged) return wrong("staple or diameter is not above zero", "write what the tag says, or nothing");
    double content_pct = 0.0, tint_pct = 0.0;
    for (const auto& content : lot.content) {
        if (!sound(content.share_pct))
            return wrong("a fibre's share is negative or not a number", "write 0-100");
        if (catalogue.find(content.fibre) == nullptr)
            return wrong("no fibre is called " + measure::quoted(content.fibre),
                         "pick one of the catalogue's");
        content_pct += content.share_pct;
    }
    for (const auto& tint : lot.palette) {
        const bool colour = std::isfinite(tint.colour.r + tint.colour.g + tint.colour.b);
        if (!sound(tint.share_pct) || !colour)
            return wrong("a colour or its share is not a number", "write colours as \"#2f5d50\"");
        tint_pct += tint.share_pct;
    }
    if (!(content_pct > 0.0)) return wrong("there is no fibre in it", "say which fibre it is");
    if (!lot.palette.empty() && !(tint_pct > 0.0))
        return wrong("its colours have no shares", "give a colour a share");
    return {};
}

Lot lot_of(const recipe::Component& component, std::string id, double on_hand_grams) {
    Lot lot;
    lot.id = std::move(id);
    lot.name = component.name;
    lot.content = component.content;
    lot.palette = component.palette;
    lot.on_hand_grams = on_hand_grams;
    if (component.staple) lot.staple_mm = component.staple->millimetres;
    lot.diameter_um = component.diameter_um;
    if (component.price) lot.cost_per_gram = component.price->of_grams(1.0);
    return lot;
}

Expected<LotProperties> work_out(const Lot& lot, const fibre::Catalogue& catalogue,
                                 const colour::OpticsModel& optics) {
    if (auto checked = check_lot(lot, catalogue); !checked) return tl::make_unexpected(checked.error());
    double content_pct = 0.0;
    for (const auto& content : lot.content) content_pct += content.share_pct;
    LotProperties worked;
    std::vector<colour::Portion> portions;
    for (const auto& content : lot.content) {
        const fibre::Kind& kind = *catalogue.find(content.fibre);
        const double share = content.share_pct / content_pct;
        add_kind(worked, lot, kind, share);
        const auto tints = tints_of(lot, kind);
        double tint_pct = 0.0;
        for (const auto& tint : tints) tint_pct += tint.share_pct;
        for (const auto& tint : tints)
            portions.push_back({share * tint.share_pct / tint_pct, colour::reflectance_of(tint.colour)});
    }
    worked.reflectance = colour::blend(portions, optics);
    return worked;
}

}  // namespace battwright::solve
