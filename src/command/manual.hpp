// The manual page and the completion for bash, made from the same declarations as --help, so that neither can
// lag.
#pragma once

#include <string>

#include "command/arguments.hpp"

namespace battwright::command {

// What --help and the manual say last: files and exit codes.
std::string closing_words();

// A page of section 1 for man, as groff_man(7) describes it.
std::string manual_page(const DescribedCommand& program);

// A script for bash to source: completes commands, options, recipes and the names of the examples.
std::string bash_completion(const DescribedCommand& program);

}  // namespace battwright::command
