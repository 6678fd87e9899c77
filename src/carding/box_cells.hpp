// Inside this room: what a box holds of each cell, worked out once for all that is asked about it.
#pragma once

#include <span>
#include <vector>

#include "carding/field.hpp"
#include "carding/overlap.hpp"

namespace battwright::carding {

class BoxCells {
  public:
    BoxCells(const Grid& grid, const Box& box);
    // The mean over the box of one value a cell of the grid.
    double mean(std::span<const double> block) const;

  private:
    Grid grid_;
    std::vector<Tap> round_, across_, depth_;
};

}  // namespace battwright::carding
