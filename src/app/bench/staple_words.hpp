// What the staple's figures say in the user's units, with how far they may be off. No display.
#pragma once

#include <string>
#include <vector>

#include "app/settings.hpp"
#include "forecast/staple_diagram.hpp"

namespace battwright::app {

struct StapleWords {
    std::string mean_length;    // "66 mm \u00b16"
    std::string mean_diameter;  // "23.1 \u00b5m \u00b11.2"
    std::string prickle;        // "18.0 % \u00b19"
    // "give or take 6 mm, ..."; empty when nothing is in doubt.
    std::string length_doubt, diameter_doubt, prickle_doubt;
    std::string feel;                     // "Fit for: next to the skin"; empty without a fibre
    std::vector<std::string> inclusions;  // a line for each thing that lies among the fibres
};
StapleWords staple_words(const forecast::Forecast& forecast, const Settings& settings);

// Of a place on the staple diagram: "75 mm: 60 % of the fibres are at least this long; around here most are
// merino". Precondition: the diagram has classes.
std::string words_at(double mm, const forecast::Forecast& forecast, const forecast::StapleDiagram& diagram,
                     const Settings& settings);

// A figure of the catalogue with what is published of it: "75 mm (60 to 100)", "75 mm, a guess".
struct KindFigure {
    std::string words;
    bool guess = false;
    std::string source;  // in full; empty for a guess
};
KindFigure staple_figure(const fibre::Kind& kind, const Settings& settings);
KindFigure diameter_figure(const fibre::Kind& kind);
// Which of the figures that no row shows are only remembered: "guesses: spread of the length, crimp"; empty
// when none is.
std::string other_guesses(const fibre::Kind& kind);

// A text of quantities (staple::words_in) in the user's units, micrometres as the window writes them.
std::string in_own_units(const std::string& text_with_quantities, const Settings& settings);

}  // namespace battwright::app
