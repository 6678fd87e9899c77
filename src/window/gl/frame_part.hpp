// Of a frame what shows in a few rectangles.
#pragma once

#include <imgui.h>

#include <memory>
#include <vector>

#include "window/gl/tiles.hpp"

namespace battwright::window {

// The triangles that touch the rectangles, cut off at their edges, in the frame's order: painted there they
// give the frame's own pixels. The rectangles do not overlap; a pixel of the frame is one of the screen's.
class FramePart {
  public:
    FramePart(const ImDrawData& frame, const std::vector<PixelRect>& rects);
    ImDrawData& data() { return data_; }

  private:
    std::vector<std::unique_ptr<ImDrawList>> lists_;
    std::vector<ImDrawList*> pointers_;
    ImDrawData data_;
};

}  // namespace battwright::window
