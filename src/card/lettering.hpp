// Inside this room: text set by pango, measured in points, independent of the device it is drawn on.
#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <vector>

#include "card/layout.hpp"

namespace battwright::card {

enum class Set { left, right };
struct Style {
    double size_pt = 9.0;
    bool bold = false;
    Set set = Set::left;
};

// One line of set text; its ink starts at the left edge of the width it was set in.
struct Line {
    double width = 0.0, height = 0.0;
    Ink ink;
};

// The colour of words and of what is ruled beside them.
void set_ink(cairo_t* cr);

class Lettering {
  public:
    Lettering();
    // The lines of `text` wrapped within `width`: at spaces, but for that between a number and its unit, and
    // within a word where a word alone is too wide.
    std::vector<Line> lines(const std::string& text, const Style& style, double width);
    // How wide the text is on one line.
    double natural_width(const std::string& text, const Style& style);
    // How wide the widest part of it is that lines() would keep on one line.
    double least_width(const std::string& text, const Style& style);
    int missing_glyphs() const { return missing_; }

  private:
    std::shared_ptr<PangoContext> context_;
    int missing_ = 0;
    std::shared_ptr<PangoLayout> set(const std::string& text, const Style& style) const;
};

}  // namespace battwright::card
