#include "recipe/lots.hpp"

#include <set>
#include <string>

namespace battwright::recipe {
namespace {

std::set<std::string> kinds_in(const std::vector<Content>& content) {
    std::set<std::string> kinds;
    for (const Content& part : content) kinds.insert(part.fibre);
    return kinds;
}

void take_from(const Component& lot, Component& component) {
    if (component.content.empty()) {
        component.content = lot.content;
        if (component.name.empty()) component.name = lot.name;
    }
    if (kinds_in(component.content) != kinds_in(lot.content)) return;
    if (component.palette.empty()) {
        component.palette = lot.palette;
        if (!component.colour_from) component.colour_from = lot.colour_from;
    }
    if (!component.staple) component.staple = lot.staple;
    if (!component.diameter_um) component.diameter_um = lot.diameter_um;
}

}  // namespace

void settle_lots(Recipe& recipe, const LotOf& lot_of) {
    if (!lot_of) return;
    for (Component& component : recipe.components) {
        if (component.lot.empty()) continue;
        if (const auto lot = lot_of(component.lot)) take_from(*lot, component);
    }
}

}  // namespace battwright::recipe
