// Inside this room: the checks of one lot.
#pragma once

#include "solve/lot.hpp"

namespace battwright::solve {

// See work_out() for what is complained of.
measure::Expected<void> check_lot(const Lot& lot, const fibre::Catalogue& catalogue);

}  // namespace battwright::solve
