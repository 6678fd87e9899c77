#include "carding/refold.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "carding/dice.hpp"
#include "carding/words.hpp"

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

// Taps of one piece's stretch to the full line: target cells over the source cells of the whole line.
std::vector<Tap> stretch_taps(std::size_t cells, std::size_t piece, std::size_t pieces, bool mirrored) {
    std::vector<Tap> taps;
    const double n = static_cast<double>(cells), k = static_cast<double>(pieces);
    for (std::size_t to = 0; to < cells; ++to) {
        const double a = (static_cast<double>(piece) * n + static_cast<double>(to)) / k;
        const auto near = static_cast<std::size_t>(a);
        for (std::size_t i = near > 2 ? near - 2 : 0; i < std::min(cells, near + 4); ++i) {
            const double weight = k * (integral(i, cells, a + 1.0 / k) - integral(i, cells, a));
            if (weight > 1e-14) taps.push_back({mirrored ? cells - 1 - to : to, i, weight});
        }
    }
    return taps;
}

void stretch(const double* from, double* to, const std::vector<Tap>& taps, const Grid& grid, bool across) {
    if (across) {
        for (const Tap& tap : taps) {
            const double* source = from + tap.from * grid.round;
            double* target = to + tap.to * grid.round;
            for (std::size_t x = 0; x < grid.round; ++x) target[x] += tap.weight * source[x];
        }
        return;
    }
    for (std::size_t y = 0; y < grid.across; ++y) {
        for (const Tap& tap : taps)
            to[y * grid.round + tap.to] += tap.weight * from[y * grid.round + tap.from];
    }
}

}  // namespace

Refold refold_of(Refeed refeed, int strips, const std::vector<double>& fresh_shares, int pass,
                 std::uint64_t seed, const Field& shape, const Spread& spread) {
    const Grid& grid = shape.grid;
    Refold refold;
    refold.across = refeed != Refeed::tear_and_fold;
    refold.pieces = static_cast<std::size_t>(pieces_of({Manner::layers, refeed}, strips));
    const double fresh = std::accumulate(fresh_shares.begin(), fresh_shares.end(), 0.0);
    const Dice dice = Dice(seed).with(3).with(static_cast<std::uint64_t>(pass));
    const double share = (1.0 - fresh) / static_cast<double>(refold.pieces);
    const auto add_piece = [&](std::size_t piece, double part) {
        const double turned = refold.across ? dice.uniform(piece) : 0.0;
        refold.order.push_back({false, piece, 0, share * part, turned, {}});
    };
    const std::size_t half = refold.pieces / 2;
    for (std::size_t piece = 0; piece < half; ++piece) add_piece(piece, 1.0);
    // A lone piece is opened in two so that there is something to lie between.
    if (half == 0) add_piece(0, fresh > 0.0 ? 0.5 : 1.0);
    for (std::size_t p = 0; p < fresh_shares.size(); ++p) {
        if (fresh_shares[p] > 0.0) refold.order.push_back({true, 0, p, fresh_shares[p], 0.0, {}});
    }
    for (std::size_t piece = half; piece < refold.pieces && half > 0; ++piece) add_piece(piece, 1.0);
    if (half == 0 && fresh > 0.0) add_piece(0, 0.5);

    double bottom = 0.0;
    for (Fed& fed : refold.order) {
        fed.depths = overlaps(fed.fresh ? 1 : grid.depth, bottom, bottom + fed.share, grid.depth);
        std::stable_sort(fed.depths.begin(), fed.depths.end(),
                         [](const Tap& a, const Tap& b) { return a.to < b.to; });
        bottom += fed.share;
    }
    for (std::size_t piece = 0; piece < refold.pieces; ++piece) {
        const double turned = refold.across ? dice.uniform(piece) : 0.0;
        refold.rounds.push_back(round_kernel(shape, refold.across ? spread.round_mm : 0.0, turned, 0.0));
        refold.stretches.push_back(stretch_taps(refold.across ? grid.across : grid.round, piece,
                                                refold.pieces, !refold.across && piece % 2 == 1));
    }
    // Through cell averages and the piecewise linear line a stretch spreads by a quarter of a squared old
    // cell.
    const double stretched = static_cast<double>(refold.pieces * refold.pieces) / 4.0;
    refold.already_across = refold.across ? stretched : 0.0;
    if (!refold.across) refold.after = round_kernel(shape, spread.round_mm, 0.0, stretched);
    return refold;
}

void refold_block(std::span<const double> from, std::span<double> to, std::size_t portion, const Field& shape,
                  const Refold& refold, std::vector<double>& scratch) {
    const Grid& grid = shape.grid;
    const std::size_t plane = shape.plane_size();
    std::fill(to.begin(), to.end(), 0.0);
    scratch.resize(2 * plane);
    const auto thin = std::span(scratch).subspan(0, plane), turned = std::span(scratch).subspan(plane, plane);
    for (const Fed& fed : refold.order) {
        if (fed.fresh) {
            if (fed.portion != portion) continue;
            for (const Tap& tap : fed.depths) {
                for (std::size_t i = 0; i < plane; ++i) to[tap.to * plane + i] += tap.weight;
            }
            continue;
        }
        for (std::size_t i = 0; i < fed.depths.size();) {
            const std::size_t target = fed.depths[i].to;
            std::fill(thin.begin(), thin.end(), 0.0);
            for (; i < fed.depths.size() && fed.depths[i].to == target; ++i) {
                const double* source = &from[fed.depths[i].from * plane];
                const double weight = fed.depths[i].weight;
                for (std::size_t c = 0; c < plane; ++c) thin[c] += weight * source[c];
            }
            apply_round(refold.rounds[fed.piece], thin.data(), turned.data(), grid.across);
            stretch(turned.data(), &to[target * plane], refold.stretches[fed.piece], grid, refold.across);
        }
    }
    if (refold.across) return;
    scratch.assign(to.begin(), to.end());
    apply_round(refold.after, scratch.data(), to.data(), grid.depth * grid.across);
}

}  // namespace battwright::carding
