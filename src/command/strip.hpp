// Pictures from the command line: the strip, and what lies on the table.
#pragma once

#include <limits>
#include <optional>
#include <string>

#include "card/table_sheet.hpp"
#include "command/arguments.hpp"
#include "command/command.hpp"
#include "forecast/forecast.hpp"
#include "strip/table.hpp"

namespace battwright::command {

// A number that was not given.
inline constexpr int as_usual = std::numeric_limits<int>::min();
// What the options of `strip` can say.
struct StripArguments {
    std::string recipe;
    std::string output;
    bool replace = false;
    int width = as_usual, height = as_usual;
    int passes = as_usual;
    std::string view = "edge";
    std::string pull = "torn-lengthwise";
    double from_pct = 0.0;
    bool table = false;
    bool each_pass = false;
    double zoom = 1.0;
    std::string middle = "50,50";
    std::string lengths = "mm", weights = "g";
};
void add_strip_options(Command& strip, StripArguments& args);

// What was asked for, once it is known to be sound.
struct StripRequest {
    bool table = false;
    std::optional<strip::TableView> view;  // none: one of the ways a batt is pulled off, below
    carding::Pull pull = carding::Pull::torn_lengthwise;
    strip::TableSettings ask;
    bool each_pass = false;
    measure::LengthUnit unit = measure::LengthUnit::millimetre;
    measure::MassUnit mass = measure::MassUnit::gram;
    int width = 0, height = 0;
};
StripRequest strip_asked(const StripArguments& args);
void write_strip(const forecast::Forecast& forecast, const StripArguments& args, const StripRequest& asked,
                 const Surroundings& s);

}  // namespace battwright::command
