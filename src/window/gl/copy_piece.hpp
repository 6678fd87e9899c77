// Showing a part of the window's back buffer.
#pragma once

#include <functional>

#include "window/gl/tiles.hpp"

namespace battwright::window {

// Copies a rectangle of the back buffer to the screen and leaves the buffer as it is; `height` is the
// window's.
using CopyPiece = std::function<void(const PixelRect& rect, int height)>;

// Of the window whose context is current. None where pictures are drawn by hardware, which shows whole frames
// in step with the monitor, and where the window system has no such copy (GLX_MESA_copy_sub_buffer).
CopyPiece piece_copier();

}  // namespace battwright::window
