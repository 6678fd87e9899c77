// What each command says with --json, as JSON Schema (draft 2020-12). The files lie in schemas/; a change
// that takes a key away or gives it another meaning counts the version in `$id` one up.
#pragma once

#include <span>
#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::command {

struct Schema {
    std::string_view command;  // its words joined by a hyphen: "stash-list"
    std::string_view text;
};

// In the order of their names.
std::span<const Schema> schemas();

// The schema of a command, "stash list" or "stash-list". A command that says nothing as JSON is a complaint.
measure::Expected<std::string_view> schema_of(std::string_view command);

}  // namespace battwright::command
