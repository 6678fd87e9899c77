// A photo a colour can be picked from.
#pragma once

#include <imgui.h>

#include <filesystem>
#include <memory>

#include "app/photo_loader.hpp"
#include "colour/palette.hpp"

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

    // A complaint when it is longer or higher than the driver's textures, or could not be read.
    static measure::Expected<Photo> of(std::shared_ptr<const app::PhotoRead> read);

    bool empty() const { return !read_; }
    const std::shared_ptr<const app::PhotoRead>& read() const { return read_; }
    int width() const { return image().width; }
    int height() const { return image().height; }
    ImTextureID id() const;
    colour::Pixels pixels() const { return {image().rgb, image().width, image().height}; }
    // The colour around a pixel: the mean of 5 x 5 in linear light, so that one hair does not decide.
    colour::Srgb around(int x, int y) const;

  private:
    const strip::Image& image() const { return *read_->image; }
    std::shared_ptr<const app::PhotoRead> read_;  // none, or one with an image
    unsigned texture_ = 0;
};

// True for file names that end like a picture's.
bool looks_like_photo(const std::filesystem::path& path);

}  // namespace battwright::window
