// A picture as a texture that ImGui can show.
#pragma once

#include <imgui.h>

namespace battwright::strip {
struct Image;
}

namespace battwright::window {

// Needs the window's context to be current whenever it is used or destroyed.
class Texture {
  public:
    Texture() = default;
    explicit Texture(const strip::Image& image) { keep(image, Scaled::plain); }
    ~Texture();
    Texture(Texture&& other) noexcept;
    Texture& operator=(Texture&& other) noexcept;
    Texture(const Texture&) = delete;
    Texture& operator=(const Texture&) = delete;

    // How pixels are drawn larger or smaller than they are: `even` blends neighbours; `plain` shows each
    // pixel when large, and all of them when small.
    enum class Scaled { even, plain };
    // An empty image leaves the texture as it was.
    void keep(const strip::Image& image, Scaled scaled = Scaled::even);
    bool empty() const { return texture_ == 0; }
    ImVec2 size() const { return size_; }
    ImTextureID id() const { return id_of(texture_); }
    // Of any OpenGL texture, by its name.
    static ImTextureID id_of(unsigned texture);

  private:
    unsigned texture_ = 0;
    ImVec2 size_{0.0f, 0.0f};
};

}  // namespace battwright::window
