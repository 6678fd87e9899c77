#include "window/gl/photo.hpp"

#include <epoxy/gl.h>

#include <algorithm>
#include <string>
#include <utility>

namespace battwright::window {

measure::Expected<Photo> Photo::of(std::shared_ptr<const app::PhotoRead> read) {
    if (!read->image) return tl::make_unexpected(read->image.error());
    GLint most = 0;
    glGetIntegerv(GL_MAX_TEXTURE_SIZE, &most);
    if (std::max(read->image->width, read->image->height) > most)
        return tl::make_unexpected(
            measure::Complaint{"has a side of more than " + std::to_string(most) + " pixels",
                               "scale it down in a picture program", read->path.string()});
    Photo photo;
    photo.read_ = std::move(read);
    photo.texture_.keep(photo.image(), Texture::Scaled::plain);
    return photo;
}

}  // namespace battwright::window
