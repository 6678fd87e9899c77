#include "carding/flat.hpp"

#include <algorithm>
#include <numeric>

#include "carding/habits.hpp"
#include "carding/overlap.hpp"

namespace battwright::carding {
namespace {

// Takes half of what lies within reach, from the outermost cell down, off `left` and gives it back.
std::vector<double> taken(std::vector<double>& left, double reach) {
    std::vector<double> gone(left.size(), 0.0);
    for (std::size_t z = left.size(); z-- > 0 && reach > 0.0;) {
        const double within = std::min(left[z], reach);
        gone[z] = habits::stroke_takes * within;
        reach -= left[z];
        left[z] -= gone[z];
    }
    return gone;
}

// Lays what went over on what has gone over before, which fills the new depth up to `bottom`.
void lay_over(const std::vector<double>& gone, double& bottom, Transfer& transfer) {
    const double cells = static_cast<double>(transfer.depth);
    const double mass = std::accumulate(gone.begin(), gone.end(), 0.0);
    if (!(mass > 0.0)) return;
    const double top = std::min(1.0, bottom + mass / cells);
    for (const Tap& tap : overlaps(1, bottom, top, transfer.depth)) {
        for (std::size_t z = 0; z < gone.size(); ++z)
            transfer.weights[tap.to * transfer.depth + z] += tap.weight * gone[z] / mass;
    }
    bottom += mass / cells;
}

}  // namespace

Transfer transfer_of(std::size_t depth, double reach_share) {
    Transfer transfer{depth, std::vector<double>(depth * depth, 0.0), 0};
    const double cells = static_cast<double>(depth);
    std::vector<double> left(depth, 1.0);  // in cells
    double bottom = 0.0;
    const auto remains = [&] { return std::accumulate(left.begin(), left.end(), 0.0); };
    while (transfer.strokes < habits::most_strokes && remains() > habits::stroked_until * cells) {
        lay_over(taken(left, reach_share * cells), bottom, transfer);
        ++transfer.strokes;
    }
    // The rest comes off as a web and is laid face down.
    for (std::size_t z = depth; z-- > 0;) {
        std::vector<double> one(depth, 0.0);
        one[z] = left[z];
        lay_over(one, bottom, transfer);
    }
    return transfer;
}

double reach_of_strokes(const recipe::Carder& carder, double load_grams) {
    if (carder.kind != ToolKind::hand_cards || !(load_grams > 0.0)) return 1.0;
    return std::min(1.0, habits::stroke_reach * carder.load_high_grams / load_grams);
}

Motion motion_of(const Setup& setup, std::size_t depth) {
    Motion motion{setup.tool, setup.spread, {}};
    if (setup.tool == ToolKind::hand_cards) motion.transfer = transfer_of(depth, setup.reach_share);
    return motion;
}

void move_about(std::span<double> block, const Field& shape, const Motion& motion, const Already& already,
                std::vector<double>& scratch) {
    if (motion.tool == ToolKind::hand_cards) {
        const std::size_t plane = shape.plane_size(), depth = motion.transfer.depth;
        std::vector<double> over(block.size(), 0.0);
        for (std::size_t to = 0; to < depth; ++to) {
            for (std::size_t from = 0; from < depth; ++from) {
                const double weight = motion.transfer.weights[to * depth + from];
                if (!(weight > 0.0)) continue;
                for (std::size_t i = 0; i < plane; ++i)
                    over[to * plane + i] += weight * block[from * plane + i];
            }
        }
        std::copy(over.begin(), over.end(), block.begin());
    }
    spread_block(block, shape, motion.spread, already, scratch);
    if (motion.tool != ToolKind::drum) spread_along(block, shape, motion.spread.round_mm, scratch);
}

}  // namespace battwright::carding
