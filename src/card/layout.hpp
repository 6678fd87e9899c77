// A page laid out on paper: where every piece of ink goes, nothing clipped.
#pragma once

#include <cairo.h>

#include <functional>
#include <span>
#include <vector>

#include "card/page.hpp"
#include "card/paper.hpp"

namespace battwright::card {

// Draws itself with its top left corner at the origin; one unit is a point.
using Ink = std::function<void(cairo_t*)>;

// Ink put on a side, with the box it keeps to, in points from the side's top left corner.
struct Placed {
    double x = 0.0, y = 0.0;
    double width = 0.0, height = 0.0;
    Ink ink;
};
struct Side {
    std::vector<Placed> placed;
};
struct Laid {
    std::string name;
    double width_pt = 0.0, height_pt = 0.0;
    std::vector<Side> sides;
    double scale = 1.0;      // of the letters, 1 as wished, less where that saved a second side
    int missing_glyphs = 0;  // characters no font on this machine can show; they are drawn as boxes
    bool code_left_out = false;
};

// Letters shrink to about three quarters to keep to one side; what still does not fit goes on to more sides.
Laid lay_out(const Page& page, Paper paper);

// Sides of cards of one size put side by side on larger paper, with marks to cut along. A card as large as
// the paper or larger is a complaint.
measure::Expected<Laid> sheet_of(std::span<const Laid> cards, Paper paper);

}  // namespace battwright::card
