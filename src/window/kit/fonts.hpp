// The window's letters, compiled in.
#pragma once

#include "window/kit/letters.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

// Puts the fonts into ImGui's atlas at a size for `unit` pixels per design pixel, in place of what was there;
// with them the letters of other fonts, where the machine has them. The backend's font texture must be made
// anew afterwards.
Fonts load_fonts(float unit, const Letters& letters);

// ImGui's own style (spacing, rounding, colours) from the theme.
void apply_style(const Theme& theme, float unit);

}  // namespace battwright::window
