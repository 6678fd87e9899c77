// Inside this room: a picture function run over every pixel, on several threads.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>
#include <span>
#include <vector>

#include "jobs/run.hpp"
#include "strip/picture.hpp"

namespace battwright::strip {

// `draw_row` gives the encoded colours (0..1) at points of one height, in pixels from the top left: from x =
// 0.5 on, one a pixel. Each thread has a copy of it. Empty when a side is not positive.
template <class DrawRow>
Image drawn_by(const DrawRow& draw_row, int width, int height, int threads) {
    Image image;
    if (width <= 0 || height <= 0) return image;
    image.width = width;
    image.height = height;
    image.rgb.resize(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const int shares = std::min(threads > 0 ? threads : static_cast<int>(jobs::hardware_threads()), height);
    const auto byte_of = [](float value) { return static_cast<std::uint8_t>(std::lround(value * 255.0f)); };
    const auto every_so_many_rows = [&](std::size_t first) {
        DrawRow own = draw_row;
        std::vector<glm::vec3> row(static_cast<std::size_t>(width));
        for (int y = static_cast<int>(first); y < height; y += shares) {
            std::uint8_t* out =
                image.rgb.data() + 3 * static_cast<std::size_t>(y) * static_cast<std::size_t>(width);
            own(static_cast<float>(y) + 0.5f, std::span(row));
            for (const glm::vec3& colour : row) {
                for (const float channel : {colour.x, colour.y, colour.z}) *out++ = byte_of(channel);
            }
        }
    };
    jobs::run(static_cast<std::size_t>(shares), shares, every_so_many_rows);
    return image;
}

}  // namespace battwright::strip
