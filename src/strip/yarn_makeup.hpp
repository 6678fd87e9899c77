// Inside this room: what the yarn is made up of, in millimetres and metres; nothing of pixels yet.
#pragma once

#include <optional>
#include <vector>

#include "strip/yarn_picture.hpp"

namespace battwright::strip {

// What a ply is drafted from, step by step: one batt's, or a half of it. A thread has its colour instead.
struct Supply {
    Field field;
    double metres_a_step = 1.0;  // of the single
    std::optional<colour::LinearRgb> thread;
};

// One ply's way through the yarn. `first_m` and the rest are metres of the single.
struct PlyPath {
    std::size_t supply = 0;
    double first_m = 0.0;                 // where the picture begins
    double metres_a_metre = 1.0;          // of yarn; under 0 when it runs from the ball's end
    double metres_a_loop = 0.0;           // of a chain
    double half_width = 1.0, axis = 0.0;  // as shares of the yarn's half thickness
};

struct Makeup {
    double length_m = 0.0, from_m = 0.0;
    double diameter_mm = 0.0;
    double ply_turns_per_m = 0.0;    // in the finished yarn
    double fibre_turns_per_m = 0.0;  // what is left of the single's own, round its ply
    double cv_pct = 0.0;             // of mass along the yarn
    double loop_m = 0.0;             // 0 without loops
    int batts = 1;
    std::vector<Supply> supplies;
    std::vector<PlyPath> plies;  // none: there is no yarn
};
Makeup makeup_of(const forecast::Forecast& forecast, const forecast::Batt& batt, const carding::Pass& pass,
                 carding::Pull pull, YarnView view, double from);

}  // namespace battwright::strip
