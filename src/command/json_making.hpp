// Inside this room: the parts of the JSON that are about the carder and the wheel.
#pragma once

#include "command/json_value.hpp"
#include "forecast/batt.hpp"

namespace battwright::command {

// "merino+silk".
std::string with_plus(const std::vector<std::string>& words);
Json carding_json(const forecast::Forecast& forecast, const forecast::Batt& batt);
Json yarn_json(const yarn::YarnForecast& yarn);

}  // namespace battwright::command
