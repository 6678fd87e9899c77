#include "command/units.hpp"

#include "command/complain.hpp"

namespace battwright::command {

Units parse_units(const std::string& weights, const std::string& lengths) {
    Units units;
    if (weights == "oz")
        units.mass = measure::MassUnit::ounce;
    else if (weights == "lb")
        units.mass = measure::MassUnit::pound;
    else if (weights != "g")
        fail("no weight unit '" + weights + "'", "use g, oz or lb", "--weights");
    if (lengths == "in")
        units.length = measure::LengthUnit::inch;
    else if (lengths == "cm")
        units.length = measure::LengthUnit::centimetre;
    else if (lengths != "mm")
        fail("no length unit '" + lengths + "'", "use mm, cm or in", "--lengths");
    return units;
}

measure::YarnLengthUnit yarn_length_unit(const std::string& lengths) {
    if (lengths == "m") return measure::YarnLengthUnit::metre;
    if (lengths == "yd") return measure::YarnLengthUnit::yard;
    fail("no yarn length unit '" + lengths + "'", "use m or yd", "--lengths");
}

}  // namespace battwright::command
