// Inside this room: files that commands write.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "command/arguments.hpp"
#include "measure/replace.hpp"

namespace battwright::command {

// --replace, of every command that writes a file.
void add_replace_option(Command& app, bool& replace);

// What may be replaced, and what is read: no output goes onto any of `inputs`; empty names are left out.
measure::Saving saving_of(bool replace, const std::vector<std::string>& inputs);

}  // namespace battwright::command
