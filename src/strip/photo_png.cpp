#include <png.h>

#include "strip/photo_formats.hpp"

namespace battwright::strip {
namespace {

// libpng's simplified reading, with its header read; freed with it.
struct PngReader {
    png_image image{};
    bool good = false;

    explicit PngReader(std::string_view bytes) {
        image.version = PNG_IMAGE_VERSION;
        good = png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) != 0;
    }
    ~PngReader() { png_image_free(&image); }
    PngReader(const PngReader&) = delete;
    PngReader& operator=(const PngReader&) = delete;
};

measure::Expected<PhotoSize> png_size(std::string_view bytes) {
    const PngReader reader(bytes);
    if (!reader.good) return damaged_photo(reader.image.message);
    return PhotoSize{reader.image.width, reader.image.height};
}

// RGBA to RGB, in place.
void drop_alpha(std::vector<std::uint8_t>& pixels) {
    const std::size_t count = pixels.size() / 4;
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t c = 0; c < 3; ++c) pixels[3 * i + c] = pixels[4 * i + c];
    pixels.resize(3 * count);
}

measure::Expected<Image> png_pixels(std::string_view bytes, int /*least_side*/) {
    PngReader reader(bytes);
    if (!reader.good) return damaged_photo(reader.image.message);
    const bool alpha = (reader.image.format & PNG_FORMAT_FLAG_ALPHA) != 0;
    reader.image.format = alpha ? PNG_FORMAT_RGBA : PNG_FORMAT_RGB;
    // Without a word on it sixteen bits are sRGB too, not light itself.
    reader.image.flags |= PNG_IMAGE_FLAG_16BIT_sRGB;
    Image image;
    image.width = static_cast<int>(reader.image.width);
    image.height = static_cast<int>(reader.image.height);
    image.rgb.resize(PNG_IMAGE_SIZE(reader.image));
    if (png_image_finish_read(&reader.image, nullptr, image.rgb.data(), 0, nullptr) == 0)
        return damaged_photo(reader.image.message);
    if (alpha) drop_alpha(image.rgb);
    return image;
}

}  // namespace

const PhotoFormat png_format{"\x89PNG\r\n\x1a\n", png_size, png_pixels};

}  // namespace battwright::strip
