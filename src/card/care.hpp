// Care and cautions in a few plain words.
#pragma once

#include <string>
#include <vector>

#include "forecast/forecast.hpp"

namespace battwright::card {

// How to wash what was spun from it: the mildest that any of its fibres asks for. Common practice, no source.
std::vector<std::string> care_of(const forecast::Forecast& forecast);
// For the maker and for the house: dust, sparkle, string and pets. Ends by deferring to local rules.
std::vector<std::string> cautions_of(const forecast::Forecast& forecast);

}  // namespace battwright::card
