// Inside this room: what the forecast said of the batts a skein was spun from.
#pragma once

#include <optional>
#include <vector>

#include "command/stash_desk.hpp"
#include "forecast/forecast.hpp"

namespace battwright::command {

// What the spinner did otherwise than planned.
struct OtherPlan {
    int plies = 0;  // 0: as planned
    std::optional<recipe::Preparation> preparation;
};

// Length foretold for yarn from these batts, with the calibration the stash gives today; the yarn of several
// batts by their shares. Nothing, with a line on `err`, when a batt's recipe cannot be read any more or
// foretells no yarn.
Expected<std::optional<stash::Foretold>> foretold_for(const stash::Stash& stash,
                                                      const std::vector<stash::FromBatt>& from,
                                                      const OtherPlan& plan, const Desk& desk);

}  // namespace battwright::command
