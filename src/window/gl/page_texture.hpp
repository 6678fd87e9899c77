// A side of a page as a texture that ImGui can show.
#pragma once

#include <imgui.h>

#include "strip/picture.hpp"

namespace battwright::window {

// Needs the window's context to be current whenever it is used or destroyed.
class PageTexture {
  public:
    PageTexture() = default;
    ~PageTexture();
    PageTexture(const PageTexture&) = delete;
    PageTexture& operator=(const PageTexture&) = delete;

    // An empty image leaves the texture as it was.
    void keep(const strip::Image& image);
    bool empty() const { return texture_ == 0; }
    ImVec2 size() const { return size_; }
    ImTextureID id() const;

  private:
    unsigned texture_ = 0;
    ImVec2 size_{0.0f, 0.0f};
};

}  // namespace battwright::window
