#include "carding/field.hpp"

#include <algorithm>

#include <cmath>
#include <numeric>

#include "carding/box_cells.hpp"
#include "carding/overlap.hpp"

namespace battwright::carding {
namespace {

// Up to this many portions the default grid keeps three passes near a frame of 60 Hz on two cores.
constexpr std::size_t few_portions = 12;

std::vector<Tap> round_window(std::size_t cells, double from, double to) {
    const double turns = std::floor(from);
    from -= turns;
    to -= turns;
    if (to - from >= 1.0) return window(cells, 0.0, 1.0);
    if (to <= 1.0) return window(cells, from, to);
    auto taps = window(cells, from, 1.0);
    auto rest = window(cells, 0.0, to - 1.0);
    for (Tap& tap : taps) tap.weight *= (1.0 - from) / (to - from);
    for (Tap& tap : rest) tap.weight *= (to - 1.0) / (to - from);
    taps.insert(taps.end(), rest.begin(), rest.end());
    return taps;
}

}  // namespace

Grid grid_for(std::size_t portions) {
    return portions <= few_portions ? default_grid : coarse_grid;
}

Field empty_field(const Grid& grid, std::size_t portions, double circumference_mm, double width_mm) {
    Field field{grid, portions, circumference_mm, width_mm, {}, {}, {}, {}, false};
    field.shares.assign(portions * field.block_size(), 0.0);
    return field;
}

double mean_share(const Field& field, std::size_t portion) {
    const auto block = field.block(portion);
    return std::accumulate(block.begin(), block.end(), 0.0) / static_cast<double>(block.size());
}

BoxCells::BoxCells(const Grid& grid, const Box& box)
    : grid_(grid),
      round_(round_window(grid.round, box.round_from, box.round_to)),
      across_(window(grid.across, box.across_from, box.across_to)),
      depth_(window(grid.depth, box.depth_from, box.depth_to)) {}

double BoxCells::mean(std::span<const double> block) const {
    double sum = 0.0;
    for (const Tap& z : depth_) {
        for (const Tap& y : across_) {
            const double* row = &block[(z.from * grid_.across + y.from) * grid_.round];
            double line = 0.0;
            for (const Tap& x : round_) line += x.weight * row[x.from];
            sum += z.weight * y.weight * line;
        }
    }
    return sum;
}

double box_mean(const Grid& grid, std::span<const double> block, const Box& box) {
    return BoxCells(grid, box).mean(block);
}

namespace {

// The place `at` on a line whose cells have these edges, in cells' shares of it.
double by_cells(std::span<const double> edges, double at) {
    const auto next = std::upper_bound(edges.begin() + 1, edges.end() - 1, at);
    const auto i = static_cast<std::size_t>(next - edges.begin()) - 1;
    const double wide = edges[i + 1] - edges[i];
    const double part = wide > 0.0 ? std::clamp((at - edges[i]) / wide, 0.0, 1.0) : 0.0;
    return (static_cast<double>(i) + part) / static_cast<double>(edges.size() - 1);
}

}  // namespace

Box placed_box(const Field& field, Box box) {
    if (field.placing.across.empty()) return box;
    const double middle = std::midpoint(box.round_from, box.round_to);
    box.round_from = by_cells(field.placing.round, box.round_from);
    box.round_to = std::max(box.round_from + 1e-6, by_cells(field.placing.round, box.round_to));
    const double cells = static_cast<double>(field.grid.round);
    const auto slice = std::min(field.grid.round - 1,
                                static_cast<std::size_t>(cells * by_cells(field.placing.round, middle)));
    const auto across =
        std::span(field.placing.across).subspan(slice * (field.grid.across + 1), field.grid.across + 1);
    box.across_from = std::min(1.0 - 1e-6, by_cells(across, box.across_from));
    box.across_to = std::max(box.across_from + 1e-6, by_cells(across, box.across_to));
    return box;
}

std::vector<double> box_mean(const Field& field, const Box& box) {
    std::vector<double> means(field.portions, 0.0);
    const BoxCells cells(field.grid, box);
    for (std::size_t p = 0; p < field.portions; ++p) means[p] = cells.mean(field.block(p));
    return means;
}

Field resampled(const Field& field, const Grid& grid) {
    Field result = empty_field(grid, field.portions, field.circumference_mm, field.width_mm);
    const auto xs = overlaps(field.grid.round, 0.0, 1.0, grid.round);
    const auto ys = overlaps(field.grid.across, 0.0, 1.0, grid.across);
    const auto zs = overlaps(field.grid.depth, 0.0, 1.0, grid.depth);
    const std::size_t plane = result.plane_size();
    std::vector<double> narrow(field.grid.depth * plane);
    for (std::size_t p = 0; p < field.portions; ++p) {
        std::fill(narrow.begin(), narrow.end(), 0.0);
        const auto from = field.block(p);
        const auto to = result.block(p);
        for (std::size_t z = 0; z < field.grid.depth; ++z) {
            for (const Tap& y : ys) {
                const double* source = &from[(z * field.grid.across + y.from) * field.grid.round];
                double* target = &narrow[z * plane + y.to * grid.round];
                for (const Tap& x : xs) target[x.to] += y.weight * x.weight * source[x.from];
            }
        }
        for (const Tap& z : zs) {
            for (std::size_t i = 0; i < plane; ++i)
                to[z.to * plane + i] += z.weight * narrow[z.from * plane + i];
        }
    }
    return result;
}

}  // namespace battwright::carding
