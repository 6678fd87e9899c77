#include "carding/refold.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/columns.hpp"
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
        // The line through a cell's centre reaches to those of its neighbours.
        const auto near = static_cast<std::size_t>(a), far = static_cast<std::size_t>(b) + 1;
        for (std::size_t i = near > 0 ? near - 1 : 0; i <= far && i < cells; ++i) {
            const double weight = (integral(i, cells, b) - integral(i, cells, a)) / (b - a);
            if (weight > 1e-14) taps.push_back({t, i, weight * (end - begin) * m});
        }
    }
    return taps;
}

// Through the piecewise linear line a stretch spreads by a quarter of a squared old cell, seen in new cells.
double spread_by(std::size_t cells, const Part& part, std::size_t targets, double extent) {
    if (cells == 1) return 0.0;
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

// The depth cells of the pieces in a column in which under, between and over them so much is laid.
std::vector<Tap> parted_depth(double cut, double under, double over, double rest, std::size_t depth) {
    std::vector<Tap> taps;
    const double below = cut * rest, above = (1.0 - cut) * rest;
    const auto lower = [&](double at) { return under + below * std::min(at, cut) / cut; };
    const auto upper = [&](double at) {
        return 1.0 - over - above * (1.0 - std::max(at, cut)) / (1.0 - cut);
    };
    for (std::size_t z = 0; z < depth; ++z) {
        const double low = static_cast<double>(z) / static_cast<double>(depth);
        const double high = static_cast<double>(z + 1) / static_cast<double>(depth);
        const auto add = [&](double from, double to) {
            if (to - from < 1e-15) return;
            for (Tap tap : overlaps(1, from, to, depth)) taps.push_back({tap.to, z, tap.weight});
        };
        add(lower(low), lower(high));
        add(upper(low), upper(high));
    }
    return taps;
}

// How unevenly a lay without a place of its own lies beside the pieces, which are uneven too: mean 0.
std::vector<double> uneven_beside(const Field& line, std::span<const double> pieces, std::uint64_t number,
                                  std::uint64_t seed) {
    auto apart = evened(handfuls_across(line, seed, number));
    for (std::size_t y = 0; y < apart.size(); ++y) apart[y] -= pieces[y];
    return apart;
}

// Pieces and fresh fibre both lie unevenly, and share the column: f (1 + a) over that and (1 - f) (1 + b).
// What has a place of its own, or comes in dabs, makes the batt thicker where it lies.
void set_thickness(const std::vector<FreshLay>& lays, const Field& shape, std::uint64_t seed, int pass,
                   std::size_t portions, Fresh& fresh) {
    const std::size_t columns = shape.plane_size(), round = shape.grid.round;
    const auto number = [pass](std::size_t lay) { return 64 * static_cast<std::uint64_t>(pass) + lay; };
    const auto pieces = evened(handfuls_across(shape, seed, number(portions)));
    std::vector<double> full(columns, 1.0 - fresh.share);
    for (const Fresh::Layer& layer : fresh.layers) {
        const FreshLay& own = lays[layer.lay];
        const bool even_over = own.lay.all_over() && !(own.lay.dab_mm > 0.0);
        std::vector<double> thick(columns, own.share);
        if (even_over) {
            for (double& f : full) f += own.share;
            const std::size_t named =
                own.lay.blend == no_blend ? own.lay.portion : portions + 1 + own.lay.blend;
            const auto apart = uneven_beside(shape, pieces, number(named), seed);
            const auto [least, most] = std::minmax_element(apart.begin(), apart.end());
            // Some fibre everywhere, and never more than there is room for.
            const double within =
                std::min({habits::late_uneven * (1.0 - fresh.share), 0.95 / std::abs(*least),
                          0.9 * (1.0 - fresh.share) / (fresh.share * std::abs(*most))});
            for (std::size_t c = 0; c < columns; ++c) thick[c] *= 1.0 + within * apart[c / round];
        } else {
            thick = placed_thickness(own.lay, own.number, shape, seed);
            for (std::size_t c = 0; c < columns; ++c) full[c] += thick[c] *= own.share;
        }
        fresh.thickness.insert(fresh.thickness.end(), thick.begin(), thick.end());
    }
    if (std::all_of(full.begin(), full.end(), [](double f) { return std::abs(f - 1.0) < 1e-9; })) return;
    evened_columns(fresh.thickness, full, shape.grid);
    fresh.placing = placing_of(full, shape.grid);
}

// Where the pieces go in the columns that are left to them, slice by slice round the drum.
void move_aside(const Field& shape, Fresh& fresh) {
    const std::size_t columns = shape.plane_size(), round = shape.grid.round;
    std::vector<double> rest(columns, 1.0), under(columns, 0.0), over(columns, 0.0);
    for (std::size_t i = 0; i < fresh.layers.size(); ++i) {
        const auto lies = fresh.layers[i].lies;
        for (std::size_t c = 0; c < columns; ++c) {
            const double thick = fresh.thickness[i * columns + c];
            rest[c] -= thick;
            if (lies == recipe::Lies::under) under[c] += thick;
            if (lies == recipe::Lies::over) over[c] += thick;
        }
    }
    for (std::size_t x = 0; x < round; ++x) {
        std::vector<double> slice(shape.grid.across);
        for (std::size_t y = 0; y < slice.size(); ++y) slice[y] = std::max(0.0, rest[y * round + x]);
        const auto edges = edges_of(slice);
        for (std::size_t y = 0; y < slice.size(); ++y) {
            if (edges[y + 1] - edges[y] < 1e-14) continue;
            for (Tap tap : window(slice.size(), edges[y], edges[y + 1])) {
                tap.to = y * round + x;
                fresh.moved.push_back(tap);
            }
        }
    }
    for (std::size_t c = 0; c < columns; ++c)
        fresh.depths.push_back(
            parted_depth(fresh.cut, under[c], over[c], std::max(0.0, rest[c]), shape.grid.depth));
}

Fresh fresh_of(const std::vector<Fed>& order, const std::vector<FreshLay>& lays, const Field& shape,
               std::uint64_t seed, int pass) {
    Fresh fresh;
    fresh.round = shape.grid.round;
    for (const auto& [lies, word] : recipe::lies_words) {
        for (std::size_t i = 0; i < lays.size(); ++i) {
            if (lays[i].lay.lies != lies || !(lays[i].share > 0.0)) continue;
            fresh.layers.push_back({lays[i].content, i, lies});
            fresh.share += lays[i].share;
            if (lies == recipe::Lies::under) fresh.under += lays[i].share;
            if (lies == recipe::Lies::between) fresh.between += lays[i].share;
        }
    }
    if (fresh.layers.empty()) return fresh;
    const std::size_t half = order.size() / 2;
    if (half > 0 && order[half].bottom > 0.0) fresh.cut = order[half].bottom;
    set_thickness(lays, shape, seed, pass, lays.front().content.shares.size(), fresh);
    for (Fresh::Layer& layer : fresh.layers) layer.lay = lays[layer.lay].number;
    move_aside(shape, fresh);
    return fresh;
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
            const int n = static_cast<int>(std::clamp(fit, 1.0, double{recipe::most_strips}));
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

Refold refold_of(const std::vector<Fed>& order, const std::vector<FreshLay>& fresh, const Grid& from,
                 const Field& to, std::uint64_t seed, int pass) {
    Refold refold;
    refold.order = order;
    refold.fresh = fresh_of(order, fresh, to, seed, pass);
    for (const Fed& fed : order) {
        const Part& along = fed.part(fed.to_depth);
        const Part& across = fed.part(fed.to_across);
        const Part& through = fed.part(fed.averaged());
        const std::size_t rows = strides_of(fed.to_depth, from).cells;
        const std::size_t columns = strides_of(fed.to_across, from).cells;
        Refold::Taps taps;
        const std::size_t third = strides_of(fed.averaged(), from).cells;
        taps.thickness = fed.kept ? stretch_taps(third, through, to.grid.round, 0.0, 1.0)
                                  : window(third, through.from, through.to);
        taps.depths = stretch_taps(rows, along, to.grid.depth, fed.bottom, fed.top);
        taps.acrosses = stretch_taps(columns, across, to.grid.across, fed.left, fed.right);
        refold.already.depth = spread_by(rows, along, to.grid.depth, fed.top - fed.bottom);
        refold.already.across = spread_by(columns, across, to.grid.across, fed.right - fed.left);
        refold.taps.push_back(std::move(taps));
    }
    return refold;
}

double worth_of(const Content& content, std::size_t what) {
    if (what == second_moment) return content.second;
    return what == clumped_moment ? content.clumped : content.shares[what];
}

void lay_fresh(std::span<const double> pieces, std::span<double> block, const Grid& grid, std::size_t what,
               const Fresh& fresh) {
    const std::size_t across = grid.across, columns = across * grid.round;
    const std::size_t round = pieces.size() / (across * grid.depth);  // of the pieces
    std::vector<double> aside(grid.depth * columns, 0.0);
    for (std::size_t z = 0; z < grid.depth; ++z) {
        for (const Tap& tap : fresh.moved)
            aside[z * columns + tap.to] +=
                tap.weight * pieces[(z * across + tap.from) * round + (round > 1 ? tap.to % round : 0)];
    }
    std::fill(block.begin(), block.end(), 0.0);
    for (std::size_t c = 0; c < columns; ++c) {
        for (const Tap& tap : fresh.depths[c])
            block[tap.to * columns + c] += tap.weight * aside[tap.from * columns + c];
        double rest = 1.0, over = 0.0;
        for (std::size_t i = 0; i < fresh.layers.size(); ++i) {
            rest -= fresh.thickness[i * columns + c];
            if (fresh.layers[i].lies == recipe::Lies::over) over += fresh.thickness[i * columns + c];
        }
        double bottom = 0.0;
        recipe::Lies at = recipe::Lies::under;
        for (std::size_t i = 0; i < fresh.layers.size(); ++i) {
            const Fresh::Layer& layer = fresh.layers[i];
            if (layer.lies != at) {
                if (at == recipe::Lies::under) bottom += fresh.cut * rest;
                if (layer.lies == recipe::Lies::over) bottom = 1.0 - over;
                at = layer.lies;
            }
            const double top = std::min(1.0, bottom + fresh.thickness[i * columns + c]);
            const double worth = worth_of(layer.content, what);
            if (worth > 0.0)
                for (const Tap& tap : overlaps(1, bottom, top, grid.depth))
                    block[tap.to * columns + c] += worth * tap.weight;
            bottom = top;
        }
    }
}

void refold_block(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
                  std::size_t what, const Refold& refold, std::vector<double>& scratch) {
    if (refold.fresh.layers.empty()) {
        std::fill(next.begin(), next.end(), 0.0);
        return fold_pieces(old, from, next, to, refold, scratch);
    }
    const Grid plain{refold.keeps_all() ? to.round : 1, to.across, to.depth};
    std::vector<double> pieces(plain.round * plain.across * plain.depth, 0.0);
    fold_pieces(old, from, pieces, plain, refold, scratch);
    lay_fresh(pieces, next, to, what, refold.fresh);
}

void fold_pieces(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
                 const Refold& refold, std::vector<double>& scratch) {
    if (refold.keeps_all()) return fold_flat(old, from, next, to, refold, scratch);
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
}

}  // namespace battwright::carding
