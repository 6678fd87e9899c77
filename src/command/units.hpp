// The units a person asks for on the command line.
#pragma once

#include "command/report.hpp"

namespace battwright::command {

// Units by their words, "g" and "mm"; the complaint names the option.
Units parse_units(const std::string& weights, const std::string& lengths);

// "m" or "yd"; likewise.
measure::YarnLengthUnit yarn_length_unit(const std::string& lengths);
// "g, oz or lb": what there is to ask for.
std::string mass_units_printed();
std::string length_units_printed();
std::string yarn_length_units_printed();

}  // namespace battwright::command
