#include "recipe/kinds.hpp"

#include "recipe/layout.hpp"

namespace battwright::recipe {
namespace {

// What names a thing of the recipe as it stands is left alone.
void settle_reference(std::string& what, const Recipe& recipe, const fibre::Catalogue& catalogue) {
    if (named(recipe, what)) return;
    const fibre::Kind* kind = catalogue.meant(what);
    if (kind != nullptr && named(recipe, kind->id)) what = kind->id;
}

}  // namespace

void settle_kinds(std::vector<Content>& content, const fibre::Catalogue& catalogue) {
    for (Content& part : content)
        if (const fibre::Kind* kind = catalogue.meant(part.fibre)) part.fibre = kind->id;
}

void settle_kinds(Recipe& recipe, const fibre::Catalogue& catalogue) {
    for (Component& component : recipe.components) settle_kinds(component.content, catalogue);
    if (recipe.spinning.thread) settle_kinds(recipe.spinning.thread->content, catalogue);
    for (Laying& laying : recipe.carding.layings) settle_reference(laying.what, recipe, catalogue);
    for (SmallBlend& blend : recipe.carding.blends)
        for (Laying& laying : blend.layings) settle_reference(laying.what, recipe, catalogue);
    if (!recipe.series) return;
    for (SeriesPart& part : recipe.series->to) settle_reference(part.what, recipe, catalogue);
}

}  // namespace battwright::recipe
