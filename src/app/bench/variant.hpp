#pragma once

#include <cstddef>
#include <string>

#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"

namespace battwright::app {

// A batt kept to be compared with others.
struct Variant {
    unsigned long number = 0;  // its own, as long as the window is open
    std::string name;
    Sheet sheet;
    Outcome outcome;
};
inline constexpr std::size_t most_variants = 4;

}  // namespace battwright::app
