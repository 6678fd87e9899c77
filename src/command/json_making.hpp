// Inside this room: the parts of the JSON that are about the carder and the wheel.
#pragma once

#include <nlohmann/json.hpp>

#include "forecast/batt.hpp"

namespace battwright::command {

nlohmann::ordered_json carding_json(const forecast::Forecast& forecast, const forecast::Batt& batt);
nlohmann::ordered_json yarn_json(const yarn::YarnForecast& yarn);

}  // namespace battwright::command
