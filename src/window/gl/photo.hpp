// A photo a colour can be picked from.
#pragma once

#include <imgui.h>

#include <filesystem>

#include "colour/palette.hpp"
#include "strip/picture.hpp"

namespace battwright::window {

// Holds one OpenGL texture; needs the window's context to be current whenever it is used or destroyed.
class Photo {
  public:
    Photo() = default;
    ~Photo();
    Photo(Photo&& other) noexcept;
    Photo& operator=(Photo&& other) noexcept;
    Photo(const Photo&) = delete;
    Photo& operator=(const Photo&) = delete;

    // JPEG, PNG, BMP, TGA and the others stb_image reads, up to 64 MiB and 12,000 pixels a side.
    static measure::Expected<Photo> load(const std::filesystem::path& path);

    bool empty() const { return image_.rgb.empty(); }
    int width() const { return image_.width; }
    int height() const { return image_.height; }
    ImTextureID id() const;
    colour::Pixels pixels() const { return {image_.rgb, image_.width, image_.height}; }
    // The colour around a pixel: the mean of 5 x 5 in linear light, so that one hair does not decide.
    colour::Srgb around(int x, int y) const;

  private:
    strip::Image image_;
    unsigned texture_ = 0;
};

// True for file names that end like a picture's.
bool looks_like_photo(const std::filesystem::path& path);

}  // namespace battwright::window
