// From the command line: a sample before the batt, and the batts of a series.
#pragma once

#include <string>

#include "command/arguments.hpp"
#include "command/command.hpp"
#include "forecast/forecast.hpp"

namespace battwright::command {

struct PlanArguments {
    std::string recipe, output;
    std::string weights = "g", lengths = "mm", step = "0.1 g";
    bool json = false, replace = false;
};
struct PlanCommands {
    Command sample;
    Command series;
};

PlanCommands add_plan_commands(Command& app, PlanArguments& args);

// The sample's card; with --output also its recipe as a file.
int run_sample(const PlanArguments& args, const forecast::Forecast& forecast, const forecast::Bench& bench,
               const Surroundings& s);
// One table to weigh by.
int run_series(const PlanArguments& args, const forecast::Forecast& forecast, const Surroundings& s);

}  // namespace battwright::command
