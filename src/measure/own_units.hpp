// What the stash says of weights and lengths, in the user's own units: the engine speaks grams and metres.
#pragma once

#include <string>

#include "measure/complaint.hpp"
#include "measure/units.hpp"

namespace battwright::measure {

struct OwnUnits {
    MassUnit mass = MassUnit::gram;
    YarnLengthUnit length = YarnLengthUnit::metre;
    bool operator==(const OwnUnits&) const = default;
};
// "the lot has 40 g left, less than 56.7 g": each number that stands before g or m alone is printed anew in
// the user's units. What stands in quotes is somebody's own words and stays.
std::string in_units(const std::string& words, const OwnUnits& units);
Complaint in_units(Complaint complaint, const OwnUnits& units);

}  // namespace battwright::measure
