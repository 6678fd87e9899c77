// The small pictures of files on the graphics card.
#pragma once

#include <map>
#include <memory>
#include <string>

#include "app/browse/thumbnails.hpp"
#include "window/gl/texture.hpp"
#include "window/room.hpp"

namespace battwright::window {

// Needs the window's context to be current, as textures do.
class ThumbnailTextures {
  public:
    // Uploads what is new, forgets what is gone. Once a frame.
    void follow(const std::shared_ptr<const Thumbnails>& thumbnails);
    // Of a small photo that was there when the frame began; null for any other.
    ImTextureID of(const Thumbnail& thumbnail) const;

  private:
    struct Uploaded {
        std::shared_ptr<const Thumbnail> thumbnail;
        Texture texture;
    };
    std::shared_ptr<const Thumbnails> followed_;
    std::map<const Thumbnail*, Uploaded> uploaded_;
};

}  // namespace battwright::window
