// Calendar dates as the stash keeps them: "2024-05-17", or "" where nobody remembers.
#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::stash {

// A day of the proleptic Gregorian calendar from "2024-05-17" (ISO 8601, years 1000..9999); anything else,
// "" and 30 February among it, is a complaint.
measure::Expected<std::chrono::sys_days> parse_date(std::string_view text);
std::string print_date(std::chrono::sys_days day);
// The day by the clock on this machine's wall, where it stands.
std::string today();

}  // namespace battwright::stash
