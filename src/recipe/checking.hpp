// Inside this room: the pieces of check().
#pragma once

#include <string>

#include "recipe/fault.hpp"
#include "recipe/limits.hpp"

namespace battwright::recipe {

// "the weight", how small and large it may be, and how a value of it is printed.
struct Figure {
    std::string noun;
    Range range;
    std::string (*print)(double) = nullptr;
};

// Not finite, zero, negative, too small or too large.
Suspicion outside(double value, const Figure& figure, const std::string& field);
// Not UTF-8, control characters, too long, blank. Notes may have line breaks and tabs; an empty text passes.
Suspicion bad_text(const std::string& text, bool notes, const std::string& field);

std::string print_plain(double value);
std::string print_percentage(double value);
std::string print_micrometres(double value);
std::string print_millimetres(double value);
std::string print_weight(double grams);

// Wide enough for any hand carder, narrow enough to catch a slipped decimal point.
inline constexpr Range weight_grams{0.01, 5000.0};
// How far a sum of weights may be from closing, the larger of the two, and a sum of percentages.
inline constexpr double closing_grams = 0.01, closing_share = 0.0005;
inline constexpr double closing_percent = 0.05;

// What a component or a thread (whose field is `place`) is made of: unknown kinds, kinds without a colour
// where one is needed, shares that do not close.
Suspicion bad_fibres(const std::vector<Content>& content, const std::string& place, bool needs_colour,
                     const fibre::Catalogue& catalogue);
Suspicion bad_series(const Recipe& recipe);
// Everything about one component but its duplicates.
Suspicion bad_component(const Recipe& recipe, std::size_t index, const fibre::Catalogue& catalogue);

}  // namespace battwright::recipe
