// The shelf and the record from the command line.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "command/arguments.hpp"
#include "command/command.hpp"
#include "measure/complaint.hpp"
#include "stash/hands.hpp"
#include "stash/shelf.hpp"
#include "yarn/calibration.hpp"

namespace battwright::command {

// What a verb has to say on `out`, and how the program ends.
struct Answer {
    std::string text;
    int code = exit_well;
};
struct Context {
    const fibre::Catalogue& catalogue;
    const Surroundings& s;
};
// One word after `stash`: its options live with the work that reads them.
struct Verb {
    Command app;
    std::function<Answer(const Context&)> work;
};
struct StashCommands {
    Command stash;
    std::vector<Verb> verbs;
};

// What a person's own skeins and batts teach: of yarn, and of how her fibre blends and her hands mix; and the
// shelf, for the lots a recipe names (null without a stash).
struct Taught {
    yarn::Calibration calibration;
    stash::Hands hands;
    std::shared_ptr<const stash::Shelf> shelf{};
};
// What that file teaches, or the one at the usual place for "". A file that is not there teaches nothing and
// is not made. One at the usual place that cannot be read is told on `err` and teaches nothing; one that was
// named is a complaint.
Taught taught_from(const std::string& file, const fibre::Catalogue& catalogue, const Surroundings& s);
// "rests on 4 skeins of yours", or "" while there are none.
std::string skeins_words(int skeins);

}  // namespace battwright::command
