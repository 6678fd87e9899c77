#include "app/find/find_plot.hpp"

#include <algorithm>
#include <cmath>

namespace battwright::app {
namespace {

constexpr double lab_step = 20.0;  // of Lab

// As wide as the other about the same middle, in whole steps.
void widen(PlotAxis& axis, double width) {
    bool low = true;
    while (axis.to - axis.from < width - 1e-9) {
        if (low)
            axis.from -= axis.step;
        else
            axis.to += axis.step;
        low = !low;
    }
}

}  // namespace

std::vector<double> PlotAxis::ticks() const {
    std::vector<double> result;
    const auto count = std::lround((to - from) / step);
    for (long i = 0; i <= count; ++i) result.push_back(from + step * static_cast<double>(i));
    return result;
}

PlotAxis axis_over(const std::vector<double>& values, double step, double least) {
    PlotAxis axis{0.0, step, step};
    if (!values.empty()) {
        const auto [low, high] = std::minmax_element(values.begin(), values.end());
        axis.from = std::floor(*low / step) * step;
        axis.to = std::ceil(*high / step) * step;
        if (axis.to <= axis.from) axis.to = axis.from + step;
    }
    widen(axis, least);
    return axis;
}

GamutAxes axes_over(const std::vector<colour::Lab>& colours) {
    std::vector<double> a, b;
    for (const auto& colour : colours) {
        a.push_back(colour.a);
        b.push_back(colour.b);
    }
    GamutAxes axes{axis_over(a, lab_step, 3.0 * lab_step),
                   axis_over(b, lab_step, 3.0 * lab_step),
                   {0.0, 100.0, lab_step}};
    const double width = std::max(axes.a.to - axes.a.from, axes.b.to - axes.b.from);
    widen(axes.a, width);
    widen(axes.b, width);
    return axes;
}

}  // namespace battwright::app
