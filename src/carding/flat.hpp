// Inside this room: how one pass moves fibre about, on each kind of tool.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "carding/simulate.hpp"

namespace battwright::carding {

// Hand cards: what one transfer, stroke by stroke, does to the depth. Fibre of the outermost `reach_share` of
// the load stands within reach of the other card's teeth, and half of what is within reach goes over on each
// stroke (two cloths of equal collecting power part what they both hold alike); what goes over lies on what
// has gone over before, and what is left comes within reach. When a tenth is left, or the strokes grow many,
// it is taken over in one, as a web laid face down. So the depth is turned over, and mixed the more the
// deeper the teeth reach: a thin load more than a thick one. `depth` cells each way, to * depth + from; rows
// and columns sum to 1, so mass is kept.
struct Transfer {
    std::size_t depth = 1;
    std::vector<double> weights;
    int strokes = 1;
};
Transfer transfer_of(std::size_t depth, double reach_share);

// The `reach_share` of a load on hand cards, thinner loads being reached deeper; 1 on other tools.
double reach_of_strokes(const recipe::Carder& carder, double load_grams);

// What a pass does to a block once it lies on the tool: a drum's and a brush's spread, hand cards' transfer.
struct Motion {
    ToolKind tool = ToolKind::drum;
    Spread spread;
    Transfer transfer;  // hand cards
};
Motion motion_of(const Setup& setup, std::size_t depth);
void move_about(std::span<double> block, const Field& shape, const Motion& motion, const Already& already,
                std::vector<double>& scratch);

}  // namespace battwright::carding
