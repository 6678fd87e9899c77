#include "carding/layings.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

#include "carding/habits.hpp"
#include "recipe/layout.hpp"
#include "text/believe.hpp"
#include "text/numbers.hpp"

namespace battwright::carding {
namespace {

// In mm, both ends of a place across are told by the width and those of a place round by the way round.
Span span_of(const recipe::Stretch& stretch, const recipe::Laying& laying, double whole_mm) {
    Span span;
    std::tie(span.from, span.to) = stretch.shares_of(whole_mm);
    if (span.whole()) return span;
    if (laying.fade) span.soft = laying.fade->share_of(whole_mm);
    if (!laying.overlap) return span;
    const double over = laying.overlap->share_of(whole_mm);
    if (span.from > 0.0) span.over_from = over;
    if (span.to < 1.0) span.over_to = over;
    return span;
}

struct LayMaker {
    const recipe::Recipe& recipe;
    std::span<const recipe::Strand> strands;
    std::span<const Portion> portions;
    const recipe::Carder& carder;
    std::vector<std::size_t> place_of_blend;  // in the order they are carded

    Lay form_of(const recipe::Laying& laying, int pass) const {
        Lay lay;
        lay.across = span_of(laying.across, laying, carder.width_mm);
        lay.round = span_of(laying.round, laying, carder.drum_circumference_mm);
        lay.on_drum = recipe::way_of(laying) == recipe::Way::drum;
        const auto& row = measure::row_of(recipe::spreadings, laying.how);
        lay.how = laying.how;
        lay.dab_mm = laying.size ? laying.size->millimetres : row.wide_mm;
        lay.pass = pass;
        lay.lies = laying.lies;
        return lay;
    }

    // Which of the portions of a component has a colour of its palette.
    bool has_tint(const Portion& portion, std::size_t tint) const {
        const auto& palette = recipe.components[portion.component].palette;
        return palette.empty() || strands[portion.strands.front()].colour == palette[tint].colour;
    }

    void add(const recipe::Laying& laying, const recipe::Laid& laid, int pass, std::vector<Lay>& lays) const {
        Lay lay = form_of(laying, pass);
        if (laid.what.is_blend) {
            lay.blend = place_of_blend[laid.what.index];
            lay.grams = laid.total();
            lays.push_back(lay);
            return;
        }
        const std::size_t component = laid.what.index;
        for (std::size_t t = 0; t < laid.grams.size(); ++t) {
            if (!(laid.grams[t] > 0.0)) continue;
            double all = 0.0;
            const auto mine = [&](const Portion& p) { return p.component == component && has_tint(p, t); };
            for (const Portion& portion : portions) all += mine(portion) ? portion.grams : 0.0;
            for (std::size_t p = 0; p < portions.size(); ++p) {
                if (!mine(portions[p]) || !(portions[p].grams > 0.0)) continue;
                lay.portion = p;
                lay.grams = laid.grams[t] * portions[p].grams / all;
                lays.push_back(lay);
            }
        }
    }

    // Neighbours that are laid so many times go in turn.
    template <class PassOf>
    std::vector<Lay> lays_of_list(const std::vector<recipe::Laying>& layings,
                                  const std::vector<recipe::Laid>& laid, PassOf pass_of) const {
        std::vector<Lay> lays;
        for (std::size_t i = 0; i < layings.size();) {
            std::vector<Lay> group;
            const int times = std::max(1, layings[i].times), pass = pass_of(layings[i]);
            std::size_t end = i;
            for (; end < layings.size() && layings[end].times == layings[i].times &&
                   pass_of(layings[end]) == pass && (end == i || times > 1);
                 ++end) {
                const std::size_t before = group.size();
                add(layings[end], laid[end], pass, group);
                for (std::size_t g = before; g < group.size(); ++g) group[g].source = {end};
            }
            for (Lay& lay : group) lay.grams /= times;
            for (int n = 0; n < times; ++n) lays.insert(lays.end(), group.begin(), group.end());
            i = end;
        }
        return lays;
    }
};

double grams_in(const std::vector<Lay>& lays) {
    return std::accumulate(lays.begin(), lays.end(), 0.0,
                           [](double sum, const Lay& lay) { return sum + lay.grams; });
}

Small small_of(const LayMaker& maker, const recipe::SmallBlend& blend,
               const std::vector<recipe::Laid>& laid) {
    Small small;
    small.name = blend.name;
    small.passes = std::max(1, blend.passes);
    small.strips = std::max(1, blend.strips);
    small.refeeds = blend.refeeds;
    small.lays = maker.lays_of_list(blend.layings, laid, [&](const recipe::Laying& laying) {
        return recipe::within_passes(laying.pass.value_or(1), small.passes);
    });
    small.grams = grams_in(small.lays);
    return small;
}

recipe::Extent extent_of(double share) {
    return {text::to_figures(100.0 * share, 12), {}};
}

// One lay of a manner as a laying.
recipe::Laying laying_of(const Lay& lay, const recipe::Recipe& recipe, std::span<const Portion> portions,
                         std::span<const recipe::Strand> strands, std::size_t alike) {
    const Portion& portion = portions[lay.portion];
    recipe::Laying laying;
    laying.what = reference_to(recipe, portion.component);
    double whole = 0.0;
    for (const Portion& other : portions) whole += other.component == portion.component ? other.grams : 0.0;
    if (recipe.components[portion.component].palette.size() > 1) {
        laying.colour = strands[portion.strands.front()].colour;
        whole = portion.grams;
    }
    const double share = lay.grams * static_cast<double>(alike) / whole;
    if (share < 1.0 - 1e-12) laying.amount = recipe::Percent{100.0 * share};
    laying.across = {100.0 * lay.across.from, 100.0 * std::min(1.0, lay.across.to), {}};
    laying.round = {100.0 * lay.round.from, 100.0 * std::min(1.0, lay.round.to), {}};
    const Span& placed = lay.round.whole() ? lay.across : lay.round;
    if (placed.soft > 0.0) laying.fade = extent_of(placed.soft);
    if (const double over = std::max(placed.over_from, placed.over_to); over > 0.0)
        laying.overlap = extent_of(over);
    laying.how = lay.how;
    laying.way = lay.on_drum ? recipe::Way::drum : recipe::Way::tray;
    laying.times = static_cast<int>(alike);
    return laying;
}

}  // namespace

Layings layings_of(const recipe::Recipe& recipe, std::span<const recipe::Strand> strands,
                   std::span<const Portion> portions, const recipe::Carder& carder) {
    Layings result;
    if (recipe.carding.layings.empty()) return result;
    const auto masses = recipe::masses_of(recipe);
    BATTWRIGHT_BELIEVE(masses.has_value());
    if (!masses) return result;
    const auto layout = recipe::layout_of(recipe, *masses);
    BATTWRIGHT_BELIEVE(layout.has_value());
    if (!layout) return result;
    LayMaker maker{recipe, strands, portions, carder,
                   std::vector<std::size_t>(recipe.carding.blends.size(), 0)};
    for (std::size_t i = 0; i < layout->order.size(); ++i) maker.place_of_blend[layout->order[i]] = i;
    for (const std::size_t b : layout->order)
        result.blends.push_back(small_of(maker, recipe.carding.blends[b], layout->blends[b]));
    result.lays = maker.lays_of_list(recipe.carding.layings, layout->lays, [&](const recipe::Laying& laying) {
        return recipe::pass_of(recipe, laying);
    });
    std::vector<bool> told(recipe.components.size(), false);
    const auto tell = [&](const std::vector<recipe::Laid>& list) {
        for (const recipe::Laid& laid : list)
            if (!laid.what.is_blend) told[laid.what.index] = true;
    };
    tell(layout->lays);
    for (const auto& list : layout->blends) tell(list);
    for (std::size_t p = 0; p < portions.size(); ++p) {
        if (told[portions[p].component] || !(portions[p].grams > 0.0)) continue;
        Lay lay{p, portions[p].grams};
        lay.pass = portions[p].pass;
        result.lays.push_back(lay);
    }
    return result;
}

recipe::Recipe written_out(recipe::Recipe recipe, std::span<const recipe::Strand> strands) {
    if (!recipe.carding.layings.empty()) return recipe;
    const auto portions = portions_of(recipe, strands);
    const Feed feed = feed_of(recipe.carding);
    auto lays = lays_of(portions, feed);
    std::size_t alike = 1;
    if (feed.manner == Manner::alternating) {
        alike = static_cast<std::size_t>(std::max(1, feed.repeats));
        lays.resize(lays.size() / alike);
    }
    std::vector<recipe::Laying> layings;
    for (const Lay& lay : lays) layings.push_back(laying_of(lay, recipe, portions, strands, alike));
    if (feed.tool != ToolKind::drum)
        for (recipe::Laying& laying : layings) laying.way.reset();
    const recipe::Carding usual;
    recipe.carding.feed = usual.feed;
    recipe.carding.repeats = usual.repeats;
    recipe.carding.overlap_pct = usual.overlap_pct;
    recipe.carding.layings = std::move(layings);
    return recipe;
}

}  // namespace battwright::carding
