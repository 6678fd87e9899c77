// How much of something a recipe wants.
#pragma once

#include <variant>

#include "measure/units.hpp"

namespace battwright::recipe {

struct Percent {
    double value = 0.0;
    bool operator==(const Percent&) const = default;
};
struct Parts {
    double value = 0.0;
    bool operator==(const Parts&) const = default;
};
// How much of a component: a fixed weight, a percentage of the total, or parts of what is left.
using Amount = std::variant<measure::Mass, Percent, Parts>;

}  // namespace battwright::recipe
