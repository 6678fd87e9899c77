// The numbers behind the plot of reachable colours: scales and ticks. No display.
#pragma once

#include <vector>

#include "colour/spectrum.hpp"

namespace battwright::app {

// One axis: from and to are whole steps.
struct PlotAxis {
    double from = 0.0, to = 1.0, step = 1.0;
    // 0..1 along the axis.
    double place(double value) const { return (value - from) / (to - from); }
    std::vector<double> ticks() const;
};
// The smallest axis with so round a step that holds all values, and at least `least` wide around them.
PlotAxis axis_over(const std::vector<double>& values, double step, double least);

// Plan and elevation of colours in Lab share the axis of a; one unit is as long on a as on b.
struct GamutAxes {
    PlotAxis a, b, l;
};
GamutAxes axes_over(const std::vector<colour::Lab>& colours);

}  // namespace battwright::app
