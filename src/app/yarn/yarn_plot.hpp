// The numbers behind the plot of length against thickness: scales, ticks, bands, and what a press means.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/units.hpp"
#include "yarn/forecast.hpp"

namespace battwright::app {

// Places run from 0 to 1, to the right and upwards. Wraps stand on a logarithmic scale, since each class is a
// step in proportion and the thick ones would be slivers otherwise. Lengths grow about as the square of the
// wraps: on a square-root scale short and long skeins can both be read, and it still starts from nothing.
struct YarnPlot {
    double from_wpi = 0.0, to_wpi = 0.0;
    double to_metres = 0.0;

    double x(double wpi) const;
    double y(double metres) const;  // above 1: higher than the plot
    double wpi_at(double x) const;  // held within the plot
};
// Depends on the batt and the plan's way of spinning, not on its thickness: the scales stand still while the
// thickness is dragged. Ends a fifth past the finest sensible yarn. Nothing to plot: to_metres is 0.
YarnPlot plot_for(const yarn::YarnForecast& forecast);

struct PlotTick {
    double at = 0.0;
    std::string label;
};
// Round numbers at least `least_gap` apart.
std::vector<PlotTick> wraps_ticks(const YarnPlot& plot, double least_gap);
std::vector<PlotTick> length_ticks(const YarnPlot& plot, measure::YarnLengthUnit unit, double least_gap);

// The stretch of a thickness class, thick to fine. Names of neighbours go in two rows by turns.
struct PlotBand {
    std::string_view name;
    double from = 0.0, to = 0.0;
    bool lower_row = false;
    bool shaded = false;  // every second one, so that they can be told apart
};
std::vector<PlotBand> bands_of(const YarnPlot& plot);

// Thickness is planned in steps of half a wrap.
inline constexpr double wraps_step = 0.5;
// The plan a press at `x` stands for.
double snapped_wpi(const YarnPlot& plot, double x);
// That many steps finer (or thicker, below 0) on the grid, within what can be planned.
double stepped_wpi(double wpi, int steps);

// Length at a thickness, straight between the curve's points; 0 beyond its ends and where no yarn can be.
double length_on_curve_m(const yarn::YarnForecast& forecast, double wpi);

}  // namespace battwright::app
