#include "app/lay/brush.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "measure/unit_tables.hpp"
#include "recipe/layout.hpp"

namespace battwright::app {
namespace {

// What the pointer keeps to without borders is one part of so many of the unit.
double parts_of_unit(measure::LengthUnit unit) {
    return measure::row_of(measure::length_units, unit).parts;
}
double finest_mm(measure::LengthUnit unit) {
    return measure::millimetres_from(1.0 / parts_of_unit(unit), unit);
}
double key_step_mm(measure::LengthUnit unit) {
    return measure::millimetres_from(measure::row_of(measure::length_units, unit).key_step, unit);
}

// Equal parts of the whole that a snap has borders between.
int parts_of(Snap snap) {
    return snap == Snap::quarters ? 4 : 3;
}

double border_pct(int border, int parts) {
    return border == parts ? 100.0 : border * (100.0 / parts);
}

recipe::Stretch snapped(double from, double to, int parts) {
    int low = static_cast<int>(std::lround(from * parts)), high = static_cast<int>(std::lround(to * parts));
    if (low == high) {
        low = static_cast<int>(std::floor(0.5 * (from + to) * parts));
        high = low + 1;
    }
    return {border_pct(low, parts), border_pct(high, parts), {}};
}

// In steps of its unit, by the same product that reading it makes.
double to_step(double mm, double whole_mm, measure::LengthUnit unit) {
    if (std::abs(mm - whole_mm) < 0.5 * finest_mm(unit)) return whole_mm;
    return measure::millimetres_from(std::round(mm / finest_mm(unit)) / parts_of_unit(unit), unit);
}

struct Ends {
    double from, to;
};
Ends shifted(Ends ends, double by, double whole) {
    const double long_mm = ends.to - ends.from;
    const double from = std::clamp(ends.from + by, 0.0, std::max(0.0, whole - long_mm));
    return {from, from + long_mm};
}
Ends longer(Ends ends, double by, double least, double whole) {
    const double long_mm = std::clamp(ends.to - ends.from + by, least, whole);
    return shifted({ends.from, ends.from + long_mm}, 0.0, whole);
}

double step_of(const Brush& brush, double whole_mm) {
    return brush.snap == Snap::none ? key_step_mm(brush.length_unit) : whole_mm / parts_of(brush.snap);
}

// By either way in which the ends change.
template <class Change>
Brush changed(const Brush& brush, const Surface& surface, int across, int along, Change change) {
    Region region = region_of(brush, surface);
    const Ends wide = change({region.across_from, region.across_to},
                             across * step_of(brush, surface.across_mm), surface.across_mm);
    const Ends far = change({region.along_from, region.along_to}, along * step_of(brush, surface.along_mm),
                            surface.along_mm);
    return placed(brush, {wide.from, wide.to, far.from, far.to}, surface);
}

// What the layings of the batt that are "the rest" hold of one thing, per colour.
std::vector<double> rest_of(const recipe::Recipe& recipe, const recipe::LooseLayout& loose,
                            const recipe::Named& what, std::size_t colours) {
    std::vector<double> rest(colours, 0.0);
    for (std::size_t i = 0; i < recipe.carding.layings.size(); ++i) {
        const recipe::Laid& laid = loose.layout.lays[i];
        if (laid.what != what || !std::holds_alternative<recipe::Rest>(recipe.carding.layings[i].amount))
            continue;
        for (std::size_t t = 0; t < std::min(colours, laid.grams.size()); ++t) rest[t] += laid.grams[t];
    }
    return rest;
}

void add_tiles(const recipe::Recipe& recipe, const recipe::LooseLayout& loose, std::size_t component,
               double grams, std::vector<Tile>& tiles) {
    const auto& palette = recipe.components[component].palette;
    const std::string what = recipe::reference_to(recipe, component);
    const std::size_t colours = std::max<std::size_t>(1, palette.size());
    const auto rest = rest_of(recipe, loose, {false, component}, colours);
    double all = 0.0;
    for (const recipe::Tint& tint : palette) all += tint.share_pct;
    Tile whole{what, {}, component, false, grams, grams};
    std::vector<Tile> of_colours;
    for (std::size_t t = 0; t < colours; ++t) {
        const double share = palette.empty() ? 1.0 : palette[t].share_pct / all;
        // As much as the scarcest of its colours bears.
        whole.left = std::min(whole.left, rest[t] / share);
        if (palette.size() > 1)
            of_colours.push_back({what, palette[t].colour, component, false, grams * share, rest[t]});
    }
    tiles.push_back(whole);
    tiles.insert(tiles.end(), of_colours.begin(), of_colours.end());
}

// What each small blend holds of each component, through the blends it is made of.
std::vector<std::vector<double>> parts_of_blends(const recipe::Recipe& recipe, const recipe::Layout& layout) {
    std::vector<std::vector<double>> parts(layout.blends.size(),
                                           std::vector<double>(recipe.components.size(), 0.0));
    for (const std::size_t b : layout.order)
        for (const recipe::Laid& laid : layout.blends[b]) {
            if (!laid.what.is_blend) {
                parts[b][laid.what.index] += laid.total();
                continue;
            }
            const auto& inner = parts[laid.what.index];
            const double whole = std::accumulate(inner.begin(), inner.end(), 0.0);
            for (std::size_t c = 0; c < inner.size() && whole > 0.0; ++c)
                parts[b][c] += laid.total() * inner[c] / whole;
        }
    return parts;
}

}  // namespace

Surface surface_of(const recipe::Recipe& recipe) {
    const recipe::Carder carder = recipe::carder_of(recipe.carding);
    Surface surface;
    surface.across_mm = carder.width_mm;
    surface.along_mm = carder.drum_circumference_mm;
    const recipe::ToolRow& words = recipe::words_of(carder);
    surface.name = words.surface;
    surface.along = words.along;
    surface.pass = words.pass;
    if (!recipe::is_flat(carder)) return surface;
    surface.turns = surface.has_tray = false;
    surface.places_along = carder.kind != recipe::ToolKind::hand_cards;
    surface.length = "long";
    surface.begins = "near end";
    surface.ends = "far end";
    return surface;
}

Region region_of(const recipe::Stretch& across, const recipe::Stretch& round, recipe::Way way,
                 const Surface& surface) {
    const auto [left, right] = across.shares_of(surface.across_mm);
    Region region{left * surface.across_mm, right * surface.across_mm, 0.0, surface.along_mm};
    if (!surface.places_along || (way == recipe::Way::tray && surface.has_tray)) return region;
    const auto [from, to] = round.shares_of(surface.along_mm);
    region.along_from = from * surface.along_mm;
    region.along_to = to * surface.along_mm;
    return region;
}

Region region_of(const Brush& brush, const Surface& surface) {
    return region_of(brush.across, brush.round, brush.way, surface);
}

recipe::Stretch stretch_of(double from_mm, double to_mm, double whole_mm, Snap snap,
                           measure::LengthUnit unit) {
    if (snap != Snap::none) return snapped(from_mm / whole_mm, to_mm / whole_mm, parts_of(snap));
    double from = to_step(from_mm, whole_mm, unit), to = to_step(to_mm, whole_mm, unit);
    if (from >= to) {
        from = to_step(std::min(from, whole_mm - 2.0 * finest_mm(unit)), whole_mm, unit);
        to = to_step(from + finest_mm(unit), whole_mm, unit);
    }
    if (from == 0.0 && to == whole_mm) return {};
    return {from, to, unit};
}

Brush placed(Brush brush, const Region& region, const Surface& surface) {
    brush.across =
        stretch_of(region.across_from, region.across_to, surface.across_mm, brush.snap, brush.length_unit);
    if (!surface.places_along)
        brush.round = {};
    else if (brush.way == recipe::Way::drum || !surface.has_tray)
        brush.round =
            stretch_of(region.along_from, region.along_to, surface.along_mm, brush.snap, brush.length_unit);
    return brush;
}

double dab_mm(const Brush& brush) {
    if (brush.size) return brush.size->millimetres;
    const double usual = measure::row_of(recipe::spreadings, brush.how).wide_mm;
    return usual > 0.0 ? usual : measure::row_of(recipe::spreadings, recipe::Spreading::dabs).wide_mm;
}

Brush moved(const Brush& brush, int across, int along, const Surface& surface) {
    return changed(brush, surface, across, along, shifted);
}

Brush grown(const Brush& brush, int across, int along, const Surface& surface) {
    const double least = finest_mm(brush.length_unit);
    return changed(brush, surface, across, along,
                   [least](Ends ends, double by, double whole) { return longer(ends, by, least, whole); });
}

double stroke_grams(const Brush& brush, const Surface& surface) {
    return brush.by_weight ? brush.grams : brush.grams_per_cm2 * region_of(brush, surface).area_cm2();
}

std::vector<Tile> tiles_of(const Sheet& sheet) {
    const recipe::Recipe& recipe = sheet.recipe;
    std::vector<Tile> tiles;
    const auto masses = recipe::masses_of(recipe);
    if (!masses) return tiles;
    const auto loose = recipe::loose_layout_of(recipe, *masses);
    if (!loose) return tiles;
    for (std::size_t c = 0; c < recipe.components.size(); ++c)
        add_tiles(recipe, *loose, c, masses->grams[c], tiles);
    const auto parts = parts_of_blends(recipe, loose->layout);
    for (std::size_t b = 0; b < recipe.carding.blends.size(); ++b) {
        double grams = 0.0;
        for (const recipe::Laid& laid : loose->layout.blends[b]) grams += laid.total();
        tiles.push_back({recipe.carding.blends[b].name,
                         {},
                         recipe.components.size(),
                         true,
                         grams,
                         rest_of(recipe, *loose, {true, b}, 1).front(),
                         parts[b]});
    }
    return tiles;
}

const Tile* tile_of(const std::vector<Tile>& tiles, const Brush& brush) {
    const auto found = std::ranges::find_if(
        tiles, [&](const Tile& tile) { return tile.what == brush.what && tile.colour == brush.colour; });
    return found == tiles.end() ? nullptr : &*found;
}

}  // namespace battwright::app
