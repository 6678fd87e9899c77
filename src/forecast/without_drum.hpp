// Inside this room: what is said of a drum, said of a board or of hand cards.
#pragma once

#include <string>

#include "recipe/carder.hpp"
#include "staple/findings.hpp"

namespace battwright::forecast {

// Whole words: drum, feed, fed and, of hand cards, pass. Precondition: the carder has no drum.
std::string without_drum(const std::string& text, const recipe::Carder& carder);
void say_without_drum(staple::Finding& finding, const recipe::Carder& carder);

}  // namespace battwright::forecast
