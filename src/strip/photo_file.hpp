// Pictures in: photos from a camera or a phone.
#pragma once

#include <filesystem>

#include "strip/picture.hpp"

namespace battwright::strip {

inline constexpr std::size_t longest_photo_bytes = 64u << 20;
inline constexpr int longest_photo_side = 12'000;

// A JPEG, PNG, BMP, TGA or other picture stb_image reads, within the bounds above, as its pixels lie in the
// file (a phone's note that it should be turned is not heeded). Complaints name the path.
measure::Expected<Image> load_photo(const std::filesystem::path& path);

}  // namespace battwright::strip
