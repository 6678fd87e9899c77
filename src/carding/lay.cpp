#include "carding/lay.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/columns.hpp"
#include "carding/dice.hpp"
#include "carding/habits.hpp"
#include "carding/overlap.hpp"
#include "carding/spread.hpp"
#include "measure/parts.hpp"

namespace battwright::carding {
namespace {

constexpr int samples = 4;  // points a cell and direction at which a pattern in mm is looked up
constexpr int balancing_most = 400;
constexpr double balanced = 1e-10;

// A pattern in millimetres that wraps round the drum, averaged over each cell.
template <class Pattern>
void fill_columns(const Field& shape, std::span<double> columns, Pattern pattern) {
    const Grid& grid = shape.grid;
    const double dx = shape.circumference_mm / static_cast<double>(grid.round);
    const double dy = shape.width_mm / static_cast<double>(grid.across);
    for (std::size_t y = 0; y < grid.across; ++y) {
        for (std::size_t x = 0; x < grid.round; ++x) {
            double sum = 0.0;
            for (int i = 0; i < samples * samples; ++i) {
                const double u = measure::middle_of(i % samples, samples);
                const double v = measure::middle_of(i / samples, samples);
                sum += pattern((static_cast<double>(x) + u) * dx, (static_cast<double>(y) + v) * dy);
            }
            columns[y * grid.round + x] = sum / (samples * samples);
        }
    }
}

double smooth(double t) {
    return t * t * (3.0 - 2.0 * t);
}

// Handfuls: values of mean 1 and the wanted CV on a lattice of handfuls, smoothly joined.
struct Handfuls {
    Dice dice{0};
    double step_mm = 0.0;
    std::uint64_t round = 1;  // handfuls round the drum
    double wide_mm = habits::handful_mm;

    double knot(std::uint64_t i, std::uint64_t j) const {
        // Uniform in 1 +- sqrt(3) CV; never below 0 for CV under 0.57.
        return 1.0 + std::sqrt(3.0) * habits::handful_cv * (2.0 * dice.uniform((i % round) + 4096 * j) - 1.0);
    }
    double operator()(double x, double y) const {
        const double a = x / step_mm, b = y / wide_mm;
        const auto i = static_cast<std::uint64_t>(a), j = static_cast<std::uint64_t>(b);
        const double u = smooth(a - std::floor(a)), v = smooth(b - std::floor(b));
        return (1.0 - v) * ((1.0 - u) * knot(i, j) + u * knot(i + 1, j)) +
               v * ((1.0 - u) * knot(i, j + 1) + u * knot(i + 1, j + 1));
    }
};

Handfuls handfuls_of(const Field& shape, std::uint64_t seed, std::size_t lay) {
    const double round = std::max(1.0, std::round(shape.circumference_mm / habits::handful_round_mm));
    return {Dice(seed).with(1).with(lay), shape.circumference_mm / round, static_cast<std::uint64_t>(round),
            shape.flat ? habits::pinch_mm : habits::handful_mm};
}

// A dab in every other field of a lattice, at a place of its own within it. Through the tray it goes all
// round.
double dabbed(double x, double y, const Field& shape, const Lay& lay, const Dice& dice) {
    const double wide = lay.dab_mm, drawn_out = wide + (habits::dab_round_mm - habits::dab_mm);
    const double round =
        std::max(1.0, std::round(shape.circumference_mm /
                                 (habits::dab_spacing_round_mm / habits::dab_round_mm * drawn_out)));
    const double step = shape.circumference_mm / round,
                 step_across = habits::dab_spacing_mm * (wide / habits::dab_mm);
    const auto wrapped = static_cast<std::int64_t>(round);
    const auto i0 = static_cast<std::int64_t>(x / step), j0 = static_cast<std::int64_t>(y / step_across);
    const std::int64_t beside = lay.on_drum ? 1 : 0;
    double sum = measure::row_of(recipe::spreadings, lay.how).stray;
    // Half way from the field's middle to anywhere in it.
    const auto within = [&](std::uint64_t number) { return std::midpoint(0.5, dice.uniform(number)); };
    for (std::int64_t j = j0 - 1; j <= j0 + 1; ++j) {
        for (std::int64_t i = i0 - beside; i <= i0 + beside; ++i) {
            const auto key = static_cast<std::uint64_t>(((i + wrapped) % wrapped) + 4096 * (j + 1));
            const double cx = (static_cast<double>(i) + within(2 * key)) * step;
            const double cy = (static_cast<double>(j) + within(2 * key + 1)) * step_across;
            const double apart =
                std::hypot(lay.on_drum ? (x - cx) / (0.5 * drawn_out) : 0.0, (y - cy) / (0.5 * wide));
            sum += std::exp(-apart * apart * apart * apart);
        }
    }
    return sum;
}

// Scales rows and columns in turn until each lay has its mass and each column is as full as it should be
// (iterative proportional fitting, Deming & Stephan 1940). Ends on the masses, which then hold to rounding.
void balance(std::span<double> thickness, std::span<const double> shares, std::span<const double> full) {
    const std::size_t columns = full.size();
    std::vector<double> sums(columns);
    for (int round = 0;; ++round) {
        std::fill(sums.begin(), sums.end(), 0.0);
        for (std::size_t l = 0; l < shares.size(); ++l) {
            double* row = &thickness[l * columns];
            const double mean = std::accumulate(row, row + columns, 0.0) / static_cast<double>(columns);
            const double factor = mean > 0.0 ? shares[l] / mean : 0.0;
            for (std::size_t c = 0; c < columns; ++c) sums[c] += row[c] *= factor;
        }
        double worst = 0.0;
        for (std::size_t c = 0; c < columns; ++c) worst = std::max(worst, std::abs(sums[c] - full[c]));
        if (worst < balanced || round == balancing_most) return;
        for (std::size_t c = 0; c < columns; ++c) sums[c] = sums[c] > 0.0 ? full[c] / sums[c] : 0.0;
        for (std::size_t l = 0; l < shares.size(); ++l) {
            for (std::size_t c = 0; c < columns; ++c) thickness[l * columns + c] *= sums[c];
        }
    }
}

std::vector<double> shares_of(std::span<const Lay> lays) {
    std::vector<double> shares;
    double total = 0.0;
    for (const Lay& lay : lays) total += lay.grams;
    shares.reserve(lays.size());
    for (const Lay& lay : lays) shares.push_back(lay.grams / total);
    return shares;
}

// A span's profile along a line of cells, of any scale, blurred where its ends run out.
std::vector<double> profile_of(const Span& span, std::size_t cells) {
    Field line = empty_field({1, cells, 1}, 1, 1.0, 1.0);
    for (const double side : {-1.0, 1.0}) {
        const double from = std::clamp(span.from + side * span.over_from, 0.0, 1.0);
        const double to = std::clamp(span.to - side * span.over_to, 0.0, 1.0);
        for (const Tap& tap : overlaps(1, from, std::max(from, to), cells)) line.shares[tap.to] += tap.weight;
    }
    std::vector<double> scratch;
    spread_block(line.block(0), line, {span.soft, 0.0, 0.0}, {}, scratch);
    return line.shares;
}

// The shape of a lay's place, of any scale.
void fill_place(const Lay& lay, const Field& shape, std::span<double> columns) {
    const auto across = profile_of(lay.across, shape.grid.across);
    const auto round = profile_of(lay.round, shape.grid.round);
    for (std::size_t y = 0; y < shape.grid.across; ++y) {
        for (std::size_t x = 0; x < shape.grid.round; ++x)
            columns[y * shape.grid.round + x] *= across[y] * round[x];
    }
}

// One lay's thickness, of any scale. Fibre through the tray goes all round, so its handfuls differ across the
// drum only; side by side it is weighed out to its place, and evenly.
void fill_lay(const Lay& lay, std::size_t number, const Field& shape, std::uint64_t seed,
              std::span<double> columns) {
    const bool beside = !lay.all_over();
    const Handfuls uneven = handfuls_of(shape, seed, number);
    const Dice dabs = Dice(seed).with(2).with(number);
    if (beside && !(lay.dab_mm > 0.0)) {
        std::fill(columns.begin(), columns.end(), 1.0);
    } else {
        fill_columns(shape, columns, [&](double x, double y) {
            return (beside ? 1.0 : uneven(lay.on_drum ? x : 0.0, y)) *
                   (lay.dab_mm > 0.0 ? dabbed(x, y, shape, lay, dabs) : 1.0);
        });
    }
    fill_place(lay, shape, columns);
}

}  // namespace

std::vector<double> handfuls_across(const Field& shape, std::uint64_t seed, std::uint64_t number) {
    Field line = empty_field({1, shape.grid.across, 1}, 1, shape.circumference_mm, shape.width_mm);
    line.flat = shape.flat;
    const Handfuls uneven = handfuls_of(shape, seed, number);
    std::vector<double> columns(shape.grid.across);
    fill_columns(line, columns, [&](double, double y) { return uneven(0.0, y); });
    return columns;
}

std::vector<double> meant_full(std::span<const Lay> lays, const Field& shape) {
    const auto shares = shares_of(lays);
    std::vector<double> full(shape.plane_size(), 0.0), place(shape.plane_size());
    for (std::size_t l = 0; l < lays.size(); ++l) {
        std::fill(place.begin(), place.end(), 1.0);
        if (!lays[l].all_over()) fill_place(lays[l], shape, place);
        const double mean =
            std::accumulate(place.begin(), place.end(), 0.0) / static_cast<double>(place.size());
        for (std::size_t c = 0; c < full.size() && mean > 0.0; ++c) full[c] += shares[l] * place[c] / mean;
    }
    const bool even =
        std::all_of(full.begin(), full.end(), [](double f) { return std::abs(f - 1.0) < 1e-9; });
    if (even) std::fill(full.begin(), full.end(), 1.0);
    return full;
}

std::vector<double> thicknesses(std::span<const Lay> lays, const Field& shape, std::uint64_t seed) {
    const std::size_t columns = shape.plane_size();
    std::vector<double> thickness(lays.size() * columns);
    for (std::size_t l = 0; l < lays.size(); ++l)
        fill_lay(lays[l], l, shape, seed, std::span(thickness).subspan(l * columns, columns));
    const auto shares = shares_of(lays);
    const auto full = meant_full(lays, shape);
    balance(thickness, shares, full);
    evened_columns(thickness, full, shape.grid);
    return thickness;
}

std::vector<double> placed_thickness(const Lay& lay, std::size_t number, const Field& shape,
                                     std::uint64_t seed) {
    std::vector<double> columns(shape.plane_size());
    fill_lay(lay, number, shape, seed, columns);
    const double mean =
        std::accumulate(columns.begin(), columns.end(), 0.0) / static_cast<double>(columns.size());
    for (double& thick : columns) thick = mean > 0.0 ? thick / mean : 1.0;
    return columns;
}

void stack(std::span<const double> worth, std::span<const double> thickness, const Grid& grid,
           std::span<double> block) {
    const std::size_t columns = grid.across * grid.round;
    const double depth = static_cast<double>(grid.depth);
    std::fill(block.begin(), block.end(), 0.0);
    for (std::size_t c = 0; c < columns; ++c) {
        double bottom = 0.0;
        for (std::size_t l = 0; l < worth.size(); ++l) {
            const double top = bottom + thickness[l * columns + c] * depth;
            if (worth[l] > 0.0 && top > bottom) {
                auto z = static_cast<std::size_t>(bottom);
                for (; z < grid.depth && static_cast<double>(z) < top; ++z) {
                    // The last cell takes what rounding pushed over the top.
                    const bool last = z + 1 == grid.depth;
                    const double high = last ? top : std::min(top, static_cast<double>(z + 1));
                    block[z * columns + c] +=
                        worth[l] * std::max(0.0, high - std::max(bottom, static_cast<double>(z)));
                }
                if (z == grid.depth && bottom >= depth)
                    block[(z - 1) * columns + c] += worth[l] * (top - bottom);
            }
            bottom = top;
        }
    }
}

}  // namespace battwright::carding
