// The command line: reads arguments, asks the engine, prints. Computes nothing itself.
#pragma once

#include <functional>
#include <iosfwd>
#include <string>

#include "fibre/catalogue.hpp"

namespace battwright::command {

// Exit codes of the program.
inline constexpr int exit_well = 0;
inline constexpr int exit_spoils =
    1;  // `check` found what would spoil the batt; `label`, `scraps`, `match` have nothing to give
inline constexpr int exit_bad_input = 2;  // a file, an option or a value that cannot be used

// What the program is built with and talks to. `open_window` takes a recipe's path ("" for an empty bench)
// and gives the exit code; empty when there is no window or no display to open one on.
struct Surroundings {
    std::function<int(const std::string&, const fibre::Catalogue&)> open_window;
    std::ostream* out = nullptr;
    std::ostream* err = nullptr;
};

// Runs the program. Every error is one line on `err`.
int run(int argc, const char* const* argv, const Surroundings& surroundings);

}  // namespace battwright::command
