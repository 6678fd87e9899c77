// Places of a lay as the window says them: in the user's own unit, whatever the file has. No display.
#pragma once

#include <string>

#include "measure/units.hpp"
#include "recipe/laying.hpp"

namespace battwright::app {

// "0 to 60 mm", "left third", "25 % to 50 %".
std::string across_in_words(const recipe::Stretch& place, measure::LengthUnit unit);
std::string round_in_words(const recipe::Stretch& place, measure::LengthUnit unit);
// "20 mm", "5 %".
std::string extent_in_words(const recipe::Extent& extent, measure::LengthUnit unit);

// How thick fibre lies: "20 mg/cm²", or "0.66 oz/ft²" for who measures in inches.
std::string cover_in_words(double grams_per_cm2, measure::LengthUnit unit);
// The same read; a bare number is in `unit`'s. Grams on a square centimetre.
measure::Expected<double> parse_cover(const std::string& typed, measure::LengthUnit unit);

}  // namespace battwright::app
