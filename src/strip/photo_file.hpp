// Pictures in: photos from a camera or a phone.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string_view>

#include "strip/picture.hpp"

namespace battwright::strip {

inline constexpr std::size_t longest_photo_bytes = 64u << 20;
// What is decoded at most, so that no file, however small, takes more than some hundreds of megabytes: a
// little above what phones call 50 megapixels.
inline constexpr std::int64_t most_photo_pixels = 52'000'000;

// A JPEG or PNG within the bounds above, upright as its Exif orientation says (JEITA CP-3451, tag 0x0112).
// The size in its header is looked at before anything is decoded. What a PNG has of transparency is left
// out. Complaints name the path; one for a picture that is too large says how to make it smaller. Opens no
// pipe or device. May be called from any thread.
measure::Expected<Image> load_photo(const std::filesystem::path& path);
// The same for bytes from elsewhere; `where` stands in the complaint.
measure::Expected<Image> photo_of(std::string_view bytes, const std::string& where);

// A photo made small: its longer side at most `most_side` pixels, each the mean in linear light of those it
// stands for. Complaints as of the photo itself. A JPEG is decoded small at once, so it takes a fraction of
// the time.
struct SmallPhoto {
    Image image;
    int whole_width = 0, whole_height = 0;  // upright
};
measure::Expected<SmallPhoto> load_thumbnail(const std::filesystem::path& path, int most_side);

}  // namespace battwright::strip
