#include "app/lay/closing.hpp"

#include <algorithm>
#include <numeric>

#include "app/lay/surface.hpp"

namespace battwright::app {
namespace {

constexpr double nothing = 1e-9;

recipe::Laying rest_laying(std::string what, std::optional<colour::Srgb> colour = {}) {
    recipe::Laying laying;
    laying.what = std::move(what);
    laying.colour = colour;
    return laying;
}

// Of one component: as a whole when something is spare of each of its colours, else colour by colour.
void add_rests(const recipe::Recipe& recipe, std::size_t component, const std::vector<double>& spare,
               double grams, std::vector<recipe::Laying>& rests) {
    const double over = std::accumulate(spare.begin(), spare.end(), 0.0,
                                        [](double sum, double v) { return sum + std::max(0.0, v); });
    if (over <= recipe::closing_slack(grams)) return;
    const std::string what = recipe::reference_to(recipe, component);
    if (std::ranges::all_of(spare, [](double v) { return v > nothing; }))
        return rests.push_back(rest_laying(what));
    for (std::size_t t = 0; t < spare.size(); ++t)
        if (spare[t] > nothing)
            rests.push_back(rest_laying(what, recipe.components[component].palette[t].colour));
}

std::optional<recipe::LooseLayout> loose_of(const recipe::Recipe& recipe) {
    const auto masses = recipe::masses_of(recipe);
    if (!masses) return std::nullopt;
    auto loose = recipe::loose_layout_of(recipe, *masses);
    if (!loose) return std::nullopt;
    return std::move(*loose);
}

double whole_of(const recipe::Named& what, const recipe::Masses& masses, const recipe::LooseLayout& loose) {
    if (!what.is_blend) return masses.grams[what.index];
    double grams = 0.0;
    for (const recipe::Laid& laid : loose.layout.blends[what.index]) grams += laid.total();
    return grams;
}

std::size_t put_rests_first(recipe::Recipe& recipe) {
    const auto masses = recipe::masses_of(recipe);
    const auto loose = loose_of(recipe);
    if (!masses || !loose) return 0;
    std::vector<recipe::Laying> rests;
    for (std::size_t c = 0; c < recipe.components.size(); ++c)
        add_rests(recipe, c, loose->spare[c], masses->grams[c], rests);
    for (std::size_t b = 0; b < recipe.carding.blends.size(); ++b)
        if (loose->spare_of_blends[b].front() > recipe::closing_slack(whole_of({true, b}, *masses, *loose)))
            rests.push_back(rest_laying(recipe.carding.blends[b].name));
    auto& layings = recipe.carding.layings;
    layings.insert(layings.begin(), rests.begin(), rests.end());
    return rests.size();
}

}  // namespace

std::vector<std::vector<recipe::Laying>*> laying_lists(recipe::Recipe& recipe) {
    std::vector<std::vector<recipe::Laying>*> lists{&recipe.carding.layings};
    for (recipe::SmallBlend& blend : recipe.carding.blends) lists.push_back(&blend.layings);
    return lists;
}

bool is_rest(const recipe::Laying& laying) {
    return std::holds_alternative<recipe::Rest>(laying.amount);
}

bool is_plain_rest(const recipe::Laying& laying) {
    recipe::Laying plain = rest_laying(laying.what, laying.colour);
    plain.pass = laying.pass;
    return laying == plain;
}

std::vector<std::optional<std::size_t>> close_up(recipe::Recipe& recipe) {
    auto& layings = recipe.carding.layings;
    std::vector<std::optional<std::size_t>> now_at(layings.size());
    const std::size_t put_first = put_rests_first(recipe);
    const auto masses = recipe::masses_of(recipe);
    const auto loose = loose_of(recipe);
    std::vector<recipe::Laying> kept;
    for (std::size_t i = 0; i < layings.size(); ++i) {
        if (masses && loose && is_rest(layings[i])) {
            const recipe::Laid& laid = loose->layout.lays[i];
            if (laid.total() <= recipe::closing_slack(whole_of(laid.what, *masses, *loose))) continue;
        }
        if (i >= put_first) now_at[i - put_first] = kept.size();
        kept.push_back(layings[i]);
    }
    layings = std::move(kept);
    return now_at;
}

void keep_edges_in(recipe::Laying& laying, const recipe::Carder& carder) {
    const double whole = recipe::edge_length_mm(laying, carder);
    for (auto* edge : {&laying.fade, &laying.overlap})
        if (*edge) (*edge)->value = std::min((*edge)->value, (*edge)->unit ? whole : 100.0);
}

Laid closed(Sheet sheet, const Layings& which, std::string line) {
    // Without a tray there is one way, which is not written; nor is a place that is not kept.
    const Surface surface = surface_of(sheet.recipe);
    const recipe::Carder carder = recipe::carder_of(sheet.recipe.carding);
    for (auto* list : laying_lists(sheet.recipe))
        for (recipe::Laying& laying : *list) {
            if (!surface.has_tray) laying.way.reset();
            if (!surface.places_along) laying.round = {};
            keep_edges_in(laying, carder);
        }
    const auto now_at = close_up(sheet.recipe);
    sheet.recipe.carding_written = true;
    Laid laid{std::move(sheet), std::move(line)};
    for (const std::size_t i : which)
        if (i < now_at.size() && now_at[i]) laid.layings.push_back(*now_at[i]);
    return laid;
}

std::vector<double> grams_of_layings(const recipe::Recipe& recipe) {
    std::vector<double> grams;
    if (const auto loose = loose_of(recipe))
        for (const recipe::Laid& laid : loose->layout.lays) grams.push_back(laid.total());
    return grams;
}

double left_for(const Sheet& sheet, const recipe::Laying& laying) {
    const auto what = recipe::named(sheet.recipe, laying.what);
    if (!what) return 0.0;
    for (const Tile& tile : tiles_of(sheet))
        if (recipe::named(sheet.recipe, tile.what) == what && tile.colour == laying.colour) return tile.left;
    return 0.0;
}

std::optional<recipe::Stretch> clipped(const recipe::Stretch& stretch, double whole_mm, bool* cut) {
    const double whole = stretch.unit ? whole_mm : 100.0;
    recipe::Stretch within{std::clamp(stretch.from, 0.0, whole), std::clamp(stretch.to, 0.0, whole),
                           stretch.unit};
    if (cut != nullptr && within != stretch) *cut = true;
    if (within.from >= within.to) return std::nullopt;
    return within;
}

}  // namespace battwright::app
