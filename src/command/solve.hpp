// Inside this room: what the options of `scraps` and `match` say.
#pragma once

#include <string>
#include <vector>

#include "command/arguments.hpp"
#include "command/command.hpp"
#include "command/stash_common.hpp"
#include "command/stash_photo.hpp"

namespace battwright::command {

// What the options of `scraps` and `match` can say; empty texts were not given.
struct SolveArguments {
    Common common;     // --stash, --json, --weights
    std::string from;  // a recipe instead of the stash
    std::vector<std::string> kinds, lots;
    bool scraps_only = false;
    std::string target, to;
    int steps = 5;
    PhotoOptions photo;
    std::vector<std::string> use_up;
    bool oldest = false, smallest = false;
    std::string total, batts, carder;
    std::vector<std::string> bounds;
    std::string most_cost, staple_spread, least_staple, least_used, keep_back;
    int most_lots = 0;  // 0: not given
    std::string step = "0.1 g";
    std::string light2 = "A";
    std::string output, name;
    int take = 1;
    bool replace = false;
};
}  // namespace battwright::command
