// Inside this room: what lies on the table, drawn.
#pragma once

#include <memory>
#include <vector>

#include "strip/table.hpp"
#include "strip/table_shape.hpp"

namespace battwright::strip {

// One piece of fibre or of yarn. `fibre` or `yarn` is there, not both.
struct Laid {
    double left_mm = 0.0, top_mm = 0.0;
    Shape shape;
    std::shared_ptr<const Scene> fibre;
    std::shared_ptr<const YarnScene> yarn;
    TableSize surface;  // what the scene's field is stretched over; of yarn, a row and all rows
    int layers = 1;     // of a loop: turns that lie on each other, of which one is seen
};
// Drawn with `times` points a pixel each way, averaged in linear light.
Image painted(const std::vector<Laid>& laid, const TableFrame& frame, const colour::Srgb& ground, int times,
              int threads);

}  // namespace battwright::strip
