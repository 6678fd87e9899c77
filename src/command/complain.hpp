// Inside this room: how every command says that its input cannot be used. Nearly every line of a command can
// fail, so in here a complaint travels as an exception; run() tells it.
#pragma once

#include <functional>

#include "command/command.hpp"
#include "measure/failed.hpp"

namespace battwright::command {

using measure::Complaint;
using measure::Expected;
using measure::fail;
using measure::Failed;
using measure::guarded;
using measure::value_of;

// The complaint as a line on `err`; gives the exit code.
int complain(const measure::Complaint& complaint, const Surroundings& s);

// Runs the work and then says what it had to say: what a recipe or a stash of a stranger holds gives no
// orders to the terminal, and output that cannot be written (a full disk at the other end) is a complaint. A
// window opens after what was said before it. Gives the exit code.
int with_words_told(const Surroundings& s, const std::function<int(const Surroundings&)>& work);

}  // namespace battwright::command
