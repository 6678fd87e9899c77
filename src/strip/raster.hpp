// Inside this room: any raster of the carded batt, drawn from the simulated field.
#pragma once

#include <functional>
#include <vector>

#include "strip/simulated.hpp"

namespace battwright::strip {

// Rows run along the fibre: a tuft is drawn out over about three of their cells.
struct Raster {
    int columns = 1, rows = 1;
    double mass_share = 1.0;  // of the batt that all of it shows
    bool placed = false;      // boxes are by place on the drum, else by mass
    std::function<carding::Box(int column, int row)> box;
    // Changes a cell's mean shares before its tufts are drawn; may be empty.
    std::function<std::vector<double>(int column, int row, std::vector<double> shares)> mend;
};
// What the grid does not resolve is drawn at random, the same each time.
Field rastered(const forecast::Forecast& forecast, const forecast::Batt& batt, const carding::Field& carded,
               const Raster& raster);

// How much of the batt's depth the face shows.
inline constexpr double face_depth = 1.0 / 6.0;

}  // namespace battwright::strip
