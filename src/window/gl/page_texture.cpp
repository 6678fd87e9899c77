#include "window/gl/page_texture.hpp"

#include <epoxy/gl.h>

#include <bit>
#include <cstdint>

namespace battwright::window {

PageTexture::~PageTexture() {
    if (texture_ != 0) glDeleteTextures(1, &texture_);
}

void PageTexture::keep(const strip::Image& image) {
    if (image.rgb.empty()) return;
    // A name that is not the old one's: by it a changed picture is known.
    unsigned fresh = 0;
    glGenTextures(1, &fresh);
    if (texture_ != 0) glDeleteTextures(1, &texture_);
    texture_ = fresh;
    glBindTexture(GL_TEXTURE_2D, texture_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, image.width, image.height, 0, GL_RGB, GL_UNSIGNED_BYTE,
                 image.rgb.data());
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    size_ = {static_cast<float>(image.width), static_cast<float>(image.height)};
}

ImTextureID PageTexture::id() const {
    return std::bit_cast<ImTextureID>(static_cast<std::uintptr_t>(texture_));
}

}  // namespace battwright::window
