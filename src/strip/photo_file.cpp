#include "strip/photo_file.hpp"

#include <new>
#include <string>
#include <utility>

#include "measure/save.hpp"
#include "strip/photo_formats.hpp"

namespace battwright::strip {
namespace {

using measure::Complaint;
using measure::Expected;

constexpr const char* choose_another = "choose a JPEG or PNG picture";

// As large as it is in the file, for a photo that may be decoded smaller.
struct Decoded {
    Image image;
    PhotoSize whole;
};

Expected<Decoded> decoded(std::string_view bytes, const PhotoFormat& format, int least_side) {
    const auto size = format.size_of(bytes);
    if (!size) return tl::make_unexpected(size.error());
    if (size->width < 1 || size->height < 1) return damaged_photo("it has no pixels");
    if (size->width * size->height > most_photo_pixels)
        return tl::make_unexpected(
            Complaint{"is too large: " + std::to_string(size->width) + " x " + std::to_string(size->height) +
                          " pixels, more than " + std::to_string(most_photo_pixels / 1'000'000) + " million",
                      "scale it down in a picture program, half as wide and half as high, or take it at the "
                      "camera's usual size"});
    auto image = format.pixels_of(bytes, least_side);
    if (!image) return tl::make_unexpected(std::move(image.error()));
    return Decoded{std::move(*image), *size};
}

Expected<Decoded> upright_of(std::string_view bytes, const std::string& where, int least_side) {
    const auto complain_here = [&](Complaint complaint) {
        complaint.where = where;
        return tl::make_unexpected(std::move(complaint));
    };
    for (const PhotoFormat* format : {&jpeg_format, &png_format}) {
        if (!bytes.starts_with(format->starts_with)) continue;
        try {
            auto photo = decoded(bytes, *format, least_side);
            if (!photo) return complain_here(std::move(photo.error()));
            const int orientation = format == &jpeg_format ? orientation_of(bytes) : 1;
            photo->image = upright(std::move(photo->image), orientation);
            if (turns_sides(orientation)) std::swap(photo->whole.width, photo->whole.height);
            return photo;
        } catch (const std::bad_alloc&) {
            return complain_here({"does not fit in memory", "close other programs, or scale it down"});
        }
    }
    return complain_here({"is neither a JPEG nor a PNG picture", choose_another});
}

}  // namespace

tl::unexpected<Complaint> damaged_photo(std::string_view reason) {
    return tl::make_unexpected(
        Complaint{"is a damaged picture: " + measure::quoted(reason), "choose another, or save it anew"});
}

Expected<Image> photo_of(std::string_view bytes, const std::string& where) {
    auto photo = upright_of(bytes, where, 0);
    if (!photo) return tl::make_unexpected(std::move(photo.error()));
    return std::move(photo->image);
}

Expected<Image> load_photo(const std::filesystem::path& path) {
    const auto bytes = measure::load_bytes(path, longest_photo_bytes);
    if (!bytes) return tl::make_unexpected(bytes.error());
    return photo_of(*bytes, path.string());
}

Expected<SmallPhoto> load_thumbnail(const std::filesystem::path& path, int most_side) {
    const auto bytes = measure::load_bytes(path, longest_photo_bytes);
    if (!bytes) return tl::make_unexpected(bytes.error());
    auto photo = upright_of(*bytes, path.string(), most_side);
    if (!photo) return tl::make_unexpected(std::move(photo.error()));
    return SmallPhoto{shrunk(photo->image, most_side), static_cast<int>(photo->whole.width),
                      static_cast<int>(photo->whole.height)};
}

}  // namespace battwright::strip
