#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STB_IMAGE_WRITE_STATIC
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#endif
#include <stb/stb_image_write.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include "measure/save.hpp"
#include "strip/picture.hpp"

namespace battwright::strip {

measure::Expected<void> save_png(const Image& image, const std::string& path) {
    if (image.rgb.empty())
        return tl::make_unexpected(measure::Complaint{"the picture has no pixels",
                                                      "ask for a width and a height of at least 1", path});
    std::string bytes;
    const auto append = [](void* to, void* data, int size) {
        static_cast<std::string*>(to)->append(static_cast<const char*>(data), static_cast<std::size_t>(size));
    };
    if (stbi_write_png_to_func(append, &bytes, image.width, image.height, 3, image.rgb.data(),
                               3 * image.width) == 0)
        return tl::make_unexpected(measure::Complaint{"the picture does not fit into memory as a PNG",
                                                      "ask for a smaller one", path});
    return measure::save_bytes(path, bytes);
}

}  // namespace battwright::strip
