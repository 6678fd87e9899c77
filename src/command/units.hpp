// The units a person asks for on the command line.
#pragma once

#include "command/report.hpp"

namespace battwright::command {

// "g", "oz", "lb" and "mm", "cm", "in"; the complaint names the option.
Units parse_units(const std::string& weights, const std::string& lengths);

// "m" or "yd"; likewise.
measure::YarnLengthUnit yarn_length_unit(const std::string& lengths);

}  // namespace battwright::command
