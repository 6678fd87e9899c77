// A lay on another drum, or one whose weights or passes have changed.
#include <algorithm>

#include "app/bench/edits.hpp"
#include "app/lay/closing.hpp"

namespace battwright::app {
namespace {

using recipe::Laying;
using recipe::Stretch;

// How far the list reaches in mm, and in which unit that was written.
struct LayReach {
    double across_mm = 0.0, along_mm = 0.0;
    measure::LengthUnit unit = measure::LengthUnit::millimetre;
};
LayReach lay_reach(recipe::Recipe recipe) {
    LayReach reach;
    for (const auto* list : laying_lists(recipe))
        for (const Laying& laying : *list) {
            if (laying.across.unit && laying.across.to > reach.across_mm)
                reach = {laying.across.to, reach.along_mm, *laying.across.unit};
            if (laying.round.unit && laying.round.to > reach.along_mm)
                reach = {reach.across_mm, laying.round.to, *laying.round.unit};
        }
    return reach;
}

Sheet scaled(Sheet sheet, const Surface& from, const recipe::Carder& to) {
    const auto by = [](Stretch& stretch, double factor, double whole_mm) {
        if (!stretch.unit) return;
        stretch = stretch_of(stretch.from * factor, stretch.to * factor, whole_mm, Snap::none, *stretch.unit);
    };
    for (auto* list : laying_lists(sheet.recipe))
        for (Laying& laying : *list) {
            by(laying.across, to.width_mm / from.across_mm, to.width_mm);
            by(laying.round, to.drum_circumference_mm / from.along_mm, to.drum_circumference_mm);
            keep_edges_in(laying, to);
        }
    return sheet;
}

double stretch_length(const Stretch& stretch) {
    return stretch.to - stretch.from;
}

// What is left of it within the edges, of as much of its weight; false: nothing.
bool cut_laying(Laying& laying, const Surface& surface) {
    const auto across = clipped(laying.across, surface.across_mm);
    const auto round = clipped(laying.round, surface.along_mm);
    if (!across || !round) return false;
    const double kept = stretch_length(*across) * stretch_length(*round) /
                        (stretch_length(laying.across) * stretch_length(laying.round));
    laying.across = *across;
    laying.round = *round;
    if (kept >= 1.0) return true;
    if (auto* mass = std::get_if<measure::Mass>(&laying.amount)) mass->grams *= kept;
    if (auto* percent = std::get_if<recipe::Percent>(&laying.amount)) percent->value *= kept;
    return true;
}

Sheet cut_off(Sheet sheet) {
    const Surface surface = surface_of(sheet.recipe);
    for (auto* list : laying_lists(sheet.recipe))
        std::erase_if(*list, [&](Laying& laying) { return !cut_laying(laying, surface); });
    std::erase_if(sheet.recipe.carding.blends,
                  [](const recipe::SmallBlend& blend) { return blend.layings.empty(); });
    return closed(std::move(sheet), {}).sheet;
}

// Of what is laid of one thing beyond what there is, each its part less.
void lay_less(recipe::Recipe& recipe, const recipe::Named& what, double factor) {
    for (auto* list : laying_lists(recipe))
        for (Laying& laying : *list) {
            if (recipe::named(recipe, laying.what) != what) continue;
            if (auto* mass = std::get_if<measure::Mass>(&laying.amount)) mass->grams *= factor;
            if (auto* percent = std::get_if<recipe::Percent>(&laying.amount)) percent->value *= factor;
        }
}

// By how much what is laid of each colour is too much, the worst of them.
double factor_of(const std::vector<double>& spare, const std::vector<double>& heap) {
    double factor = 1.0;
    for (std::size_t t = 0; t < spare.size(); ++t)
        if (spare[t] < 0.0) factor = std::min(factor, heap[t] / (heap[t] - spare[t]));
    return factor;
}

std::vector<double> heap_of_colours(const recipe::Component& component, double grams) {
    if (component.palette.empty()) return {grams};
    double all = 0.0;
    for (const recipe::Tint& tint : component.palette) all += tint.share_pct;
    std::vector<double> heap;
    for (const recipe::Tint& tint : component.palette) heap.push_back(grams * tint.share_pct / all);
    return heap;
}

void fit_weights(recipe::Recipe& recipe) {
    const auto masses = recipe::masses_of(recipe);
    if (!masses) return;
    auto loose = recipe::loose_layout_of(recipe, *masses);
    if (!loose) return;
    for (std::size_t c = 0; c < recipe.components.size(); ++c) {
        const auto heap = heap_of_colours(recipe.components[c], masses->grams[c]);
        if (const double factor = factor_of(loose->spare[c], heap); factor < 1.0)
            lay_less(recipe, {false, c}, factor);
    }
    // Then there may be less of the blends.
    loose = recipe::loose_layout_of(recipe, *masses);
    if (!loose) return;
    for (std::size_t b = 0; b < recipe.carding.blends.size(); ++b) {
        double grams = 0.0;
        for (const recipe::Laid& laid : loose->layout.blends[b]) grams += laid.total();
        if (const double factor = factor_of(loose->spare_of_blends[b], {grams}); factor < 1.0)
            lay_less(recipe, {true, b}, factor);
    }
}

}  // namespace

Laid made_to_fit(const Sheet& sheet) {
    Sheet after = sheet;
    const int last = std::max(1, after.recipe.carding.passes);
    for (Laying& laying : after.recipe.carding.layings)
        if (laying.pass && *laying.pass > last) laying.pass = last;
    after = cut_off(std::move(after));
    fit_weights(after.recipe);
    return closed(std::move(after), {});
}

Change choose_carder(const Sheet& sheet, const recipe::Carder& preset) {
    const Sheet swapped = set_carder(sheet, preset);
    const LayReach reach = lay_reach(swapped.recipe);
    const bool wide = reach.across_mm > preset.width_mm + 1e-6;
    const bool far = reach.along_mm > preset.drum_circumference_mm + 1e-6;
    if (!wide && !far) return {swapped, {}};
    const auto in_unit = [&](double mm) { return measure::print_length(mm, reach.unit); };
    const recipe::ToolRow& words = recipe::words_of(preset);
    const std::string what = wide ? "The lay reaches " + in_unit(reach.across_mm) + " across, and the " +
                                        preset.name + " is " + in_unit(preset.width_mm) + " wide."
                                  : "The lay reaches " + in_unit(reach.along_mm) + " " +
                                        std::string(words.along) + ", and the " + preset.name + " is " +
                                        in_unit(preset.drum_circumference_mm) +
                                        (recipe::is_flat(preset) ? " long." : " round.");
    return {sheet, Disagreement{what,
                                {{"Scale the lay to it", scaled(swapped, surface_of(sheet.recipe), preset)},
                                 {"Cut it off at the edge", cut_off(swapped)}}}};
}

}  // namespace battwright::app
