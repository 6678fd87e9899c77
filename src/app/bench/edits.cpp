#include "app/bench/edits.hpp"

#include <algorithm>

#include "recipe/tints.hpp"

namespace battwright::app {

Sheet toggle_lock(Sheet sheet, std::size_t index) {
    bool& locked = sheet.recipe.components[index].locked;
    locked = !locked;
    return sheet;
}

Sheet reorder(Sheet sheet, std::size_t index, std::size_t to) {
    const auto rotate = [index, to](auto& list) {
        const auto begin = list.begin();
        const auto from = static_cast<std::ptrdiff_t>(index);
        const auto target = static_cast<std::ptrdiff_t>(std::min(to, list.size() - 1));
        if (from < target)
            std::rotate(begin + from, begin + from + 1, begin + target + 1);
        else
            std::rotate(begin + target, begin + from, begin + from + 1);
    };
    rotate(sheet.recipe.components);
    rotate(sheet.marks);
    return sheet;
}

Sheet set_palette(Sheet sheet, std::size_t index, std::vector<recipe::Tint> palette) {
    sheet.recipe.components[index].palette = recipe::closed(std::move(palette));
    return sheet;
}

namespace {

Sheet written(Sheet sheet) {
    sheet.recipe.carding_written = true;
    return sheet;
}

}  // namespace

Sheet set_passes(Sheet sheet, int passes) {
    sheet.recipe.carding.passes = std::clamp(passes, 1, 6);
    return written(std::move(sheet));
}

Sheet set_strips(Sheet sheet, int strips) {
    sheet.recipe.carding.strips = std::clamp(strips, 1, most_strips);
    return written(std::move(sheet));
}

Sheet set_rolags(Sheet sheet, int rolags) {
    sheet.recipe.carding.rolags = std::clamp(rolags, 0, most_strips);
    return written(std::move(sheet));
}

Sheet set_feed(Sheet sheet, recipe::Manner manner) {
    sheet.recipe.carding.feed = manner;
    sheet.recipe.carding.layings.clear();
    sheet.recipe.carding.blends.clear();
    return written(std::move(sheet));
}

Sheet set_refeed(Sheet sheet, recipe::Refeed refeed) {
    sheet.recipe.carding.refeed = refeed;
    sheet.recipe.carding.refeeds.clear();
    return written(std::move(sheet));
}

Sheet set_carder(Sheet sheet, const recipe::Carder& preset) {
    sheet.recipe.carding = recipe::on_carder(std::move(sheet.recipe.carding), preset);
    return written(std::move(sheet));
}

}  // namespace battwright::app
