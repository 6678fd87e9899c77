// Inside this room: the fibre as it is carded, as a picture over the full width of a page.
#pragma once

#include "card/page.hpp"
#include "forecast/forecast.hpp"

namespace battwright::card {

// Ten times as wide as high, over 300 dpi on an A6 card; drawn when it is shown.
Picture strip_picture(const forecast::Forecast& forecast);

}  // namespace battwright::card
