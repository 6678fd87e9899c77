#include "window/kit/terms.hpp"

#include <algorithm>

namespace battwright::window {

const std::vector<Term>& terms() {
    static const std::vector<Term> all{
        {"Mean length", "The plain average of all fibre lengths in the mixture, each fibre counted once.",
         "Morton & Hearle, Physical Properties of Textile Fibres"},
        {"Length in the yarn",
         "The average length of the fibres met at one place along the yarn. Long fibres reach farther, so "
         "they "
         "are met more often: it is the mean length times (1 + CV\u00b2).",
         "Morton & Hearle, Physical Properties of Textile Fibres"},
        {"Spread", "CV, the standard deviation as a percentage of the mean. Small: all alike, drafts evenly.",
         "Standard statistics"},
        {"Short fibre",
         "The share by weight that is under 25 mm (1 in). Short fibre is held only by the fibre "
         "around it, sheds and makes neps.",
         "Common practice, no source"},
        {"Longest", "The length that only one fibre in twenty exceeds. Very long fibre wraps round the drum.",
         "Common practice, no source"},
        {"Thickness",
         "The average fibre diameter in micrometres (microns). Under about 22 is next-to-skin for "
         "most people.",
         "Common practice, no source"},
        {"Prickle", "The share of fibres over 30 micrometres, which are stiff enough to be felt on the skin.",
         "Common practice for the limit; the share is computed from the diameters"},
        {"Fibre weight",
         "Linear density: tex is grams per 1,000 metres, here of a single fibre, averaged by "
         "number.",
         "ISO 1144 for the unit"},
        {"Hands apart", "How far apart to keep the hands when drafting: about the staple length.",
         "Common practice, no source"},
        {"Twist to start",
         "The angle the fibres at the surface of the yarn make with its length. Short and slick "
         "fibre wants more.",
         "Common practice, no source"},
        {"Lab",
         "The colour in CIE L*a*b*: lightness 0 to 100, then green to red, then blue to yellow. Equal "
         "steps look about equal.",
         "CIE 15, Colorimetry"},
        {"Passes",
         "How often the batt goes through the carder. One pass keeps colours apart, three blend them, "
         "past five the fibre suffers.",
         "Common practice, no source"},
        {"Strips",
         "Into how many lengthwise strips the batt is torn before it is fed again. Each pass "
         "multiplies the number of streaks by it.",
         "The baker's transformation of mixing theory"},
        {"Transfers",
         "How often all of the fibre is stroked over from one hand card to the other. Three or four make an "
         "even rolag.",
         "Common practice, no source"},
        {"Rolags",
         "In how many rolls the fibre is drawn off a blending board, each spun from its end. 0: lifted off "
         "whole, as a batt.",
         "Common practice, no source"},
        {"Load",
         "How much clean fibre the drum holds in one batt before it reaches over the tips of the teeth.",
         "Common practice, no source"},
        {"Licker-in", "The small drum that feeds the big one.", "Common practice, no source"},
        {"Diz", "A disc with a hole, to draw roving off a batt through.", "Common practice, no source"},
        {"Sideways", "A strip fed with its fibres across, not along.", "Common practice, no source"},
        {"Tease", "To open locks by hand before they are fed.", "Common practice, no source"},
        {"Pick", "To open locks with a toothed box.", "Common practice, no source"},
        {"Base layer", "The first on the drum, of fibre that grips.", "Common practice, no source"},
        {"Variegated", "Colours side by side.", "Common practice, no source"},
        {"Semi-solid", "Nearly one colour.", "Common practice, no source"},
        {"Tweedy", "Specks in a plain ground.", "Common practice, no source"},
        {"Muddy", "Colours gone to grey.", "Common practice, no source"},
        {"Homogeneous", "One colour all through.", "Common practice, no source"},
        {"Second cuts", "Short bits where the shears went over a place twice.", "Common practice, no source"},
        {"Carding waste", "What is left in the teeth and under the drum.", "Common practice, no source"},
        {"Parts", "Parts share what weights and percentages leave over, in proportion.",
         "This tool's own rule"},
        {"Lock",
         "What you typed last holds, what is locked is never touched, and the rest gives way: first "
         "what nobody typed, then what was typed longer ago.",
         "This tool's own rule"},
    };
    return all;
}

const Term* find_term(std::string_view name) {
    const auto found =
        std::find_if(terms().begin(), terms().end(), [name](const Term& term) { return term.name == name; });
    return found == terms().end() ? nullptr : &*found;
}

}  // namespace battwright::window
