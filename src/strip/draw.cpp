#include <algorithm>
#include <array>

#include "jobs/wide.hpp"
#include "strip/drawing.hpp"
#include "strip/function.hpp"

namespace battwright::strip {
namespace {

// All in one piece, so that the second compilation is of all of it: with AVX2 a floor is one instruction,
// without it a call.
BATTWRIGHT_WIDE __attribute__((flatten)) void draw_strip_row(shader::Function& function, float y,
                                                             std::span<glm::vec3> row) {
    float x = 0.5f;
    for (glm::vec3& colour : row) {
        colour = function.strip_colour({x, y});
        x += 1.0f;
    }
}

}  // namespace

Image draw(const Scene& scene, int width, int height, int threads) {
    if (scene.strand_count <= 0) return {};
    shader::Function function(scene, static_cast<float>(width), static_cast<float>(height));
    const auto row = [function](float y, std::span<glm::vec3> colours) mutable {
        draw_strip_row(function, y, colours);
    };
    return drawn_by(row, width, height, threads);
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
