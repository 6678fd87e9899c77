#include "window/gl/photo.hpp"

#include <epoxy/gl.h>

#include <algorithm>
#include <bit>
#include <cctype>
#include <cstdint>
#include <string>
#include <utility>

#include "colour/spaces.hpp"

namespace battwright::window {
namespace {

unsigned texture_of(const strip::Image& image) {
    unsigned name = 0;
    glGenTextures(1, &name);
    glBindTexture(GL_TEXTURE_2D, name);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, image.width, image.height, 0, GL_RGB, GL_UNSIGNED_BYTE,
                 image.rgb.data());
    glGenerateMipmap(GL_TEXTURE_2D);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    return name;
}

}  // namespace

Photo::~Photo() {
    if (texture_ != 0) glDeleteTextures(1, &texture_);
}

Photo::Photo(Photo&& other) noexcept
    : read_(std::move(other.read_)), texture_(std::exchange(other.texture_, 0u)) {}

Photo& Photo::operator=(Photo&& other) noexcept {
    std::swap(read_, other.read_);
    std::swap(texture_, other.texture_);
    return *this;
}

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
    photo.texture_ = texture_of(photo.image());
    return photo;
}

ImTextureID Photo::id() const {
    return std::bit_cast<ImTextureID>(static_cast<std::uintptr_t>(texture_));
}

colour::Srgb Photo::around(int x, int y) const {
    const strip::Image& pixels = image();
    colour::LinearRgb sum;
    double count = 0.0;
    for (int v = std::max(0, y - 2); v <= std::min(pixels.height - 1, y + 2); ++v) {
        for (int u = std::max(0, x - 2); u <= std::min(pixels.width - 1, x + 2); ++u) {
            const auto at = (static_cast<std::size_t>(v) * static_cast<std::size_t>(pixels.width) +
                             static_cast<std::size_t>(u)) *
                            3;
            const auto light = colour::linear(
                {pixels.rgb[at] / 255.0, pixels.rgb[at + 1] / 255.0, pixels.rgb[at + 2] / 255.0});
            sum = {sum.r + light.r, sum.g + light.g, sum.b + light.b};
            count += 1.0;
        }
    }
    if (count <= 0.0) return {};
    return colour::clipped(colour::encoded({sum.r / count, sum.g / count, sum.b / count}));
}

bool looks_like_photo(const std::filesystem::path& path) {
    std::string end = path.extension().string();
    std::transform(end.begin(), end.end(), end.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    // The last two are no photos that are read, and the complaint about them should say so.
    return end == ".jpg" || end == ".jpeg" || end == ".png" || end == ".bmp" || end == ".tga";
}

}  // namespace battwright::window
