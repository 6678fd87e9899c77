#include "carding/refold.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/habits.hpp"
#include "carding/lay.hpp"

namespace battwright::carding {
namespace {

// Integral, from the line's start to `position` (in cells), of the weight of cell i in the piecewise linear
// line through the cell centres, level beyond the outermost.
double integral(std::size_t i, std::size_t cells, double position) {
    const double u = position - 0.5 - static_cast<double>(i);
    const bool level = (i == 0 && u < 0.0) || (i + 1 == cells && u > 0.0);
    if (level) return 0.5 + u;
    if (u <= -1.0) return 0.0;
    if (u >= 1.0) return 1.0;
    return u < 0.0 ? 0.5 * (1.0 + u) * (1.0 + u) : 1.0 - 0.5 * (1.0 - u) * (1.0 - u);
}

// A part of a line of `cells` stretched over [low, high] of a line of `targets`: how target cells take source
// cells. Where sources cover a target cell wholly the weights sum to 1.
std::vector<Tap> stretch_taps(std::size_t cells, const Part& part, std::size_t targets, double low,
                              double high) {
    std::vector<Tap> taps;
    const double n = static_cast<double>(cells), m = static_cast<double>(targets);
    const double rate = (part.to - part.from) / (high - low);
    for (std::size_t t = 0; t < targets; ++t) {
        const double begin = std::max(low, static_cast<double>(t) / m);
        const double end = std::min(high, static_cast<double>(t + 1) / m);
        if (end - begin < 1e-12) continue;
        double a = n * (part.turned ? part.to - (end - low) * rate : part.from + (begin - low) * rate);
        double b = n * (part.turned ? part.to - (begin - low) * rate : part.from + (end - low) * rate);
        a = std::clamp(a, 0.0, n);
        b = std::clamp(b, a + 1e-12, n + 1e-12);
        const auto near = static_cast<std::size_t>(a);
        const auto far = std::min(cells, static_cast<std::size_t>(b) + 2);
        for (std::size_t i = near > 1 ? near - 2 : 0; i < far; ++i) {
            const double weight = (integral(i, cells, b) - integral(i, cells, a)) / (b - a);
            if (weight > 1e-14) taps.push_back({t, i, weight * (end - begin) * m});
        }
    }
    return taps;
}

struct Strides {
    std::size_t cells, step;
};
Strides strides_of(Line line, const Grid& grid) {
    if (line == Line::round) return {grid.round, 1};
    if (line == Line::across) return {grid.across, grid.round};
    return {grid.depth, grid.round * grid.across};
}

// Through the piecewise linear line a stretch spreads by a quarter of a squared old cell, seen in new cells.
double spread_by(std::size_t cells, const Part& part, std::size_t targets, double extent) {
    if (cells < 2) return 0.0;
    const double stretch =
        extent * static_cast<double>(targets) / ((part.to - part.from) * static_cast<double>(cells));
    return 0.25 * stretch * stretch;
}

// The old block averaged through what was the thickness: rows along the new depth, columns across.
void flatten(std::span<const double> old, const Grid& from, const Fed& fed, const std::vector<Tap>& thickness,
             std::span<double> plane) {
    const Strides rows = strides_of(fed.to_depth, from), columns = strides_of(fed.to_across, from);
    const Strides through = strides_of(fed.averaged(), from);
    std::fill(plane.begin(), plane.end(), 0.0);
    for (const Tap& tap : thickness) {
        for (std::size_t r = 0; r < rows.cells; ++r) {
            const double* line = &old[tap.from * through.step + r * rows.step];
            double* into = &plane[r * columns.cells];
            for (std::size_t c = 0; c < columns.cells; ++c) into[c] += tap.weight * line[c * columns.step];
        }
    }
}

bool same_plane(const Fed& a, const Fed& b) {
    const Part &one = a.part(a.averaged()), &other = b.part(b.averaged());
    return a.to_depth == b.to_depth && a.to_across == b.to_across && one.from == other.from &&
           one.to == other.to;
}

// Where the cells of a line begin and end once each is as wide as its weight says.
std::vector<double> edges_of(std::span<const double> widths) {
    std::vector<double> edges{0.0};
    for (const double width : widths) edges.push_back(edges.back() + width);
    for (double& edge : edges) edge /= edges.back();
    return edges;
}

// Divided by its mean.
std::vector<double> evened(std::vector<double> values) {
    const double mean =
        std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
    for (double& value : values) value /= mean;
    return values;
}

Fresh fresh_of(const std::vector<Fed>& order, const std::vector<double>& shares, const Field& shape,
               std::uint64_t seed, int pass) {
    Fresh fresh;
    fresh.share = std::accumulate(shares.begin(), shares.end(), 0.0);
    if (!(fresh.share > 0.0)) return fresh;
    const std::size_t half = order.size() / 2, columns = shape.grid.across;
    if (half > 0 && order[half].bottom > 0.0) fresh.cut = order[half].bottom;
    std::vector<double> rest(columns, 1.0);
    // Pieces and fresh fibre both lie unevenly, and share the column: f (1 + a) over that and (1 - f) (1 +
    // b).
    const auto number = [](int on_pass, std::size_t lay) {
        return 64 * static_cast<std::uint64_t>(on_pass) + lay;
    };
    const auto pieces = evened(handfuls_across(shape, seed, number(pass, shares.size())));
    for (std::size_t p = 0; p < shares.size(); ++p) {
        if (!(shares[p] > 0.0)) continue;
        auto apart = evened(handfuls_across(shape, seed, number(pass, p)));
        for (std::size_t y = 0; y < columns; ++y) apart[y] -= pieces[y];
        const auto [least, most] = std::minmax_element(apart.begin(), apart.end());
        // Some fibre everywhere, and never more than there is room for.
        const double within =
            std::min({habits::late_uneven * (1.0 - fresh.share), 0.95 / std::max(0.1, -*least),
                      0.9 * (1.0 - fresh.share) / (fresh.share * std::max(0.1, *most))});
        for (std::size_t y = 0; y < columns; ++y) {
            const double thick = shares[p] * (1.0 + within * apart[y]);
            fresh.thickness.push_back(thick);
            rest[y] -= thick;
        }
        fresh.portions.push_back(p);
    }
    const auto edges = edges_of(rest);
    for (std::size_t y = 0; y < columns; ++y) {
        for (Tap tap : window(columns, edges[y], edges[y + 1])) {
            tap.to = y;
            fresh.moved.push_back(tap);
        }
        // The pieces' depth is parted at the cut, and each side thinned to what the fresh fibre leaves it.
        const double under = fresh.cut * rest[y], over = (1.0 - fresh.cut) * rest[y];
        std::vector<Tap> taps;
        const std::size_t depth = shape.grid.depth;
        for (std::size_t z = 0; z < depth; ++z) {
            const double low = static_cast<double>(z) / static_cast<double>(depth);
            const double high = static_cast<double>(z + 1) / static_cast<double>(depth);
            const auto add = [&](double from, double to) {
                if (to - from < 1e-15) return;
                for (Tap tap : overlaps(1, from, to, depth)) taps.push_back({tap.to, z, tap.weight});
            };
            add(under * std::min(low, fresh.cut) / fresh.cut, under * std::min(high, fresh.cut) / fresh.cut);
            const auto above = [&](double at) {
                return 1.0 - over * (1.0 - std::max(at, fresh.cut)) / (1.0 - fresh.cut);
            };
            add(above(low), above(high));
        }
        fresh.depths.push_back(std::move(taps));
    }
    return fresh;
}

// Lays the fresh portions into a block of the pieces alone.
void lay_between(std::span<double> block, const Grid& grid, std::size_t portion, const Fresh& fresh,
                 std::vector<double>& scratch) {
    const std::size_t columns = grid.across;
    scratch.assign(block.size(), 0.0);
    for (std::size_t z = 0; z < grid.depth; ++z) {
        for (const Tap& tap : fresh.moved)
            scratch[z * columns + tap.to] += tap.weight * block[z * columns + tap.from];
    }
    std::fill(block.begin(), block.end(), 0.0);
    for (std::size_t y = 0; y < columns; ++y) {
        double bottom = 0.0;
        for (const Tap& tap : fresh.depths[y])
            block[tap.to * columns + y] += tap.weight * scratch[tap.from * columns + y];
        double rest = 1.0;
        for (std::size_t i = 0; i < fresh.portions.size(); ++i) rest -= fresh.thickness[i * columns + y];
        bottom = fresh.cut * rest;
        for (std::size_t i = 0; i < fresh.portions.size(); ++i) {
            const double top = bottom + fresh.thickness[i * columns + y];
            if (portion == any_portion || fresh.portions[i] == portion)
                for (const Tap& tap : overlaps(1, bottom, top, grid.depth))
                    block[tap.to * columns + y] += tap.weight;
            bottom = top;
        }
    }
}

Fed fed_across(int part, int parts, Line to_depth, Line to_across) {
    Fed fed;
    fed.across = {static_cast<double>(part) / parts, static_cast<double>(part + 1) / parts};
    fed.to_depth = to_depth;
    fed.to_across = to_across;
    return fed;
}

}  // namespace

const Part& Fed::part(Line line) const {
    if (line == Line::round) return round;
    return line == Line::across ? across : depth;
}
Line Fed::averaged() const {
    for (const Line line : {Line::round, Line::across})
        if (line != to_depth && line != to_across) return line;
    return Line::depth;
}

std::vector<Fed> fed_pieces(Refeed refeed, int strips, double circumference_mm, double staple_mm) {
    std::vector<Fed> pieces;
    const int k = refeed == Refeed::halves ? 2 : std::max(1, strips);
    switch (refeed) {
        case Refeed::own_places:
            pieces.push_back({});
            return pieces;
        case Refeed::quarter_turn:
            pieces.push_back(fed_across(0, 1, Line::across, Line::round));
            return pieces;
        case Refeed::sideways: {
            const double fit = staple_mm > 0.0 ? std::round(circumference_mm / staple_mm) : 1.0;
            const int n = static_cast<int>(std::clamp(fit, 1.0, 64.0));
            for (int i = 0; i < n; ++i) {
                Fed fed = fed_across(0, 1, Line::across, Line::round);
                fed.round = {static_cast<double>(i) / n, static_cast<double>(i + 1) / n};
                fed.bottom = fed.round.from;
                fed.top = fed.round.to;
                pieces.push_back(fed);
            }
            return pieces;
        }
        case Refeed::tear_and_fold:
            for (int i = 0; i < k; ++i) {
                Fed fed;
                fed.round = {static_cast<double>(i) / k, static_cast<double>(i + 1) / k, i % 2 == 1};
                fed.weight = 1.0 / k;
                pieces.push_back(fed);
            }
            return pieces;
        case Refeed::strips:
        case Refeed::halves:
        case Refeed::on_edge:
            break;
    }
    for (int i = 0; i < k; ++i) {
        const bool on_edge = refeed == Refeed::on_edge;
        Fed fed = fed_across(i, k, Line::round, on_edge ? Line::depth : Line::across);
        if (on_edge) {
            fed.left = fed.across.from;
            fed.right = fed.across.to;
        } else if (refeed == Refeed::halves) {
            fed.weight = 0.5;
        } else {
            fed.bottom = fed.across.from;
            fed.top = fed.across.to;
        }
        pieces.push_back(fed);
    }
    return pieces;
}

Refold refold_of(const std::vector<Fed>& order, const std::vector<double>& fresh_shares, const Grid& from,
                 const Field& to, std::uint64_t seed, int pass) {
    Refold refold;
    refold.order = order;
    refold.fresh = fresh_of(order, fresh_shares, to, seed, pass);
    for (const Fed& fed : order) {
        const Part& along = fed.part(fed.to_depth);
        const Part& across = fed.part(fed.to_across);
        const Part& through = fed.part(fed.averaged());
        const std::size_t rows = strides_of(fed.to_depth, from).cells;
        const std::size_t columns = strides_of(fed.to_across, from).cells;
        Refold::Taps taps;
        taps.thickness = window(strides_of(fed.averaged(), from).cells, through.from, through.to);
        taps.depths = stretch_taps(rows, along, to.grid.depth, fed.bottom, fed.top);
        taps.acrosses = stretch_taps(columns, across, to.grid.across, fed.left, fed.right);
        refold.already.depth = spread_by(rows, along, to.grid.depth, fed.top - fed.bottom);
        refold.already.across = spread_by(columns, across, to.grid.across, fed.right - fed.left);
        refold.taps.push_back(std::move(taps));
    }
    return refold;
}

void refold_block(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
                  std::size_t portion, const Refold& refold, std::vector<double>& scratch) {
    std::fill(next.begin(), next.end(), 0.0);
    const std::size_t most =
        std::max({from.round * from.across, from.across * from.depth, from.depth * from.round});
    std::size_t rows_most = 1;
    for (const Fed& fed : refold.order) rows_most = std::max(rows_most, strides_of(fed.to_depth, from).cells);
    scratch.resize(most + rows_most * to.across);
    const auto plane = std::span(scratch).subspan(0, most);
    const auto wide = std::span(scratch).subspan(most);
    const Fed* flat = nullptr;  // the piece whose plane is at hand
    for (std::size_t i = 0; i < refold.order.size(); ++i) {
        const Fed& fed = refold.order[i];
        const Refold::Taps& taps = refold.taps[i];
        const Strides rows = strides_of(fed.to_depth, from), columns = strides_of(fed.to_across, from);
        if (flat == nullptr || !same_plane(*flat, fed))
            flatten(old, from, fed, taps.thickness, plane.subspan(0, rows.cells * columns.cells));
        flat = &fed;
        std::fill(wide.begin(), wide.end(), 0.0);
        for (std::size_t r = 0; r < rows.cells; ++r) {
            for (const Tap& tap : taps.acrosses)
                wide[r * to.across + tap.to] += tap.weight * plane[r * columns.cells + tap.from];
        }
        for (const Tap& tap : taps.depths) {
            const double* source = &wide[tap.from * to.across];
            double* target = &next[tap.to * to.across];
            const double weight = tap.weight * fed.weight;
            for (std::size_t y = 0; y < to.across; ++y) target[y] += weight * source[y];
        }
    }
    if (refold.fresh.share > 0.0) lay_between(next, to, portion, refold.fresh, scratch);
}

}  // namespace battwright::carding
