// One stroke: what it weighs, where it ends up, and whether it is one with the last.
#include <algorithm>
#include <cmath>

#include "app/lay/closing.hpp"
#include "measure/unit_tables.hpp"

namespace battwright::app {
namespace {

using recipe::Laying;
using recipe::Stretch;

// Strokes as thick as each other within this share lie as one, and side by side when their borders are no
// further apart than so many mm.
constexpr double as_thick = 0.1, side_by_side_mm = 0.5;
// What is left over by a stroke and less than this share of it goes with it.
constexpr double crumbs = 0.02;

struct Stroke {
    const Sheet& sheet;
    Brush brush;
    std::size_t batts = 1;
    Surface surface;
    Laid laid{};

    std::string size_words() const {
        return measure::print_length(surface.across_mm, brush.length_unit) + " wide and " +
               measure::print_length(surface.along_mm, brush.length_unit) + " " + std::string(surface.length);
    }

    Laid refused(std::string line) const { return {sheet, std::move(line)}; }

    // Within the edges; false when all of it is beside them.
    bool clip() {
        if (!surface.has_tray) brush.way = recipe::Way::drum;
        if (brush.way == recipe::Way::tray || !surface.places_along) brush.round = {};
        bool cut = false;
        const auto across = clipped(brush.across, surface.across_mm, &cut);
        const auto round = clipped(brush.round, surface.along_mm, &cut);
        if (!across || !round) return false;
        brush.across = *across;
        brush.round = *round;
        if (cut)
            laid.line = "The stroke ran off the " + std::string(surface.name) + ", " + size_words() +
                        ": what was off is cut.";
        return true;
    }

    // The whole making's, of no more than is left; nothing when there is none.
    double weigh(double left) {
        const double many = static_cast<double>(batts);
        const double wanted = stroke_grams(brush, surface) * many;
        if (wanted > left * (1.0 + crumbs)) {
            laid.line = "There was no more of it than " + measure::print_mass(left / many, brush.mass_unit) +
                        ": that is what the stroke laid.";
            return left;
        }
        if (wanted > left * (1.0 - crumbs)) return left;
        const double step = measure::usual_scale_grams(brush.mass_unit);
        const double rounded = std::max(step, std::round(wanted / many / step) * step) * many;
        return std::min(left, rounded);
    }

    Laying laying_of(double grams) const {
        Laying made;
        made.what = brush.what;
        made.colour = brush.colour;
        made.amount = measure::Mass{std::round(grams * 100.0) / 100.0, brush.mass_unit};
        made.across = brush.across;
        made.round = brush.round;
        made.how = brush.how;
        if (brush.how != recipe::Spreading::even) made.size = brush.size;
        const int pass = std::clamp(brush.pass, 1, std::max(1, sheet.recipe.carding.passes));
        if (recipe::pass_of(sheet.recipe, made) != pass) made.pass = pass;
        if (pass > 1) made.lies = brush.lies;
        if (surface.has_tray && recipe::way_of(made) != brush.way) made.way = brush.way;
        return made;
    }
};

double mm_of(double end, const Stretch& stretch, double whole_mm) {
    return stretch.unit ? end : end / 100.0 * whole_mm;
}

bool same_place(const Stretch& a, const Stretch& b, double whole) {
    return std::abs(mm_of(a.from, a, whole) - mm_of(b.from, b, whole)) <= side_by_side_mm &&
           std::abs(mm_of(a.to, a, whole) - mm_of(b.to, b, whole)) <= side_by_side_mm;
}

// Both as one when one ends where the other begins.
std::optional<Stretch> in_one(const Stretch& a, const Stretch& b, double whole) {
    const auto touch = [&](const Stretch& first, const Stretch& second) {
        return std::abs(mm_of(first.to, first, whole) - mm_of(second.from, second, whole)) <= side_by_side_mm;
    };
    if (!touch(a, b) && !touch(b, a)) return std::nullopt;
    const Stretch &low = touch(a, b) ? a : b, &high = touch(a, b) ? b : a;
    if (low.unit == high.unit) {
        const Stretch both{low.from, high.to, low.unit};
        return both.from <= 0.0 && mm_of(both.to, both, whole) >= whole ? Stretch{} : both;
    }
    const auto unit = low.unit ? low.unit : high.unit;
    return Stretch{mm_of(low.from, low, whole), mm_of(high.to, high, whole), unit};
}

bool alike_but_for_place(Laying a, const Laying& b) {
    a.across = b.across;
    a.round = b.round;
    a.amount = b.amount;
    return a == b && std::holds_alternative<measure::Mass>(b.amount);
}

double grams_in(const Laying& laying) {
    const auto* mass = std::get_if<measure::Mass>(&laying.amount);
    return mass != nullptr ? mass->grams : 0.0;
}

// The stroke and the one before as one laying, when they are that.
std::optional<Laying> joined(const Laying& last, const Laying& stroke, const Surface& surface) {
    if (!std::holds_alternative<measure::Mass>(last.amount) || !alike_but_for_place(last, stroke))
        return std::nullopt;
    Laying both = last;
    both.amount = measure::Mass{std::round((grams_in(last) + grams_in(stroke)) * 100.0) / 100.0,
                                std::get<measure::Mass>(last.amount).unit};
    const bool across = same_place(last.across, stroke.across, surface.across_mm);
    const bool along = same_place(last.round, stroke.round, surface.along_mm);
    if (across && along) return both;
    const auto thick = [&](const Laying& laying) {
        const auto way = recipe::way_of(laying);
        return grams_in(laying) / region_of(laying.across, laying.round, way, surface).area_cm2();
    };
    if (std::abs(thick(last) / thick(stroke) - 1.0) > as_thick) return std::nullopt;
    if (along)
        if (const auto wide = in_one(last.across, stroke.across, surface.across_mm)) {
            both.across = *wide;
            return both;
        }
    if (across)
        if (const auto far = in_one(last.round, stroke.round, surface.along_mm)) {
            both.round = *far;
            // All round, only the word says that it goes straight onto the drum.
            if (surface.has_tray && recipe::way_of(both) != recipe::way_of(last))
                both.way = recipe::way_of(last);
            return both;
        }
    return std::nullopt;
}

}  // namespace

Laid join_layings(const Sheet& sheet) {
    Sheet after = sheet;
    const Surface surface = surface_of(sheet.recipe);
    std::vector<Laying> kept;
    for (const Laying& laying : sheet.recipe.carding.layings) {
        const auto both = kept.empty() ? std::nullopt : joined(kept.back(), laying, surface);
        if (both)
            kept.back() = *both;
        else
            kept.push_back(laying);
    }
    after.recipe.carding.layings = std::move(kept);
    return closed(std::move(after), {});
}

Laid lay_stroke(const Sheet& sheet, const Brush& brush, std::size_t batts) {
    Stroke stroke{sheet, brush, std::max<std::size_t>(1, batts), surface_of(sheet.recipe)};
    if (!stroke.clip())
        return stroke.refused("That lies beside the " + std::string(stroke.surface.name) + ", which is " +
                              stroke.size_words() + ": nothing is laid.");
    const auto tiles = tiles_of(sheet);
    const Tile* tile = tile_of(tiles, brush);
    if (tile == nullptr) return stroke.refused("Choose a fibre first.");
    if (tile->left < 0.05)
        return stroke.refused("All of it lies somewhere already: take some off, or weigh out more.");
    const double grams = stroke.weigh(tile->left);
    const Laying made = stroke.laying_of(grams);
    Sheet after = sheet;
    auto& layings = after.recipe.carding.layings;
    std::size_t at = layings.size();
    const auto both = layings.empty() ? std::nullopt : joined(layings.back(), made, stroke.surface);
    if (both) {
        layings[--at] = *both;
    } else if (layings.size() >= recipe::most_layings) {
        return stroke.refused("There are " + std::to_string(layings.size()) +
                              " layings, the most there can be: take some off, or join them.");
    } else {
        layings.push_back(made);
    }
    Laid laid = closed(std::move(after), {at}, std::move(stroke.laid.line));
    laid.grams = grams / static_cast<double>(stroke.batts);
    return laid;
}

}  // namespace battwright::app
