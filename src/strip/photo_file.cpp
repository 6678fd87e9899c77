#include "strip/photo_file.hpp"

#include <stb/stb_image.h>

#include <memory>
#include <string>

#include "measure/save.hpp"

namespace battwright::strip {

measure::Expected<Image> load_photo(const std::filesystem::path& path) {
    const auto bytes = measure::load_bytes(path, longest_photo_bytes);
    if (!bytes) return tl::make_unexpected(bytes.error());
    const auto* data = reinterpret_cast<const stbi_uc*>(bytes->data());
    const int size = static_cast<int>(bytes->size());
    const auto refuse = [&path](std::string what) {
        return tl::make_unexpected(
            measure::Complaint{std::move(what), "choose a JPEG or PNG picture", path.string()});
    };
    int width = 0, height = 0, channels = 0;
    if (stbi_info_from_memory(data, size, &width, &height, &channels) == 0)
        return refuse("is not a picture this program reads");
    if (width > longest_photo_side || height > longest_photo_side)
        return refuse("is larger than " + std::to_string(longest_photo_side) + " pixels a side");
    const std::unique_ptr<stbi_uc, void (*)(void*)> pixels(
        stbi_load_from_memory(data, size, &width, &height, &channels, 3), stbi_image_free);
    if (!pixels) return refuse("is a damaged picture");
    Image image;
    image.width = width;
    image.height = height;
    const auto count = static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3;
    image.rgb.assign(pixels.get(), pixels.get() + count);
    return image;
}

}  // namespace battwright::strip
