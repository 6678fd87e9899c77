// What is wrong with the yarn planned, as a finding beside the mixture's own.
#pragma once

#include <optional>

#include "staple/findings.hpp"
#include "yarn/forecast.hpp"

namespace battwright::forecast {

// Too few fibres in the section of the single: below yarn::fewest_fibres() it spoils the plan, below
// least_fibres() it is a warning. Nothing for a plan of no yarn.
std::optional<staple::Finding> too_few_fibres(const yarn::YarnForecast& yarn);

}  // namespace battwright::forecast
