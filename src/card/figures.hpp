// Inside this room: numbers as a card prints them.
#pragma once

#include <string>
#include <vector>

#include "measure/units.hpp"

namespace battwright::card {

struct Units {
    measure::MassUnit mass = measure::MassUnit::gram;
    measure::LengthUnit length = measure::LengthUnit::millimetre;
};

std::string number(double value, int decimals);
// As a person would weigh them out (0.1 g, 0.01 oz, 0.001 lb), still summing to the total.
std::vector<double> weighable(const std::vector<double>& grams, measure::MassUnit unit);
// Percentages to a tenth that still sum to 100.
std::vector<double> tenths(const std::vector<double>& percents);

}  // namespace battwright::card
