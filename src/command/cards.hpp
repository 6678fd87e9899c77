// Recipe cards, tags and content labels from the command line.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "command/arguments.hpp"
#include "command/command.hpp"
#include "forecast/forecast.hpp"
#include "measure/replace.hpp"

namespace battwright::command {

// What the options of `card`, `tag` and `label` can say.
struct CardArguments {
    std::vector<std::string> recipes;
    std::string output;
    std::string page;
    std::string sheet;
    std::string as = "pdf";
    std::string parts;
    std::string weights = "g";
    std::string lengths = "mm";
    std::string date = "today";
    std::string market;
    std::string maker, lot, length, weight;
    std::vector<std::string> words, functional;
    std::string origin, of;
    bool skein = false, no_care = false, no_draft = false;
    bool replace = false;
    bool new_wool = false, count_decorative = false, visible_pattern = false;
};
struct CardCommands {
    Command card;
    Command tag;
    Command label;
};

CardCommands add_card_commands(Command& app, CardArguments& args);

// A recipe file's path to its forecast.
using Forecaster = std::function<measure::Expected<forecast::Forecast>(const std::string&)>;

// Each goes through all the recipes: one that fails is named on `err` and the others are made all the same;
// the exit code then says bad input.
int run_cards(const CardArguments& args, const Forecaster& forecast_of, const Surroundings& s);
int run_tags(const CardArguments& args, const Forecaster& forecast_of, const Surroundings& s);
int run_labels(const CardArguments& args, const Forecaster& forecast_of, const Surroundings& s);

// A card with today's date on A6, for where there is no window.
measure::Expected<void> write_usual_card(const forecast::Forecast& forecast, const std::string& path,
                                         const measure::Saving& saving);

}  // namespace battwright::command
