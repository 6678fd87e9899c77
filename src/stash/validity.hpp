// Inside this room: is every row one that this program could have written?
#pragma once

#include <string>
#include <vector>

#include "fibre/catalogue.hpp"
#include "stash/database.hpp"

namespace battwright::stash {

// Adds a line for each row with something in it that could not have been entered: texts with control
// characters, figures that are not finite, words we do not have, marks and dates that are none, lots and
// skeins that would not be accepted. `remarks` gets what may only be unknown here: a kind of fibre that this
// catalogue does not have. Stops at `most` lines of a sort.
void check_rows(const Database& database, const fibre::Catalogue& catalogue, std::size_t most,
                std::vector<std::string>& problems, std::vector<std::string>& remarks);

}  // namespace battwright::stash
