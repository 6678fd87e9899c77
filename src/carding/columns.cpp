#include "carding/columns.hpp"

#include <algorithm>
#include <numeric>

namespace battwright::carding {
namespace {

// How a line whose cells weigh so much is parted into as many of equal weight: `weight` is the part of cell
// `from` that belongs to cell `to`.
std::vector<Tap> parted_by_weight(std::span<const double> weights) {
    const std::size_t cells = weights.size();
    const double whole = std::accumulate(weights.begin(), weights.end(), 0.0);
    std::vector<Tap> taps;
    if (!(whole > 0.0)) return taps;
    const double each = whole / static_cast<double>(cells);
    std::size_t to = 0;
    double room = each;
    for (std::size_t from = 0; from < cells; ++from) {
        double left = weights[from];
        while (left > 1e-15 * whole) {
            const bool last = to + 1 == cells;
            const double taken = last ? left : std::min(left, room);
            taps.push_back({to, from, taken / weights[from]});
            left -= taken;
            room -= taken;
            if (room <= 1e-15 * whole && !last) {
                ++to;
                room = each;
            }
        }
    }
    return taps;
}

// Where the cumulated weight reaches each equal part of the whole, as shares of the line.
void add_edges(std::span<const double> weights, std::vector<double>& edges) {
    const std::size_t cells = weights.size();
    const double whole = std::accumulate(weights.begin(), weights.end(), 0.0);
    double reached = 0.0;
    std::size_t at = 0;
    for (std::size_t i = 0; i < cells; ++i) {
        const double wanted = whole * static_cast<double>(i) / static_cast<double>(cells);
        while (at + 1 < cells && reached + weights[at] < wanted) reached += weights[at++];
        const double part = weights[at] > 0.0 ? std::clamp((wanted - reached) / weights[at], 0.0, 1.0) : 0.0;
        edges.push_back((static_cast<double>(at) + part) / static_cast<double>(cells));
    }
    edges.push_back(1.0);
}

bool is_even(std::span<const double> full) {
    return std::all_of(full.begin(), full.end(), [](double f) { return f == 1.0; });
}

// The round parted into as many slices of equal weight, and how much each weighs across the drum.
struct Slices {
    std::vector<double> round;  // what each cell round weighs
    std::vector<Tap> taps;      // `to` is the slice
    std::vector<std::vector<double>> across;
};

Slices slices_of(std::span<const double> full, const Grid& grid) {
    Slices slices{std::vector<double>(grid.round, 0.0),
                  {},
                  std::vector<std::vector<double>>(grid.round, std::vector<double>(grid.across, 0.0))};
    for (std::size_t c = 0; c < full.size(); ++c) slices.round[c % grid.round] += full[c];
    slices.taps = parted_by_weight(slices.round);
    for (const Tap& tap : slices.taps)
        for (std::size_t y = 0; y < grid.across; ++y)
            slices.across[tap.to][y] += tap.weight * full[y * grid.round + tap.from];
    return slices;
}

}  // namespace

Placing placing_of(std::span<const double> full, const Grid& grid) {
    Placing placing;
    if (is_even(full)) return placing;
    const Slices slices = slices_of(full, grid);
    add_edges(slices.round, placing.round);
    for (const auto& across : slices.across) add_edges(across, placing.across);
    return placing;
}

std::vector<Tap> columns_by_mass(std::span<const double> full, const Grid& grid) {
    const Slices slices = slices_of(full, grid);
    std::vector<Tap> taps;
    for (std::size_t i = 0; i < grid.round; ++i) {
        const auto& across = slices.across[i];
        const double mass =
            std::accumulate(across.begin(), across.end(), 0.0) / static_cast<double>(grid.across);
        for (const Tap& cell : parted_by_weight(across)) {
            for (const Tap& slice : slices.taps)
                if (slice.to == i)
                    taps.push_back({cell.to * grid.round + i, cell.from * grid.round + slice.from,
                                    cell.weight * slice.weight / mass});
        }
    }
    return taps;
}

void evened_columns(std::span<double> thickness, std::span<const double> full, const Grid& grid) {
    if (is_even(full)) return;
    const auto taps = columns_by_mass(full, grid);
    const std::size_t columns = full.size();
    std::vector<double> next(columns);
    for (std::size_t at = 0; at < thickness.size(); at += columns) {
        std::fill(next.begin(), next.end(), 0.0);
        for (const Tap& tap : taps) next[tap.to] += tap.weight * thickness[at + tap.from];
        std::copy(next.begin(), next.end(), thickness.begin() + static_cast<std::ptrdiff_t>(at));
    }
}

}  // namespace battwright::carding
