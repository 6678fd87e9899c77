// Inside this room: how fibre or yarn lies on the table, as a map from the table back to its own length and
// width. Millimetres.
#pragma once

#include <glm/glm.hpp>

namespace battwright::strip {

// `flat`: as it is. `roll`: a cylinder lying on its side, its axis from left to right; what runs round it is
// the surface's length. `roll_end`: the spiral at its end, beginning in the middle; the surface's width is
// the thickness rolled up. `coil`: the same of a round roving. `loop`: turn beside turn round two half
// circles and what is straight between, clockwise from the top left, the first turn inside.
enum class Form { flat, roll, roll_end, coil, loop };

struct Shape {
    Form form = Form::flat;
    double wide = 0.0, tall = 0.0;     // room it takes
    double along = 0.0, across = 0.0;  // extents of the surface; of a loop: a turn, and all turns
    double from = 0.0;                 // of a flat one: where along the surface it begins
    double inner = 0.0;                // of a loop: radius inside
    double length = 0.0;               // what there is of it, in rows of `along` (0: all)
    double row = 0.0;                  // height of such a row
};

struct Spot {
    glm::vec2 at{0.0f, 0.0f};  // on the surface: along, across
    float light = 1.0f;        // what roundness does to it; 1 on average
};
// False where there is nothing. `x`, `y`: from the shape's top left corner.
bool spot_in(const Shape& shape, float x, float y, Spot& spot);

Shape flat(double wide, double tall, double from = 0.0);
// A sheet so long, wide and thick, rolled up from one end: seen from the side and from its end. The side
// shows the last half turn of it: `along`.
Shape roll(double length, double width, double thickness);
Shape roll_end(double length, double thickness);
Shape coil(double length, double diameter);
// So many turns; each takes `pitch` of the band's width.
Shape loop(double turn, double turns, double pitch);

}  // namespace battwright::strip
