// Inside this room: the colours of a supply's steps, as the yarn picture's tables hold them.
#pragma once

#include "strip/yarn_makeup.hpp"

namespace battwright::strip {

struct CellLook {
    double contrast = 0.0;   // of the streaks, 0..1
    double lump_fill = 0.0;  // most of a surface that lumps can take; 0: none are drawn
};
// How far a streak as wide as `streak_mm` keeps one strand's colour: as many fibres lie side by side in it,
// and the mean of n independent ones varies by 1 / sqrt(n).
double streak_contrast(const forecast::Forecast& forecast, double streak_mm);
bool is_lump(const recipe::Strand& strand);
// Appends a cell a step, or one for a thread.
void append_cells(const forecast::Forecast& forecast, const Supply& supply, const CellLook& look,
                  YarnScene& scene);

}  // namespace battwright::strip
