#include "carding/overlap.hpp"

#include <algorithm>
#include <cmath>

namespace battwright::carding {
namespace {

std::size_t cell_of(double position, std::size_t cells) {
    const double scaled = std::floor(position * static_cast<double>(cells) + 1e-12);
    return static_cast<std::size_t>(std::clamp(scaled, 0.0, static_cast<double>(cells - 1)));
}

}  // namespace

std::vector<Tap> overlaps(std::size_t cells, double low, double high, std::size_t targets) {
    std::vector<Tap> taps;
    const double count = static_cast<double>(cells), wide = static_cast<double>(targets);
    for (std::size_t from = 0; from < cells; ++from) {
        const double left = low + (high - low) * static_cast<double>(from) / count;
        const double right = low + (high - low) * static_cast<double>(from + 1) / count;
        for (std::size_t to = cell_of(left, targets); to < targets; ++to) {
            const double begin = static_cast<double>(to) / wide;
            if (begin >= right) break;
            const double shared = std::min(right, static_cast<double>(to + 1) / wide) - std::max(left, begin);
            if (shared > 1e-15) taps.push_back({to, from, shared * wide});
        }
    }
    return taps;
}

std::vector<Tap> window(std::size_t cells, double low, double high) {
    std::vector<Tap> taps;
    const double count = static_cast<double>(cells);
    double sum = 0.0;
    for (std::size_t from = cell_of(low, cells); from < cells; ++from) {
        const double begin = static_cast<double>(from) / count;
        if (begin >= high) break;
        const double shared = std::min(high, static_cast<double>(from + 1) / count) - std::max(low, begin);
        if (shared <= 1e-15) continue;
        taps.push_back({0, from, shared});
        sum += shared;
    }
    for (Tap& tap : taps) tap.weight /= sum;
    return taps;
}

}  // namespace battwright::carding
