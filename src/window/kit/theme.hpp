// Colours and sizes of the window: a light and a dark theme, warm and quiet. Fibre colours never pass through
// here.
#pragma once

#include <string>
#include <vector>

#include "colour/spectrum.hpp"
#include "window/room.hpp"

namespace battwright::app {
enum class Shade;
}

namespace battwright::window {

struct Theme {
    colour::Srgb ground;      // behind the panels
    colour::Srgb panel;       // panels
    colour::Srgb raised;      // buttons at rest, rows
    colour::Srgb hover;       // the same under the pointer
    colour::Srgb chosen;      // the one chosen of several
    colour::Srgb field;       // where one types
    colour::Srgb edge;        // outlines of fields and buttons
    colour::Srgb line;        // quiet rules between things; carries no meaning
    colour::Srgb ink;         // text
    colour::Srgb quiet;       // secondary text
    colour::Srgb accent;      // the thing to do
    colour::Srgb accent_ink;  // text on it
    colour::Srgb advice;      // findings by severity, as text and marks
    colour::Srgb warning;
    colour::Srgb spoils;
};
const Theme& theme_for(Shade shade);

// Contrast ratio of two colours, 1..21: (L1 + 0.05) / (L2 + 0.05) with the relative luminances of
// WCAG 2.1, definitions "contrast ratio" and "relative luminance".
double contrast_ratio(const colour::Srgb& first, const colour::Srgb& second);

// Every pair of colours the window puts on each other, and the ratio WCAG 2.1 AA asks of it: 4.5 for text
// (1.4.3), 3 for outlines and marks (1.4.11).
struct ContrastPair {
    std::string name;
    colour::Srgb upper, lower;
    double least = 4.5;
};
std::vector<ContrastPair> contrast_pairs(const Theme& theme);

// Black or white, whichever reads better on the colour (for text on fibre colours).
colour::Srgb readable_on(const colour::Srgb& ground);

}  // namespace battwright::window
