#include "forecast/series.hpp"

#include <algorithm>
#include <numeric>

#include "forecast/blend.hpp"
#include "recipe/layout.hpp"

namespace battwright::forecast {
namespace {

constexpr int points = 200;  // along the way of colours

struct Way {
    const Forecast& f;
    std::vector<double> from, to;  // shares per component

    std::vector<double> at(double t) const {
        std::vector<double> shares(from.size());
        for (std::size_t c = 0; c < shares.size(); ++c) shares[c] = (1.0 - t) * from[c] + t * to[c];
        return shares;
    }

    colour::Spectrum reflectance(const std::vector<double>& shares) const {
        return blend_of_components(f, shares);
    }

    colour::Lab lab(const std::vector<double>& shares) const {
        return colour::lab_under(reflectance(shares), f.light);
    }
};

// How far towards the last mixture each of `count` lies when the colour steps evenly.
std::vector<double> even_to_the_eye(const Way& way, int count) {
    std::vector<double> reached{0.0};
    colour::Lab last = way.lab(way.at(0.0));
    for (int i = 1; i <= points; ++i) {
        const colour::Lab here = way.lab(way.at(static_cast<double>(i) / points));
        reached.push_back(reached.back() + colour::ciede2000(last, here));
        last = here;
    }
    std::vector<double> towards;
    for (int n = 0; n < count; ++n) {
        const double wanted = reached.back() * n / (count - 1);
        const auto next = std::lower_bound(reached.begin(), reached.end(), wanted);
        const auto at = std::max<std::ptrdiff_t>(1, next - reached.begin());
        const auto i = static_cast<std::size_t>(std::min<std::ptrdiff_t>(at, points));
        const double length = reached[i] - reached[i - 1];
        const double part = length > 0.0 ? (wanted - reached[i - 1]) / length : 1.0;
        towards.push_back((static_cast<double>(i - 1) + part) / points);
    }
    return towards;
}

}  // namespace

measure::Expected<SeriesPlan> series_of(const Forecast& f, double scale_step_grams) {
    if (!f.recipe.series)
        return tl::unexpected(measure::Complaint{"the recipe has no series",
                                                 "add one, as in [series], batts = 6, each = \"15 g\", to = "
                                                 "[ { what = \"foam\", share = \"100 %\" } ]"});
    const recipe::Series& series = *f.recipe.series;
    Way way{f, {}, std::vector<double>(f.components.size(), 0.0)};
    for (const ComponentLine& line : f.components) way.from.push_back(line.grams / f.total_grams);
    for (const recipe::SeriesPart& part : series.to)
        if (const auto what = recipe::named(f.recipe, part.what))
            way.to[what->index] = part.share_pct / 100.0;
    std::vector<double> towards;
    if (series.by_eye) {
        towards = even_to_the_eye(way, series.count);
    } else {
        for (int n = 0; n < series.count; ++n) towards.push_back(static_cast<double>(n) / (series.count - 1));
    }
    SeriesPlan plan;
    plan.rolags = series.rolags;
    plan.grams.assign(f.components.size(), 0.0);
    for (const double t : towards) {
        SeriesBatt batt;
        batt.towards = t;
        batt.grams = way.at(t);
        for (double& grams : batt.grams) grams *= series.each.grams;
        batt.grams = measure::round_to_step(batt.grams, scale_step_grams);
        const double sum = std::accumulate(batt.grams.begin(), batt.grams.end(), 0.0);
        if (!(sum > 0.0))
            return tl::unexpected(measure::Complaint{"each of the series weighs less than the scale's step",
                                                     "make each heavier", "series each"});
        auto shares = batt.grams;
        for (double& share : shares) share /= sum;
        batt.lab = way.lab(shares);
        batt.srgb = colour::clipped(colour::encoded(seen(way.reflectance(shares), f.light)));
        if (!plan.batts.empty()) batt.step_de00 = colour::ciede2000(plan.batts.back().lab, batt.lab);
        for (std::size_t c = 0; c < batt.grams.size(); ++c) plan.grams[c] += batt.grams[c];
        plan.total_grams += sum;
        plan.batts.push_back(std::move(batt));
    }
    return plan;
}

}  // namespace battwright::forecast
