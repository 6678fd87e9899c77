#include "app/plans/series_edits.hpp"

#include <algorithm>
#include <cmath>

#include "measure/units.hpp"
#include "recipe/layout.hpp"
#include "text/believe.hpp"

namespace battwright::app {
namespace {

recipe::Series& series_in(Sheet& sheet) {
    BATTWRIGHT_BELIEVE(sheet.recipe.series);
    return *sheet.recipe.series;
}

void write_shares(recipe::Recipe& recipe, const std::vector<double>& shares) {
    const std::vector<double> tenths = measure::round_to_step(shares, 0.1);
    recipe.series->to.clear();
    for (std::size_t c = 0; c < tenths.size(); ++c)
        if (tenths[c] > 0.05)
            recipe.series->to.push_back(
                {recipe::reference_to(recipe, c), std::round(10.0 * tenths[c]) / 10.0});
}

}  // namespace

Sheet start_series(Sheet sheet, measure::Mass each) {
    BATTWRIGHT_BELIEVE(!sheet.recipe.components.empty());
    sheet.recipe.series = recipe::Series{6, false, each, {}, false};
    std::vector<double> shares(sheet.recipe.components.size(), 0.0);
    shares.back() = 100.0;
    write_shares(sheet.recipe, shares);
    return sheet;
}

Sheet drop_series(Sheet sheet) {
    sheet.recipe.series.reset();
    return sheet;
}

Sheet set_series_count(Sheet sheet, int count) {
    series_in(sheet).count = std::clamp(count, fewest_of_series, most_of_series);
    return sheet;
}

Sheet set_series_rolags(Sheet sheet, bool rolags) {
    series_in(sheet).rolags = rolags;
    return sheet;
}

Sheet set_series_by_eye(Sheet sheet, bool by_eye) {
    series_in(sheet).by_eye = by_eye;
    return sheet;
}

Sheet set_series_each(Sheet sheet, measure::Mass each) {
    series_in(sheet).each = each;
    return sheet;
}

std::vector<double> series_shares(const recipe::Recipe& recipe) {
    std::vector<double> shares(recipe.components.size(), 0.0);
    if (!recipe.series) return shares;
    for (const recipe::SeriesPart& part : recipe.series->to)
        if (const auto what = recipe::named(recipe, part.what); what && !what->is_blend)
            shares[what->index] = part.share_pct;
    return shares;
}

Sheet set_series_share(Sheet sheet, std::size_t component, double share_pct) {
    BATTWRIGHT_BELIEVE(sheet.recipe.series && component < sheet.recipe.components.size());
    std::vector<double> shares = series_shares(sheet.recipe);
    if (shares.size() == 1) share_pct = 100.0;
    share_pct = std::clamp(share_pct, 0.0, 100.0);
    double others = 0.0;
    for (std::size_t c = 0; c < shares.size(); ++c) others += c == component ? 0.0 : shares[c];
    for (std::size_t c = 0; c < shares.size(); ++c)
        if (c != component && others > 0.0) shares[c] *= (100.0 - share_pct) / others;
    if (shares.size() > 1 && !(others > 0.0)) shares[(component + 1) % shares.size()] = 100.0 - share_pct;
    shares[component] = share_pct;
    write_shares(sheet.recipe, shares);
    return sheet;
}

}  // namespace battwright::app
