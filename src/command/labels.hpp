// Inside this room: what the options of `tag` and `label` say of a content label.
#pragma once

#include <iosfwd>
#include <set>
#include <string>
#include <vector>

#include "card/content.hpp"
#include "command/cards.hpp"

namespace battwright::command {

int run_labels(const CardArguments& args, const Context& context);
void add_label_options(Command& app, CardArguments& args);
card::LabelOptions label_options(const CardArguments& args);
// "batt" or "yarn"; "": both.
std::vector<card::Product> products_of(const std::string& word);
// "eu" or "uk", "us"; `usual` when nothing was given.
card::Market market_of(const CardArguments& args, card::Market usual);

// Fails for a label that may not be given as asked, with the recipe it is for.
void fail_if_refused(const card::Label& label, const std::string& recipe);
// What the maker must know of it, a line each; what was `told` already is not told again.
void write_notes(const card::Label& label, std::set<std::string>& told, std::ostream& out);

}  // namespace battwright::command
