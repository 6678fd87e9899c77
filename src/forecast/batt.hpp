// What carding does to the batt: the simulated field after each pass, and what is measured on it. Slower than
// the forecast itself (milliseconds), so it is a value of its own that can be made on another thread.
#pragma once

#include <utility>
#include <vector>

#include "carding/measures.hpp"
#include "carding/simulate.hpp"
#include "forecast/forecast.hpp"

namespace battwright::forecast {

struct BattRequest {
    int passes = 0;       // 0: as the recipe says
    bool coarse = false;  // a first answer, from an eighth of the cells
    int threads = 0;      // 0: as many as there are; the result does not depend on it
};

struct Batt {
    std::vector<carding::Portion> portions;
    std::vector<carding::Pass> passes;        // one entry a pass
    std::vector<carding::Measures> measures;  // the same order
    carding::OverCarding over_carding;
};

// One of the forecast's equal batts, carded. Deterministic: the same forecast gives the same digits.
Batt batt_of(const Forecast& forecast, const BattRequest& request = {});
// Whether the batt's portions have each strand of the forecast in one of them, and the pass each portion:
// what all that is made of a pass believes. (Passes of the same strands carded otherwise are not told apart.)
bool is_of(const Forecast& forecast, const Batt& batt, const carding::Pass& pass);

// The answer for each look, striped first.
std::vector<std::pair<carding::Look, carding::PassesFor>> passes_for_looks(const Forecast& forecast);
// The same with everything fed in alternating thin layers, the way to a heather.
carding::PassesFor passes_for_in_turn(const Forecast& forecast, carding::Look look);
// Passes until the batt looks at least so well mixed, and the risk of neps at that number.
carding::PassesFor passes_for(const Forecast& forecast, carding::Look look);

}  // namespace battwright::forecast
