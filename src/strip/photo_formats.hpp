// Inside this room: photos' formats.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "strip/picture.hpp"

namespace battwright::strip {

struct PhotoSize {
    std::int64_t width = 0, height = 0;
};
// One format: is it this one, how large is it by its header, its pixels as they lie in the file. Complaints
// are without a place.
struct PhotoFormat {
    std::string_view starts_with;
    measure::Expected<PhotoSize> (*size_of)(std::string_view bytes);
    // May come smaller, where that is quicker, but neither side below `least_side` for that; 0: as it is.
    measure::Expected<Image> (*pixels_of)(std::string_view bytes, int least_side);
};
extern const PhotoFormat jpeg_format;  // by libjpeg-turbo
extern const PhotoFormat png_format;   // by libpng

tl::unexpected<measure::Complaint> damaged_photo(std::string_view reason);
// Exif orientation, 1 (upright) to 8; 1 where the file does not say.
int orientation_of(std::string_view bytes);
// The picture as it looked to the camera's holder.
Image upright(Image image, int orientation);
// Whether that makes its width its height.
inline bool turns_sides(int orientation) {
    return orientation >= 5;
}
// Its longer side at most that; a smaller one stays as it is.
Image shrunk(const Image& image, int most_side);

}  // namespace battwright::strip
