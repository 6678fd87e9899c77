#include <algorithm>
#include <array>
#include <cmath>
#include <thread>

#include "strip/function.hpp"

namespace battwright::strip {
namespace {

std::uint8_t byte_of(float value) {
    return static_cast<std::uint8_t>(std::lround(value * 255.0f));
}

void draw_rows(const Scene& scene, Image& image, int first, int step) {
    shader::Function function(scene, static_cast<float>(image.width), static_cast<float>(image.height));
    for (int y = first; y < image.height; y += step) {
        std::uint8_t* out =
            image.rgb.data() + 3 * static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width);
        for (int x = 0; x < image.width; ++x) {
            const glm::vec3 colour =
                function.strip_colour({static_cast<float>(x) + 0.5f, static_cast<float>(y) + 0.5f});
            *out++ = byte_of(colour.x);
            *out++ = byte_of(colour.y);
            *out++ = byte_of(colour.z);
        }
    }
}

}  // namespace

Image draw(const Scene& scene, int width, int height, int threads) {
    Image image;
    if (width <= 0 || height <= 0 || scene.strand_count <= 0) return image;
    image.width = width;
    image.height = height;
    image.rgb.resize(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    if (threads <= 0) threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
    threads = std::min(threads, height);
    std::vector<std::jthread> helpers;
    for (int i = 1; i < threads; ++i)
        helpers.emplace_back([&scene, &image, i, threads] { draw_rows(scene, image, i, threads); });
    draw_rows(scene, image, 0, threads);
    return image;
}

colour::LinearRgb mean_colour(const Image& image) {
    std::array<std::array<std::size_t, 256>, 3> counts{};
    for (std::size_t i = 0; i < image.rgb.size(); ++i) ++counts[i % 3][image.rgb[i]];
    std::array<double, 3> sums{};
    for (std::size_t value = 0; value < 256; ++value) {
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
