// Inside this room: what to mind at the carder.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "carding/plan.hpp"

namespace battwright::carding {

std::vector<Caution> cautions_of(std::span<const Portion> portions, std::span<const recipe::Strand> strands,
                                 const recipe::Carder& carder, double batt_grams);

}  // namespace battwright::carding
