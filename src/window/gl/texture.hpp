// A picture on the graphics card.
#pragma once

#include <imgui.h>

#include "strip/picture.hpp"

namespace battwright::window {

// One OpenGL texture, or none; needs the window's context to be current whenever it is made or destroyed.
class Texture {
  public:
    Texture() = default;
    explicit Texture(const strip::Image& image);
    ~Texture();
    Texture(Texture&& other) noexcept;
    Texture& operator=(Texture&& other) noexcept;
    Texture(const Texture&) = delete;
    Texture& operator=(const Texture&) = delete;

    ImTextureID id() const;

  private:
    unsigned name_ = 0;
};

}  // namespace battwright::window
