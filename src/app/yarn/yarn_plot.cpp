#include "app/yarn/yarn_plot.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "measure/unit_tables.hpp"
#include "measure/units.hpp"

namespace battwright::app {
namespace {

constexpr double past_the_limit = 1.2;
constexpr double least_end_wpi = 12.0;
// Plied with a thread the single can shrink to nothing and its length grow without end.
constexpr double most_over_limit = 2.0;
constexpr std::array wraps_marked{3.0,  4.0,  5.0,  6.0,  7.0,  8.0,  10.0,
                                  12.0, 14.0, 17.0, 20.0, 25.0, 30.0, 40.0};

double highest_on_curve_m(const yarn::YarnForecast& forecast) {
    double highest = 0.0;
    for (const auto& point : forecast.curve) highest = std::max(highest, point.length_m);
    return highest;
}

}  // namespace

double YarnPlot::x(double wpi) const {
    return std::log(wpi / from_wpi) / std::log(to_wpi / from_wpi);
}

double YarnPlot::y(double metres) const {
    return to_metres > 0.0 ? std::sqrt(std::max(0.0, metres) / to_metres) : 0.0;
}

double YarnPlot::wpi_at(double x) const {
    return from_wpi * std::pow(to_wpi / from_wpi, std::clamp(x, 0.0, 1.0));
}

YarnPlot plot_for(const yarn::YarnForecast& forecast) {
    YarnPlot plot{3.0, 45.0, 0.0};
    if (forecast.curve.size() < 2) return plot;
    plot.from_wpi = forecast.curve.front().wpi;
    const double curve_end = forecast.curve.back().wpi;
    const double wanted = std::ceil(past_the_limit * forecast.finest_wpi);
    plot.to_wpi = std::min(curve_end, std::max(least_end_wpi, wanted));
    const double at_limit = length_on_curve_m(forecast, std::min(forecast.finest_wpi, curve_end));
    const double at_end = length_on_curve_m(forecast, plot.to_wpi);
    const double cap = at_limit > 0.0 ? most_over_limit * at_limit : highest_on_curve_m(forecast);
    plot.to_metres = at_end > 0.0 ? std::min(at_end, cap) : cap;
    return plot;
}

std::vector<PlotTick> wraps_ticks(const YarnPlot& plot, double least_gap) {
    std::vector<PlotTick> ticks;
    for (const double wpi : wraps_marked) {
        const double at = plot.x(wpi);
        if (at < -1e-9 || at > 1.0 + 1e-9) continue;
        if (!ticks.empty() && at - ticks.back().at < least_gap) continue;
        ticks.push_back({at, measure::write_number(wpi)});
    }
    return ticks;
}

std::vector<PlotTick> length_ticks(const YarnPlot& plot, measure::YarnLengthUnit unit, double least_gap) {
    const double metres_each = measure::row_of(measure::yarn_length_units, unit).size;
    const double end = plot.to_metres / metres_each;
    std::vector<PlotTick> ticks{{0.0, "0"}};
    if (!(end > 0.0) || !std::isfinite(end)) return ticks;
    // From the top, where there is most room, so that the long skeins have their marks.
    std::vector<PlotTick> falling;
    double last = 1.0 + least_gap;
    for (double decade = std::pow(10.0, std::floor(std::log10(end))); plot.y(decade * metres_each) > 0.03;
         decade /= 10.0) {
        for (const double digit : {5.0, 3.0, 2.0, 1.0}) {
            const double at = plot.y(digit * decade * metres_each);
            if (at > 1.0 + 1e-9 || last - at < least_gap || at < least_gap) continue;
            falling.push_back({at, measure::write_number(digit * decade)});
            last = at;
        }
    }
    ticks.insert(ticks.end(), falling.rbegin(), falling.rend());
    return ticks;
}

std::vector<PlotBand> bands_of(const YarnPlot& plot) {
    std::vector<PlotBand> bands;
    double finer_from = plot.to_wpi;
    bool odd = false;
    for (const auto& thickness : yarn::thickness_classes()) {
        const double from = std::max(thickness.from_wpi, plot.from_wpi);
        odd = !odd;
        if (finer_from > from) bands.push_back({thickness.name, plot.x(from), plot.x(finer_from), odd, odd});
        finer_from = std::min(finer_from, from);
    }
    std::reverse(bands.begin(), bands.end());
    return bands;
}

double snapped_wpi(const YarnPlot& plot, double x) {
    return std::clamp(std::round(plot.wpi_at(x) / wraps_step) * wraps_step, plot.from_wpi, plot.to_wpi);
}

double stepped_wpi(double wpi, int steps) {
    constexpr double slack = 1e-6;
    const double on_grid =
        steps >= 0 ? std::floor(wpi / wraps_step + slack) : std::ceil(wpi / wraps_step - slack);
    return std::clamp((on_grid + steps) * wraps_step, yarn::least_wpi, yarn::most_wpi);
}

double length_on_curve_m(const yarn::YarnForecast& forecast, double wpi) {
    const std::span<const yarn::CurvePoint> curve(forecast.curve);
    const auto after =
        std::find_if(curve.begin(), curve.end(), [wpi](const auto& p) { return p.wpi >= wpi; });
    if (after == curve.end()) return 0.0;
    if (after->wpi == wpi) return after->length_m;
    if (after == curve.begin()) return 0.0;
    const auto before = after - 1;
    if (!(before->length_m > 0.0) || !(after->length_m > 0.0)) return 0.0;
    const double share = (wpi - before->wpi) / (after->wpi - before->wpi);
    return before->length_m + share * (after->length_m - before->length_m);
}

}  // namespace battwright::app
