// Inside this room: how every command says that its input cannot be used.
#pragma once

#include "command/command.hpp"
#include "measure/complaint.hpp"

namespace battwright::command {

// The complaint as a line on `err`; gives the exit code.
int complain(const measure::Complaint& complaint, const Surroundings& s);

}  // namespace battwright::command
