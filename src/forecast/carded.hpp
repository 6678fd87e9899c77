// Inside this room: a forecast as the simulation and its measures want it.
#pragma once

#include <vector>

#include "carding/measures.hpp"
#include "carding/simulate.hpp"
#include "forecast/batt.hpp"

namespace battwright::forecast {

carding::BattObserver eye_of(const Forecast& f, const std::vector<carding::Portion>& portions);
carding::Setup setup_for(const Forecast& f, const BattRequest& request);

}  // namespace battwright::forecast
