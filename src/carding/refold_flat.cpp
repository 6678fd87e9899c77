// One more pass on what lies flat: every line of the old batt is kept.
#include <algorithm>

#include "carding/refold.hpp"

namespace battwright::carding {
namespace {

// The sources that taps take from, first and one past the last.
std::pair<std::size_t, std::size_t> reach_of_taps(const std::vector<Tap>& taps) {
    std::size_t low = taps.empty() ? 0 : taps.front().from, high = low;
    for (const Tap& tap : taps) {
        low = std::min(low, tap.from);
        high = std::max(high, tap.from + 1);
    }
    return {low, high};
}

}  // namespace

Strides strides_of(Line line, const Grid& grid) {
    if (line == Line::round) return {grid.round, 1};
    if (line == Line::across) return {grid.across, grid.round};
    return {grid.depth, grid.round * grid.across};
}

void fold_flat(std::span<const double> old, const Grid& from, std::span<double> next, const Grid& to,
               const Refold& refold, std::vector<double>& scratch) {
    for (std::size_t i = 0; i < refold.order.size(); ++i) {
        const Fed& fed = refold.order[i];
        const Refold::Taps& taps = refold.taps[i];
        const Strides rows = strides_of(fed.to_depth, from), columns = strides_of(fed.to_across, from);
        const Strides third = strides_of(fed.averaged(), from);
        const auto [low, high] = reach_of_taps(taps.depths);
        const auto [left, right] = reach_of_taps(taps.acrosses);
        const std::size_t wide = right - left, plane = to.across * to.round;
        scratch.assign(wide * to.round + plane, 0.0);
        const auto along = std::span(scratch).subspan(0, wide * to.round);
        const auto spread = std::span(scratch).subspan(wide * to.round);
        for (std::size_t r = low; r < high; ++r) {
            std::fill(scratch.begin(), scratch.end(), 0.0);
            for (std::size_t c = left; c < right; ++c) {
                const double* line = &old[r * rows.step + c * columns.step];
                double* into = &along[(c - left) * to.round];
                for (const Tap& tap : taps.thickness)
                    into[tap.to] += tap.weight * line[tap.from * third.step];
            }
            for (const Tap& tap : taps.acrosses) {
                const double* source = &along[(tap.from - left) * to.round];
                double* into = &spread[tap.to * to.round];
                for (std::size_t x = 0; x < to.round; ++x) into[x] += tap.weight * source[x];
            }
            for (const Tap& tap : taps.depths) {
                if (tap.from != r) continue;
                double* target = &next[tap.to * plane];
                for (std::size_t j = 0; j < plane; ++j) target[j] += tap.weight * spread[j];
            }
        }
    }
}

std::vector<Fed> laid_pieces(Refeed refeed, int strips, double length_mm, double staple_mm) {
    std::vector<Fed> pieces = fed_pieces(refeed, strips, length_mm, staple_mm);
    const double count = static_cast<double>(pieces.size());
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        Fed& fed = pieces[i];
        const bool turned = fed.to_across == Line::round;
        const bool on_edge = fed.to_across == Line::depth;
        fed.kept = true;
        fed.weight = 1.0;
        fed.to_depth = on_edge ? Line::across : Line::depth;
        if (!turned && !on_edge) fed.to_across = Line::across;
        if (on_edge) continue;
        fed.bottom = static_cast<double>(i) / count;
        fed.top = static_cast<double>(i + 1) / count;
    }
    return pieces;
}

}  // namespace battwright::carding
