// What a simulation starts from: what is laid where, on which pass, less what the passes lose.
#include <algorithm>

#include "carding/flat.hpp"
#include "carding/habits.hpp"
#include "carding/layings.hpp"
#include "carding/loss.hpp"
#include "carding/simulate.hpp"

namespace battwright::carding {

std::vector<Lay> lays_of_setup(const Setup& setup) {
    if (!setup.lays.empty()) return setup.lays;
    int first = setup.passes + 1;
    for (const Portion& portion : setup.portions)
        if (portion.grams > 0.0) first = std::min(first, portion.pass);
    std::vector<Portion> portions = setup.portions;
    for (Portion& portion : portions) portion.pass = portion.pass == first ? 1 : portion.pass + 1;
    auto lays = lays_of(portions, setup.feed);
    for (Lay& lay : lays) lay.pass = first;
    for (std::size_t p = 0; p < setup.portions.size(); ++p) {
        if (setup.portions[p].pass <= first || !(setup.portions[p].grams > 0.0)) continue;
        Lay lay{p, setup.portions[p].grams};
        lay.pass = setup.portions[p].pass;
        lays.push_back(lay);
    }
    return lays;
}

namespace {

// Everything is laid straight onto what lies flat. What lies along hand cards is drawn out over them by the
// first strokes, as on a drum by its turning; and what is added later goes on top, there being no half way.
void lay_flat(Setup& setup) {
    const bool board = setup.tool == ToolKind::board;
    for (Lay& lay : setup.lays) {
        lay.on_drum = board;
        if (!board && lay.lies == recipe::Lies::between) lay.lies = recipe::Lies::over;
    }
    for (Small& small : setup.blends)
        for (Lay& lay : small.lays) lay.on_drum = board;
}

// What stays on the licker-in or falls out is missing wherever its fibre was to lie, in a small blend too.
void take_losses(Setup& setup, const std::vector<double>& kept) {
    std::vector<double> of_blends;
    const auto shrink = [&](std::vector<Lay>& lays) {
        double grams = 0.0;
        for (Lay& lay : lays) {
            lay.grams *= lay.blend == no_blend ? kept[lay.portion] : of_blends[lay.blend];
            grams += lay.grams;
        }
        return grams;
    };
    for (Small& small : setup.blends) {
        const double grams = shrink(small.lays);
        of_blends.push_back(small.grams > 0.0 ? grams / small.grams : 1.0);
        small.grams = grams;
    }
    shrink(setup.lays);
    for (std::size_t p = 0; p < kept.size(); ++p) setup.portions[p].grams *= kept[p];
}

}  // namespace

Setup setup_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
               const recipe::Carder& carder, const Feed& feed, std::size_t batts, double mixing,
               int losing_passes) {
    Setup setup;
    setup.portions = portions_of(recipe, strands);
    setup.feed = feed;
    setup.passes = std::max(1, recipe.carding.passes);
    setup.strips = std::max(1, recipe.carding.strips);
    setup.circumference_mm = carder.drum_circumference_mm;
    setup.width_mm = carder.width_mm;
    setup.batt_share = 1.0 / static_cast<double>(std::max<std::size_t>(1, batts));
    setup.grid = grid_for(setup.portions.size());
    double grams = 0.0, diameter = 0.0, staple = 0.0;
    for (const Portion& portion : setup.portions) {
        grams += portion.grams;
        diameter += portion.grams * portion.diameter_um;
        staple += portion.grams * portion.staple_mm;
    }
    if (grams > 0.0) setup.staple_mm = staple / grams;
    const bool fine = diameter < habits::fine_um * grams;
    const double batt_grams = grams * setup.batt_share;
    setup.spread = spread_of(carder, setup.portions, batt_grams, fine);
    setup.opening = opening_of(carder, setup.portions, batt_grams, fine, mixing);
    setup.pooled = std::max<std::size_t>(1, batts);
    const Layings layings = layings_of(recipe, strands, setup.portions, carder);
    setup.lays = layings.lays;
    setup.blends = layings.blends;
    for (const Small& small : setup.blends)
        setup.blend_openings.push_back(
            opening_of(carder, setup.portions, small.grams * setup.batt_share, fine, mixing));
    setup.lays = lays_of_setup(setup);
    setup.tool = carder.kind;
    if (recipe::is_flat(carder)) lay_flat(setup);
    setup.reach_share = reach_of_strokes(carder, batt_grams);
    take_losses(setup, kept_shares(setup.portions, strands, losing_passes > 0 ? losing_passes : setup.passes,
                                   carder.kind));
    return setup;
}

}  // namespace battwright::carding
