// A photo a colour can be picked from.
#pragma once

#include <filesystem>
#include <memory>

#include "app/photo_loader.hpp"
#include "colour/palette.hpp"
#include "window/gl/texture.hpp"

namespace battwright::window {

class Photo {
  public:
    // A complaint when it is longer or higher than the driver's textures, or could not be read.
    static measure::Expected<Photo> of(std::shared_ptr<const app::PhotoRead> read);

    bool empty() const { return !read_; }
    const std::shared_ptr<const app::PhotoRead>& read() const { return read_; }
    int width() const { return image().width; }
    int height() const { return image().height; }
    ImTextureID id() const { return texture_.id(); }
    colour::Pixels pixels() const { return {image().rgb, image().width, image().height}; }

  private:
    const strip::Image& image() const { return *read_->image; }
    std::shared_ptr<const app::PhotoRead> read_;  // none, or one with an image
    Texture texture_;
};

}  // namespace battwright::window
