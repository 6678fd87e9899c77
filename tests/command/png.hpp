// Photos for the tests, as PNG files.
#pragma once

#include <stb/stb_image_write.h>

#include <string>

namespace program {

// `rgb`: 3 bytes a pixel, row by row from the top.
inline std::string png_of(int width, int height, const std::string& rgb) {
    std::string bytes;
    const auto append = [](void* to, void* data, int size) {
        static_cast<std::string*>(to)->append(static_cast<const char*>(data), static_cast<std::size_t>(size));
    };
    stbi_write_png_to_func(append, &bytes, width, height, 3, rgb.data(), 3 * width);
    return bytes;
}

}  // namespace program
