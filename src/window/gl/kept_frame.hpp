// The frame on the screen, kept, so that the next has only what changed painted into it.
#pragma once

#include <imgui.h>

#include <vector>

#include "colour/spaces.hpp"
#include "strip/picture.hpp"
#include "window/gl/tiles.hpp"

namespace battwright::window {

// Needs the window's context to be current whenever it is used or destroyed, and ImGui's OpenGL backend.
class KeptFrame {
  public:
    // Where the frame is kept: in a buffer of its own, or in the window's back buffer, for a window that is
    // never shown but by copying from it (CopyPiece).
    enum class Kept { apart, in_window };
    explicit KeptFrame(Kept kept = Kept::apart) : kept_(kept) {}
    ~KeptFrame();
    KeptFrame(const KeptFrame&) = delete;
    KeptFrame& operator=(const KeptFrame&) = delete;

    // Paints the frame within the rectangles, which do not overlap; all of it where the size has changed.
    void paint(ImDrawData& frame, const colour::Srgb& ground, const std::vector<PixelRect>& rects);
    // One that is kept apart is copied to the window's back buffer.
    void copy_to_window() const;
    strip::Image image() const;

  private:
    void size_to(const PixelRect& frame);

    Kept kept_;
    unsigned buffer_ = 0, picture_ = 0;  // 0: the window's
    PixelRect size_;
};

}  // namespace battwright::window
