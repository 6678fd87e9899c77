// Units and numbers as a card prints them.
#pragma once

#include "measure/units.hpp"
#include "text/numbers.hpp"

namespace battwright::card {

struct Units {
    measure::MassUnit mass = measure::MassUnit::gram;
    measure::LengthUnit length = measure::LengthUnit::millimetre;
};

using measure::tenths;
using measure::weighable;
using text::number;

}  // namespace battwright::card
