// An OpenGL context for tests of drawing, and pictures compared.
#pragma once

#include <epoxy/gl.h>
// After epoxy: it brings its own GL declarations.
#include <GLFW/glfw3.h>
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>

#include "display.hpp"
#include "strip/picture.hpp"

namespace gl_context {

// A hidden OpenGL 3.3 core context.
class Context {
  public:
    Context() {
        REQUIRE_MESSAGE(display::ensure_display(), "no display: install Xvfb or set DISPLAY");
        REQUIRE(glfwInit() == GLFW_TRUE);
        glfwWindowHint(GLFW_VISIBLE, GLFW_FALSE);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
        glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        window_ = glfwCreateWindow(64, 64, "strip", nullptr, nullptr);
        REQUIRE_MESSAGE(window_ != nullptr, "no OpenGL 3.3 core context");
        glfwMakeContextCurrent(window_);
    }
    Context(const Context&) = delete;
    Context& operator=(const Context&) = delete;
    ~Context() {
        glfwDestroyWindow(window_);
        glfwTerminate();
    }

  private:
    GLFWwindow* window_ = nullptr;
};

// Share of pixels whose channels all lie within `most` of each other.
inline double share_alike(const battwright::strip::Image& first, const battwright::strip::Image& second,
                          int most) {
    std::size_t alike = 0;
    const std::size_t pixels = first.rgb.size() / 3;
    for (std::size_t i = 0; i < pixels; ++i) {
        int furthest = 0;
        for (std::size_t c = 0; c < 3; ++c)
            furthest = std::max(furthest, std::abs(int{first.rgb[3 * i + c]} - int{second.rgb[3 * i + c]}));
        if (furthest <= most) ++alike;
    }
    return static_cast<double>(alike) / static_cast<double>(std::max<std::size_t>(pixels, 1));
}

}  // namespace gl_context
