// Which way up a photo is: cameras save the sensor's rows and note how they were held.
#include <libexif/exif-data.h>

#include <memory>

#include "strip/photo_formats.hpp"

namespace battwright::strip {
namespace {

// From a place in the upright picture to the one in the file. Orientations of 5 and above swap the sides.
struct FilePlace {
    int x = 0, y = 0;
};
FilePlace place_in_file(int orientation, int x, int y, int file_width, int file_height) {
    const int right = file_width - 1, bottom = file_height - 1;
    switch (orientation) {
        case 2:
            return {right - x, y};
        case 3:
            return {right - x, bottom - y};
        case 4:
            return {x, bottom - y};
        case 5:
            return {y, x};
        case 6:
            return {y, bottom - x};
        case 7:
            return {right - y, bottom - x};
        case 8:
            return {right - y, x};
        default:
            return {x, y};
    }
}

}  // namespace

int orientation_of(std::string_view bytes) {
    const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
    const std::unique_ptr<ExifData, void (*)(ExifData*)> exif(
        exif_data_new_from_data(data, static_cast<unsigned>(bytes.size())), exif_data_unref);
    if (!exif) return 1;
    const ExifEntry* entry = exif_content_get_entry(exif->ifd[EXIF_IFD_0], EXIF_TAG_ORIENTATION);
    if (entry == nullptr || entry->format != EXIF_FORMAT_SHORT || entry->components < 1 || entry->size < 2)
        return 1;
    const int orientation = exif_get_short(entry->data, exif_data_get_byte_order(exif.get()));
    return orientation >= 1 && orientation <= 8 ? orientation : 1;
}

Image upright(Image image, int orientation) {
    if (orientation == 1) return image;
    Image turned;
    turned.width = turns_sides(orientation) ? image.height : image.width;
    turned.height = turns_sides(orientation) ? image.width : image.height;
    turned.rgb.resize(image.rgb.size());
    std::uint8_t* to = turned.rgb.data();
    for (int y = 0; y < turned.height; ++y) {
        for (int x = 0; x < turned.width; ++x) {
            const FilePlace from = place_in_file(orientation, x, y, image.width, image.height);
            const auto at = 3 * (static_cast<std::size_t>(from.y) * static_cast<std::size_t>(image.width) +
                                 static_cast<std::size_t>(from.x));
            for (std::size_t c = 0; c < 3; ++c) *to++ = image.rgb[at + c];
        }
    }
    return turned;
}

}  // namespace battwright::strip
