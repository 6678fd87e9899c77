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

}  // namespace

Placing placing_of(std::span<const double> full, const Grid& grid) {
    Placing placing;
    if (is_even(full)) return placing;
    std::vector<double> round(grid.round, 0.0);
    for (std::size_t c = 0; c < full.size(); ++c) round[c % grid.round] += full[c];
    add_edges(round, placing.round);
    const std::vector<Tap> slices = parted_by_weight(round);
    for (std::size_t i = 0; i < grid.round; ++i) {
        std::vector<double> across(grid.across, 0.0);
        for (const Tap& slice : slices)
            for (std::size_t y = 0; y < grid.across && slice.to == i; ++y)
                across[y] += slice.weight * full[y * grid.round + slice.from];
        add_edges(across, placing.across);
    }
    return placing;
}

std::vector<Tap> columns_by_mass(std::span<const double> full, const Grid& grid) {
    std::vector<double> round(grid.round, 0.0);
    for (std::size_t c = 0; c < full.size(); ++c) round[c % grid.round] += full[c];
    std::vector<Tap> slices = parted_by_weight(round), taps;
    for (std::size_t i = 0; i < grid.round; ++i) {
        std::vector<double> across(grid.across, 0.0);
        for (const Tap& slice : slices) {
            if (slice.to != i) continue;
            for (std::size_t y = 0; y < grid.across; ++y)
                across[y] += slice.weight * full[y * grid.round + slice.from];
        }
        const double mass =
            std::accumulate(across.begin(), across.end(), 0.0) / static_cast<double>(grid.across);
        for (const Tap& cell : parted_by_weight(across)) {
            for (const Tap& slice : slices)
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
