// A batt as a field of mass shares: round the drum, across it, and through its depth.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace battwright::carding {

// Number of cells each way. `round` wraps; `across` runs from the left edge; `depth` from the drum outwards.
// A batt that does not vary round the drum has one cell round it.
struct Grid {
    std::size_t round = 1, across = 1, depth = 1;
    bool operator==(const Grid&) const = default;
    constexpr Grid halved() const { return {2 * round, 2 * across, 2 * depth}; }  // each cell, each way
};
// For a first answer within a frame, for everyday use, and to check the everyday one against.
inline constexpr Grid coarse_grid{8, 40, 24}, default_grid = coarse_grid.halved(),
                                              fine_grid = default_grid.halved();
// The default for a few portions; for many, one that keeps the time and memory of a simulation in bounds.
Grid grid_for(std::size_t portions);

// Where the edges of the cells lie in a batt that is not equally thick everywhere, as shares of the way round
// and of the width; the second slice by slice round, one edge more than cells. Empty: evenly.
struct Placing {
    std::vector<double> round, across;
};

// Depth is counted in mass: every column of the batt weighs the same and a cell is an equal part of it.
// Shares of a cell sum to 1; so a portion's mass is its mean share times the batt's mass.
struct Field {
    Grid grid;
    std::size_t portions = 0;
    double circumference_mm = 0.0, width_mm = 0.0;
    std::vector<double> shares;  // ((portion * depth + z) * across + y) * round + x
    // What varies below the grid, cell by cell ((z * across + y) * round + x; empty: nothing): the variance
    // of the shares among the tufts of a cell, summed over portions, and the same times the mass of a tuft
    // over that of a fresh one. See unresolved.hpp.
    std::vector<double> unresolved, clumped;
    Placing placing;
    bool flat = false;  // a board's or a card's: `round` runs along it from end to end and does not wrap

    std::size_t plane_size() const { return grid.across * grid.round; }
    std::size_t block_size() const { return grid.depth * plane_size(); }
    std::span<double> block(std::size_t portion) {
        return std::span(shares).subspan(portion * block_size(), block_size());
    }
    std::span<const double> block(std::size_t portion) const {
        return std::span(shares).subspan(portion * block_size(), block_size());
    }
    double at(std::size_t portion, std::size_t x, std::size_t y, std::size_t z) const {
        return shares[((portion * grid.depth + z) * grid.across + y) * grid.round + x];
    }
};

Field empty_field(const Grid& grid, std::size_t portions, double circumference_mm, double width_mm);
// Mean share of a portion over the batt.
double mean_share(const Field& field, std::size_t portion);
// Mean over a box given in shares of each extent (0..1, low < high), by area weighting; one value a portion.
// `round` may run past 1: it wraps.
struct Box {
    double round_from = 0.0, round_to = 1.0;
    double across_from = 0.0, across_to = 1.0;
    double depth_from = 0.0, depth_to = 1.0;
};
std::vector<double> box_mean(const Field& field, const Box& box);
// A box given by place on the drum, as cells count it.
Box placed_box(const Field& field, Box by_place);
// The same of one value a cell, such as a block of the field.
double box_mean(const Grid& grid, std::span<const double> block, const Box& box);
// The field on another number of cells (area weighted; means are kept).
Field resampled(const Field& field, const Grid& grid);

}  // namespace battwright::carding
