// Inside this room: what the blend's optics say that would surprise its maker.
#pragma once

#include "forecast/forecast.hpp"

namespace battwright::forecast {

// Of a forecast whose components, colour, light and optics are filled in. Thresholds are common practice, no
// source:
// - colour-greys: two colours across the wheel cancel; at most three eighths of the chroma put in are left
// - dark-swallows: a little of a dark colour darkens the rest by 20 L* or more
// - streaks-do-not-show: laid to stripe, and no two colours are 6 CIEDE2000 apart
// - fleck-shows: a little of a colour 60 L* lighter or darker than the rest, at no more than two passes
// - parts-in-other-light: two components alike in this light that are not in another
std::vector<staple::Finding> colour_findings(const Forecast& f);

}  // namespace battwright::forecast
