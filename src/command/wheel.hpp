// The wheel from the command line: a skein nobody labelled, and what a batt's yarn is enough for.
#pragma once

#include <string>

#include "command/arguments.hpp"
#include "command/command.hpp"
#include "forecast/forecast.hpp"

namespace battwright::command {

// What the options of `yarn` and `project` can say; empty texts were not given.
struct WheelArguments {
    std::string weight, circumference, sample_length, sample_weight, fibre, preparation;
    double turns = 0.0, wpi = 0.0;
    int plies = 2;  // as most handspun
    bool before_wash = false;
    bool json = false;
    std::string recipe;
    std::string thing;
    std::string lengths = "m";
    std::string weights = "g";
};
struct WheelCommands {
    Command yarn;
    Command project;
};

WheelCommands add_wheel_commands(Command& app, WheelArguments& args);

// Grist, class, length with its range and twist of a skein in hand; a line when wraps, weight and length
// disagree. The calibration is its spinner's own.
int run_yarn(const WheelArguments& args, const WheelCommands& commands, const fibre::Catalogue& catalogue,
             const yarn::Calibration& calibration, const Surroundings& s);
// The project table held against the recipe's yarn: enough or short, and how much to card.
int run_project(const WheelArguments& args, const forecast::Forecast& forecast, const Surroundings& s);

}  // namespace battwright::command
