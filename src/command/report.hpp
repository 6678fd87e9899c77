// A forecast as text for a person, and as JSON for a program.
#pragma once

#include <string>

#include "forecast/batt.hpp"
#include "forecast/forecast.hpp"
#include "measure/units.hpp"

namespace battwright::command {

struct Units {
    measure::MassUnit mass = measure::MassUnit::gram;
    measure::LengthUnit length = measure::LengthUnit::millimetre;
};

// Composition, staple, colour and findings, a few dozen short lines.
std::string forecast_text(const forecast::Forecast& forecast, const forecast::Batt& batt, const Units& units);
// The part of it that is about the carder and the wheel.
std::string making_text(const forecast::Forecast& forecast, const forecast::Batt& batt, const Units& units);
// The findings alone: severity, text, remedy, what it rests on.
std::string findings_text(const forecast::Forecast& forecast, const Units& units);
// The stable keys, units in their names, numbers unrounded.
std::string forecast_json(const forecast::Forecast& forecast, const forecast::Batt& batt);

}  // namespace battwright::command
