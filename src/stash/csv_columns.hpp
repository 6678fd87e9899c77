// Inside this room: the names of the lots' table, the same out and in.
#pragma once

#include <string>
#include <vector>

namespace battwright::stash {

const std::vector<std::string>& lot_columns();

}  // namespace battwright::stash
