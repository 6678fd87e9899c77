// Inside this room: cairo drawing into pixels, and pixels as a picture.
#pragma once

#include <cairo.h>

#include <memory>

#include "strip/picture.hpp"

namespace battwright::card {

using CairoSurface = std::shared_ptr<cairo_surface_t>;
// The picture as cairo draws it; look at its status: memory may run out.
CairoSurface surface_of(const strip::Image& image);

// White to begin with.
class Pixels {
  public:
    Pixels(int width, int height);
    // False when memory ran out.
    bool ready() const { return cairo_ != nullptr; }
    cairo_t* cairo() const { return cairo_.get(); }
    void put(const strip::Image& image, double x, double y);
    strip::Image image() const;

  private:
    int width_, height_;
    CairoSurface surface_;
    std::shared_ptr<cairo_t> cairo_;
};

}  // namespace battwright::card
