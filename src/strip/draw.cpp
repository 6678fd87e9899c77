#include <algorithm>
#include <array>

#include "jobs/run.hpp"
#include "strip/tile.hpp"

namespace battwright::strip {
Image draw(const Scene& scene, int width, int height, int threads) {
    if (scene.strand_count <= 0 || width <= 0 || height <= 0) return {};
    Image image{width, height, {}};
    const std::size_t stride = 3 * static_cast<std::size_t>(width);
    image.rgb.resize(stride * static_cast<std::size_t>(height));
    const int across = (width + tile_px - 1) / tile_px, down = (height + tile_px - 1) / tile_px;
    const shader::Function function(scene, static_cast<float>(width), static_cast<float>(height));
    jobs::run(static_cast<std::size_t>(across) * static_cast<std::size_t>(down), threads,
              [&](std::size_t job) {
                  shader::Function own = function;
                  const int left = static_cast<int>(job % static_cast<std::size_t>(across)) * tile_px;
                  const int top = static_cast<int>(job / static_cast<std::size_t>(across)) * tile_px;
                  draw_tile(own, left, top, std::min(tile_px, width - left), std::min(tile_px, height - top),
                            image.rgb.data(), stride);
              });
    return image;
}

colour::LinearRgb mean_colour(const Image& image) {
    std::array<std::array<std::size_t, 256>, 3> counts{};
    for (std::size_t i = 0; i < image.rgb.size(); ++i) ++counts[i % 3][image.rgb[i]];
    std::array<double, 3> sums{};
    for (std::size_t value = 0; value < counts[0].size(); ++value) {
        const double level = static_cast<double>(value) / 255.0;
        const double light = colour::linear(colour::Srgb{level, level, level}).r;
        for (std::size_t channel = 0; channel < 3; ++channel)
            sums[channel] += light * static_cast<double>(counts[channel][value]);
    }
    const std::size_t whole = image.rgb.size() / 3;
    const double pixels = std::max(1.0, static_cast<double>(whole));
    return {sums[0] / pixels, sums[1] / pixels, sums[2] / pixels};
}

}  // namespace battwright::strip
