#include "window/gl/texture.hpp"

#include <epoxy/gl.h>

#include <bit>
#include <cstdint>
#include <utility>

namespace battwright::window {

Texture::Texture(const strip::Image& image) {
    glGenTextures(1, &name_);
    glBindTexture(GL_TEXTURE_2D, name_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, image.width, image.height, 0, GL_RGB, GL_UNSIGNED_BYTE,
                 image.rgb.data());
    glGenerateMipmap(GL_TEXTURE_2D);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
}

Texture::~Texture() {
    if (name_ != 0) glDeleteTextures(1, &name_);
}

Texture::Texture(Texture&& other) noexcept : name_(std::exchange(other.name_, 0u)) {}

Texture& Texture::operator=(Texture&& other) noexcept {
    std::swap(name_, other.name_);
    return *this;
}

ImTextureID Texture::id() const {
    return std::bit_cast<ImTextureID>(static_cast<std::uintptr_t>(name_));
}

}  // namespace battwright::window
