#include <algorithm>
#include <array>
#include <cmath>

#include "strip/table.hpp"
#include "text/numbers.hpp"

namespace battwright::strip {
namespace {

// What is left free round all that lies there when it fits in.
constexpr double table_margin = 1.05;

double fitting(const TableSize& size, int width, int height) {
    const double wide = std::max(size.wide_mm, 1.0), tall = std::max(size.tall_mm, 1.0);
    return std::max(1e-6, std::min(width / wide, height / tall) / table_margin);
}

// Where a stretch of `shown` begins of `whole` so that `middle` of it is in the middle: never past an end,
// and in the middle of what has room to spare.
double beginning(double whole, double shown, double middle) {
    if (shown >= whole) return 0.5 * (whole - shown);
    const double edge = 0.5 * (table_margin - 1.0) * shown;
    return std::clamp(middle * whole - 0.5 * shown, -edge, whole - shown + edge);
}

double share_of(double place, double whole) {
    return whole > 0.0 ? std::clamp(place / whole, 0.0, 1.0) : 0.5;
}

}  // namespace

TableFrame frame_of(const TableSize& size, const TableSettings& ask, int width, int height) {
    TableFrame frame{width, height, 1.0, 0.0, 0.0};
    const double fit = fitting(size, width, height);
    frame.pixels_per_mm = std::min(fit * std::max(1.0, ask.zoom), std::max(fit, most_pixels_per_mm));
    frame.left_mm = beginning(size.wide_mm, width / frame.pixels_per_mm, ask.middle_x);
    frame.top_mm = beginning(size.tall_mm, height / frame.pixels_per_mm, ask.middle_y);
    return frame;
}

TableSettings moved(TableSettings ask, const TableSize& size, const TableFrame& frame, double by_x,
                    double by_y) {
    const double x = frame.left_mm + (0.5 * frame.width - by_x) / frame.pixels_per_mm;
    const double y = frame.top_mm + (0.5 * frame.height - by_y) / frame.pixels_per_mm;
    ask.middle_x = share_of(x, size.wide_mm);
    ask.middle_y = share_of(y, size.tall_mm);
    return ask;
}

TableSettings zoomed(TableSettings ask, const TableSize& size, const TableFrame& frame, double times,
                     double x, double y) {
    const double fit = fitting(size, frame.width, frame.height);
    const double most = std::max(1.0, most_pixels_per_mm / fit);
    ask.zoom = std::clamp(std::clamp(ask.zoom, 1.0, most) * times, 1.0, most);
    const double scale = fit * ask.zoom;
    // The point stays where it is.
    const double x_mm = frame.left_mm + x / frame.pixels_per_mm,
                 y_mm = frame.top_mm + y / frame.pixels_per_mm;
    ask.middle_x = share_of(x_mm + (0.5 * frame.width - x) / scale, size.wide_mm);
    ask.middle_y = share_of(y_mm + (0.5 * frame.height - y) / scale, size.tall_mm);
    return ask;
}

ScaleBar scale_bar(double pixels_per_mm, double most_px, measure::LengthUnit unit) {
    const double one = measure::millimetres_from(1.0, unit);
    ScaleBar bar;
    if (!(pixels_per_mm > 0.0) || !(most_px > 0.0)) return bar;
    const double most = most_px / pixels_per_mm / one;
    double length = std::pow(10.0, std::floor(std::log10(most)));
    for (const double times : {5.0, 2.0}) {
        if (length * times > most) continue;
        length *= times;
        break;
    }
    bar.mm = length * one;
    bar.px = bar.mm * pixels_per_mm;
    bar.words = unit == measure::LengthUnit::millimetre && bar.mm >= 1000.0
                    ? text::number(0.001 * bar.mm) + " m"
                    : text::shortest(length) + " " + std::string(measure::word_for(unit));
    return bar;
}

}  // namespace battwright::strip
