// Inside this room: the colour of the recipe's fibre mixed in other weights.
#pragma once

#include <span>

#include "forecast/forecast.hpp"

namespace battwright::forecast {

// One weight a strand, of any scale.
colour::Spectrum blend_of_strands(const Forecast& f, std::span<const double> weights,
                                  const colour::OpticsModel& optics);
// One weight a component, of any scale, divided among its strands as the recipe does.
colour::Spectrum blend_of_components(const Forecast& f, std::span<const double> weights);

}  // namespace battwright::forecast
