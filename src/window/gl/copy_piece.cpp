#include "window/gl/copy_piece.hpp"

#include <epoxy/gl.h>
// After epoxy, so that GLFW brings no OpenGL header of its own.
#include <GLFW/glfw3.h>

#include "window/gl/strip_gl.hpp"

namespace battwright::window {
namespace {

// A function of the window system's; asked for by name, as there is none on Wayland to link with.
template <class Function>
Function* glx_function(const char* name) {
    return reinterpret_cast<Function*>(glfwGetProcAddress(name));
}

}  // namespace

CopyPiece piece_copier() {
    if (!drawn_by_software() || glfwExtensionSupported("GLX_MESA_copy_sub_buffer") != GLFW_TRUE) return {};
    const auto current_display = glx_function<void*()>("glXGetCurrentDisplay");
    const auto current_drawable = glx_function<unsigned long()>("glXGetCurrentDrawable");
    const auto copy = glx_function<void(void*, unsigned long, int, int, int, int)>("glXCopySubBufferMESA");
    if (current_display == nullptr || current_drawable == nullptr || copy == nullptr) return {};
    return [copy, display = current_display(), drawable = current_drawable()](const PixelRect& rect,
                                                                              int height) {
        copy(display, drawable, rect.left, height - rect.bottom, rect.right - rect.left,
             rect.bottom - rect.top);
    };
}

}  // namespace battwright::window
