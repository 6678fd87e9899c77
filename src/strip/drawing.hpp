// Inside this room: a picture function run over every pixel, on several threads.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>

#include "jobs/run.hpp"
#include "strip/picture.hpp"

namespace battwright::strip {

// `colour_at` gives the encoded colour (0..1) at a point in pixels from the top left; each thread has a copy
// of it. Empty when a side is not positive.
template <class ColourAt>
Image drawn_by(const ColourAt& colour_at, int width, int height, int threads) {
    Image image;
    if (width <= 0 || height <= 0) return image;
    image.width = width;
    image.height = height;
    image.rgb.resize(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const int shares = std::min(threads > 0 ? threads : static_cast<int>(jobs::hardware_threads()), height);
    const auto byte_of = [](float value) { return static_cast<std::uint8_t>(std::lround(value * 255.0f)); };
    const auto every_so_many_rows = [&](std::size_t first) {
        ColourAt own = colour_at;
        for (int y = static_cast<int>(first); y < height; y += shares) {
            std::uint8_t* out =
                image.rgb.data() + 3 * static_cast<std::size_t>(y) * static_cast<std::size_t>(width);
            for (int x = 0; x < width; ++x) {
                const glm::vec3 colour = own({static_cast<float>(x) + 0.5f, static_cast<float>(y) + 0.5f});
                for (const float channel : {colour.x, colour.y, colour.z}) *out++ = byte_of(channel);
            }
        }
    };
    jobs::run(static_cast<std::size_t>(shares), shares, every_so_many_rows);
    return image;
}

}  // namespace battwright::strip
