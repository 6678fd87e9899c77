#include "command/units.hpp"

namespace battwright::command {

using measure::Complaint;

measure::Expected<Units> parse_units(const std::string& weights, const std::string& lengths) {
    Units units;
    if (weights == "oz")
        units.mass = measure::MassUnit::ounce;
    else if (weights == "lb")
        units.mass = measure::MassUnit::pound;
    else if (weights != "g")
        return tl::unexpected(Complaint{"no weight unit '" + weights + "'", "use g, oz or lb", "--weights"});
    if (lengths == "in")
        units.length = measure::LengthUnit::inch;
    else if (lengths == "cm")
        units.length = measure::LengthUnit::centimetre;
    else if (lengths != "mm")
        return tl::unexpected(Complaint{"no length unit '" + lengths + "'", "use mm, cm or in", "--lengths"});
    return units;
}

}  // namespace battwright::command
