#include "window/gl/kept_frame.hpp"

#include <epoxy/gl.h>
#include <imgui_impl_opengl3.h>

#include <algorithm>
#include <optional>

#include "strip/picture.hpp"
#include "window/gl/frame_part.hpp"

namespace battwright::window {

KeptFrame::~KeptFrame() {
    if (buffer_ != 0) glDeleteFramebuffers(1, &buffer_);
    if (picture_ != 0) glDeleteTextures(1, &picture_);
}

void KeptFrame::size_to(const PixelRect& frame) {
    size_ = frame;
    if (kept_ == Kept::in_window) return;
    if (buffer_ == 0) {
        glGenFramebuffers(1, &buffer_);
        glGenTextures(1, &picture_);
    }
    glBindTexture(GL_TEXTURE_2D, picture_);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, frame.right, frame.bottom, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                 nullptr);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glBindFramebuffer(GL_FRAMEBUFFER, buffer_);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, picture_, 0);
}

void KeptFrame::paint(ImDrawData& frame, const colour::Srgb& ground, const std::vector<PixelRect>& rects) {
    const PixelRect whole = pixels_of(frame);
    if (whole.empty()) return;
    // Where a pixel of ImGui's is not one of the screen's, cuts would fall between pixels.
    bool all = frame.FramebufferScale.x != 1.0f || frame.FramebufferScale.y != 1.0f;
    all = all || whole != size_ || std::find(rects.begin(), rects.end(), whole) != rects.end();
    if (whole != size_) size_to(whole);
    glBindFramebuffer(GL_FRAMEBUFFER, buffer_);
    glViewport(0, 0, whole.right, whole.bottom);
    glClearColor(static_cast<float>(ground.r), static_cast<float>(ground.g), static_cast<float>(ground.b),
                 1.0f);
    if (all) {
        glClear(GL_COLOR_BUFFER_BIT);
        ImGui_ImplOpenGL3_RenderDrawData(&frame);
    } else {
        glEnable(GL_SCISSOR_TEST);
        for (const PixelRect& rect : rects) {
            glScissor(rect.left, whole.bottom - rect.bottom, rect.right - rect.left, rect.bottom - rect.top);
            glClear(GL_COLOR_BUFFER_BIT);
        }
        glDisable(GL_SCISSOR_TEST);
        FramePart part(frame, rects);
        ImGui_ImplOpenGL3_RenderDrawData(&part.data());
    }
    glBindFramebuffer(GL_FRAMEBUFFER, 0);
}

void KeptFrame::copy_to_window() const {
    if (buffer_ == 0) return;
    glBindFramebuffer(GL_READ_FRAMEBUFFER, buffer_);
    glBlitFramebuffer(0, 0, size_.right, size_.bottom, 0, 0, size_.right, size_.bottom, GL_COLOR_BUFFER_BIT,
                      GL_NEAREST);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, 0);
}

strip::Image KeptFrame::image() const {
    strip::Image image;
    image.width = size_.right;
    image.height = size_.bottom;
    const auto row = static_cast<std::size_t>(image.width) * 3;
    std::vector<std::uint8_t> upside_down(row * static_cast<std::size_t>(image.height));
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, buffer_);
    glReadPixels(0, 0, image.width, image.height, GL_RGB, GL_UNSIGNED_BYTE, upside_down.data());
    glBindFramebuffer(GL_READ_FRAMEBUFFER, 0);
    image.rgb.reserve(upside_down.size());
    for (int y = image.height - 1; y >= 0; --y) {
        const auto start =
            upside_down.begin() + static_cast<std::ptrdiff_t>(row * static_cast<std::size_t>(y));
        image.rgb.insert(image.rgb.end(), start, start + static_cast<std::ptrdiff_t>(row));
    }
    return image;
}

}  // namespace battwright::window
