// Inside this room: what is said of a drum, said of a board or of hand cards.
#pragma once

#include <span>
#include <string>

#include "recipe/carder.hpp"
#include "staple/findings.hpp"

namespace battwright::forecast {

// Whole words, as drum, tray, feed, fed and, of hand cards, pass; fibres' names in it stay as they are.
// Precondition: the carder has no drum.
std::string without_drum(const std::string& text, std::span<const std::string> names,
                         const recipe::Carder& carder);
void say_without_drum(staple::Finding& finding, std::span<const std::string> names,
                      const recipe::Carder& carder);

}  // namespace battwright::forecast
