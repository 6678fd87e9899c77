#include "window/gl/texture.hpp"

#include "strip/picture.hpp"

#include <epoxy/gl.h>

#include <bit>
#include <cstdint>
#include <utility>

namespace battwright::window {

Texture::~Texture() {
    if (texture_ != 0) glDeleteTextures(1, &texture_);
}

Texture::Texture(Texture&& other) noexcept
    : texture_(std::exchange(other.texture_, 0u)), size_(other.size_) {}

Texture& Texture::operator=(Texture&& other) noexcept {
    std::swap(texture_, other.texture_);
    std::swap(size_, other.size_);
    return *this;
}

void Texture::keep(const strip::Image& image, Scaled scaled) {
    if (image.rgb.empty()) return;
    const bool even = scaled == Scaled::even;
    // A name that is not the old one's: by it a changed picture is known.
    unsigned fresh = 0;
    glGenTextures(1, &fresh);
    if (texture_ != 0) glDeleteTextures(1, &texture_);
    texture_ = fresh;
    glBindTexture(GL_TEXTURE_2D, texture_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, image.width, image.height, 0, GL_RGB, GL_UNSIGNED_BYTE,
                 image.rgb.data());
    if (!even) glGenerateMipmap(GL_TEXTURE_2D);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, even ? GL_LINEAR : GL_LINEAR_MIPMAP_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, even ? GL_LINEAR : GL_NEAREST);
    size_ = {static_cast<float>(image.width), static_cast<float>(image.height)};
}

ImTextureID Texture::id_of(unsigned texture) {
    return std::bit_cast<ImTextureID>(static_cast<std::uintptr_t>(texture));
}

}  // namespace battwright::window
