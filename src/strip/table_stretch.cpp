// What of a yarn a picture of the table shows.
#include <algorithm>
#include <cmath>

#include "measure/parts.hpp"
#include "strip/table_lay.hpp"
#include "strip/table_shape.hpp"

namespace battwright::strip {
namespace {

// The frame as a piece has it, within the piece.
struct Part {
    double left, right, top, bottom;
    bool empty() const { return left >= right || top >= bottom; }
};
Part part_shown(const Laid& piece, const TableFrame& frame) {
    const double left = frame.left_mm - piece.left_mm, top = frame.top_mm - piece.top_mm;
    return {std::max(0.0, left), std::min(piece.shape.wide, left + frame.width / frame.pixels_per_mm),
            std::max(0.0, top), std::min(piece.shape.tall, top + frame.height / frame.pixels_per_mm)};
}

// Whole rows, from the top down; those of a swatch run upwards.
Stretch rows_shown(const Shape& shape, const Part& part) {
    const double first = std::floor(part.top / shape.row + 1e-6),
                 last = std::ceil(part.bottom / shape.row - 1e-6);
    if (shape.length > 0.0)
        return {std::min(1.0, first * shape.along / shape.length),
                std::min(1.0, last * shape.along / shape.length)};
    const double rows = std::max(1.0, std::round(shape.tall / shape.row));
    return {std::max(0.0, 1.0 - last / rows), 1.0 - first / rows};
}

// Of a skein, the first and the last turn met at many points.
Stretch turns_shown(const Shape& shape, const Part& part) {
    constexpr int points = 64;
    Stretch shown;
    for (int i = 0; i < points * points; ++i) {
        const int column = i % points, row = i / points;
        const double x = part.left + (part.right - part.left) * measure::middle_of(column, points);
        const double y = part.top + (part.bottom - part.top) * measure::middle_of(row, points);
        Spot spot;
        if (!spot_in(shape, static_cast<float>(x), static_cast<float>(y), spot)) continue;
        const double turn = std::floor(double{spot.at.y} / shape.row);
        shown.from = std::min(shown.from, turn * shape.along / shape.length);
        shown.to = std::max(shown.to, std::min(1.0, (turn + 1.0) * shape.along / shape.length));
    }
    return shown;
}

}  // namespace

Stretch stretch_shown(const Laid& piece, const TableFrame& frame) {
    const Part part = part_shown(piece, frame);
    if (part.empty()) return {};
    const Shape& shape = piece.shape;
    const bool all =
        part.left <= 0.0 && part.top <= 0.0 && part.right >= shape.wide && part.bottom >= shape.tall;
    if (all) return {0.0, 1.0};
    return shape.form == Form::loop ? turns_shown(shape, part) : rows_shown(shape, part);
}

}  // namespace battwright::strip
