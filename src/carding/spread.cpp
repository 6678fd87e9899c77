#include "carding/spread.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "carding/habits.hpp"
#include "jobs/wide.hpp"
#include "measure/units.hpp"

namespace battwright::carding {
namespace {

constexpr double reach_sigmas = 4.0;

// Second antiderivative of the standard normal density.
double twice_integrated(double x) {
    const double density = std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::numbers::pi);
    return x * 0.5 * std::erfc(-x / std::numbers::sqrt2) + density;
}

// A Gaussian taken from cells of even content to cell averages spreads by its own variance and a sixth of a
// squared cell more; that sixth, and what the remapping has spread already, is taken off first.
double narrowed(double sigma, double already) {
    return std::sqrt(std::max(0.0, sigma * sigma - already - 1.0 / 6.0));
}

double weight_at(double distance, double sigma) {
    return std::max(
        0.0, sigma * (twice_integrated((distance + 1.0) / sigma) - 2.0 * twice_integrated(distance / sigma) +
                      twice_integrated((distance - 1.0) / sigma)));
}

// Weight at distance 0, 1, ... cells for a spread of `sigma` cells; the two sides together sum to 1.
std::vector<double> kernel_of(double sigma) {
    if (!(sigma > 1e-6)) return {1.0};
    const auto reach = static_cast<std::size_t>(std::ceil(reach_sigmas * sigma)) + 1;
    std::vector<double> kernel(reach + 1);
    for (std::size_t d = 0; d <= reach; ++d) kernel[d] = weight_at(static_cast<double>(d), sigma);
    const double sum = kernel[0] + 2.0 * std::accumulate(kernel.begin() + 1, kernel.end(), 0.0);
    for (double& weight : kernel) weight /= sum;
    return kernel;
}

// Where a step beyond the edge lands when the edge is a mirror.
std::size_t mirrored(std::ptrdiff_t at, std::size_t cells) {
    const auto n = static_cast<std::ptrdiff_t>(cells);
    const std::ptrdiff_t there_and_back = 2 * n;
    const std::ptrdiff_t folded = ((at % there_and_back) + there_and_back) % there_and_back;
    return static_cast<std::size_t>(folded < n ? folded : there_and_back - 1 - folded);
}

// sum[i] = kernel[0] * centre[i] + kernel[1] * (low[1][i] + high[1][i]) + ..., added up in that order.
BATTWRIGHT_WIDE
void add_up(const double* centre, const std::vector<const double*>& low,
            const std::vector<const double*>& high, const std::vector<double>& kernel, std::size_t cells,
            double* __restrict sum) {
    for (std::size_t i = 0; i < cells; ++i) sum[i] = kernel[0] * centre[i];
    std::size_t d = 1;
    // Two steps at a time, so that the sums go to memory and back half as often.
    for (; d + 1 < kernel.size(); d += 2) {
        const double near = kernel[d], far = kernel[d + 1];
        const double *a = low[d], *b = high[d], *c = low[d + 1], *e = high[d + 1];
        for (std::size_t i = 0; i < cells; ++i) sum[i] = sum[i] + near * (a[i] + b[i]) + far * (c[i] + e[i]);
    }
    for (; d < kernel.size(); ++d) {
        const double weight = kernel[d];
        const double *a = low[d], *b = high[d];
        for (std::size_t i = 0; i < cells; ++i) sum[i] += weight * (a[i] + b[i]);
    }
}

// Blur along one axis of an array of outer x cells x inner.
void blur(const double* from, double* to, std::size_t outer, std::size_t cells, std::size_t inner,
          const std::vector<double>& kernel) {
    std::vector<const double*> low(kernel.size()), high(kernel.size());
    for (std::size_t o = 0; o < outer; ++o) {
        const double* block = from + o * cells * inner;
        for (std::size_t c = 0; c < cells; ++c) {
            double* row = to + (o * cells + c) * inner;
            const double* centre = block + c * inner;
            for (std::size_t d = 1; d < kernel.size(); ++d) {
                const auto at = static_cast<std::ptrdiff_t>(c), far = static_cast<std::ptrdiff_t>(d);
                low[d] = block + mirrored(at - far, cells) * inner;
                high[d] = block + mirrored(at + far, cells) * inner;
            }
            add_up(centre, low, high, kernel, inner, row);
        }
    }
}

// The same along lines of neighbouring cells: each line is written out with its mirrored ends, so that the
// sum runs over cells that lie side by side.
void blur_lines(const double* from, double* to, std::size_t lines, std::size_t cells,
                const std::vector<double>& kernel) {
    const std::size_t reach = kernel.size() - 1;
    std::vector<double> padded(reach + cells + reach);
    std::vector<const double*> low, high;
    for (std::size_t d = 0; d <= reach; ++d) {
        low.push_back(padded.data() + reach - d);
        high.push_back(padded.data() + reach + d);
    }
    for (std::size_t line = 0; line < lines; ++line) {
        const double* source = from + line * cells;
        for (std::size_t i = 0; i < padded.size(); ++i)
            padded[i] =
                source[mirrored(static_cast<std::ptrdiff_t>(i) - static_cast<std::ptrdiff_t>(reach), cells)];
        add_up(padded.data() + reach, low, high, kernel, cells, to + line * cells);
    }
}

}  // namespace

Spread spread_of(const recipe::Carder& carder, std::span<const Portion> portions, double batt_grams,
                 bool fed_thin) {
    double grams = 0.0, staple = 0.0, diameter = 0.0;
    for (const Portion& portion : portions) {
        grams += portion.grams;
        staple += portion.grams * portion.staple_mm;
        diameter += portion.grams * portion.diameter_um;
    }
    if (!(grams > 0.0) || !(batt_grams > 0.0)) return {};
    const double wider = std::sqrt(carder.teeth_per_square_inch / habits::all_round_teeth) *
                         (fed_thin ? habits::thin_feed_widens : 1.0);
    const double area_m2 = carder.drum_circumference_mm * carder.width_mm * 1e-6;
    const double fibres_deep = batt_grams / area_m2 / (wool_density_g_m3 * diameter / grams * 1e-6);
    if (recipe::is_flat(carder)) {
        const double half_pitch_mm =
            0.5 * measure::millimetres_per_inch / std::sqrt(carder.teeth_per_square_inch);
        const double along_mm = staple / grams / std::sqrt(12.0);
        if (carder.kind == ToolKind::hand_cards)
            return {std::hypot(half_pitch_mm, habits::card_sway_mm), along_mm, 0.0};
        return {half_pitch_mm, along_mm,
                std::clamp(habits::brush_fibres / fibres_deep, habits::depth_least, habits::depth_most)};
    }
    return {habits::across_mm * wider, habits::round_of_staple * staple / grams,
            std::clamp(habits::depth_fibres * wider / fibres_deep, habits::depth_least, habits::depth_most)};
}

void spread_along(std::span<double> block, const Field& shape, double along_mm,
                  std::vector<double>& scratch) {
    const Grid& grid = shape.grid;
    if (grid.round == 1) return;
    const double cells = static_cast<double>(grid.round);
    scratch.assign(block.begin(), block.end());
    blur_lines(scratch.data(), block.data(), grid.depth * grid.across, grid.round,
               kernel_of(narrowed(along_mm / shape.circumference_mm * cells, 0.0)));
}

RoundKernel round_kernel(const Field& shape, double round_mm) {
    const std::size_t cells = shape.grid.round;
    const double n = static_cast<double>(cells);
    const double sigma = narrowed(round_mm / shape.circumference_mm * n, 0.0);
    RoundKernel kernel{cells, std::vector<double>(cells * cells, 0.0)};
    const auto line = kernel_of(sigma);
    std::vector<double> row(cells, 0.0);
    row[0] = line[0];
    for (std::size_t d = 1; d < line.size(); ++d) {
        row[d % cells] += line[d];
        row[(cells - d % cells) % cells] += line[d];
    }
    for (std::size_t from = 0; from < cells; ++from) {
        for (std::size_t d = 0; d < cells; ++d) kernel.weights[from * cells + (from + d) % cells] = row[d];
    }
    return kernel;
}

BATTWRIGHT_WIDE
void apply_round(const RoundKernel& kernel, const double* from, double* to, std::size_t lines) {
    const std::size_t cells = kernel.cells;
    for (std::size_t line = 0; line < lines; ++line) {
        const double* source = from + line * cells;
        double* __restrict target = to + line * cells;
        std::fill(target, target + cells, 0.0);
        for (std::size_t c = 0; c < cells; ++c) {
            const double value = source[c];
            const double* weights = &kernel.weights[c * cells];
            for (std::size_t i = 0; i < cells; ++i) target[i] += value * weights[i];
        }
    }
}

void spread_block(std::span<double> block, const Field& shape, const Spread& spread, const Already& already,
                  std::vector<double>& scratch) {
    const Grid& grid = shape.grid;
    const double across_cell = shape.width_mm / static_cast<double>(grid.across);
    const auto in_across = kernel_of(narrowed(spread.across_mm / across_cell, already.across));
    const auto in_depth =
        kernel_of(narrowed(spread.depth_share * static_cast<double>(grid.depth), already.depth));
    scratch.resize(block.size());
    blur(block.data(), scratch.data(), 1, grid.depth, shape.plane_size(), in_depth);
    if (grid.round == 1) {
        blur_lines(scratch.data(), block.data(), grid.depth, grid.across, in_across);
    } else {
        blur(scratch.data(), block.data(), grid.depth, grid.across, grid.round, in_across);
    }
}

}  // namespace battwright::carding
