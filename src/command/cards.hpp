// Recipe cards, tags and content labels from the command line.
#pragma once

#include <string>
#include <vector>

#include "command/commands.hpp"
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
    bool skein = false, no_care = false, no_picture = false, no_draft = false;
    bool replace = false;
    bool new_wool = false, count_decorative = false, visible_pattern = false;
    Foretelling foretelling;
};
// A card with today's date on A6, for where there is no window.
void write_usual_card(const forecast::Forecast& forecast, const std::string& path,
                      const measure::Saving& saving);

}  // namespace battwright::command
