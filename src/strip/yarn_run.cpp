#include <algorithm>
#include <cmath>

#include "strip/yarn_picture.hpp"

namespace battwright::strip {
namespace {

// All of the yarn is what one looks at first: it has nearly half of the picture.
constexpr double run_part = 0.4;
constexpr int least_between = 4;

void fill_box(Image& image, int left, int top, int right, int bottom, const colour::Srgb& colour) {
    const auto byte = [](double value) {
        return static_cast<std::uint8_t>(std::lround(255.0 * std::clamp(value, 0.0, 1.0)));
    };
    const std::uint8_t rgb[] = {byte(colour.r), byte(colour.g), byte(colour.b)};
    for (int y = std::max(0, top); y < std::min(bottom, image.height); ++y) {
        for (int x = std::max(0, left); x < std::min(right, image.width); ++x) {
            const auto at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) +
                                 static_cast<std::size_t>(x));
            std::copy(std::begin(rgb), std::end(rgb), image.rgb.begin() + static_cast<std::ptrdiff_t>(at));
        }
    }
}

void draw_run(const YarnScene& scene, int tall, Image& image) {
    const auto rows = run_of(scene, static_cast<std::size_t>(image.width));
    const auto count = static_cast<int>(rows.size());
    for (int row = 0; row < count; ++row)
        for (int x = 0; x < image.width; ++x)
            fill_box(image, x, tall * row / count, x + 1, tall * (row + 1) / count,
                     rows[static_cast<std::size_t>(row)][static_cast<std::size_t>(x)]);
}

}  // namespace

YarnSplit yarn_split(int height) {
    YarnSplit split;
    const int part = height / 24;
    if (part == 0) return {0, 0, height};
    split.between = std::max(least_between, part);
    split.run = static_cast<int>(std::lround(run_part * (height - split.between)));
    split.stretch = height - split.between - split.run;
    return split;
}

Image draw_with_run(const YarnScene& scene, int width, int height, const colour::Srgb& ground,
                    const colour::Srgb& ink, int threads) {
    const YarnSplit split = yarn_split(height);
    const Image stretch = draw(scene, width, split.stretch, threads);
    if (stretch.rgb.empty()) return {};
    Image image{width, height, {}};
    image.rgb.assign(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 0);
    fill_box(image, 0, 0, width, height, ground);
    if (split.run > 0) draw_run(scene, split.run, image);
    const double from = scene.from_m / scene.length_m;
    const double to = from + on_show(scene, width, split.stretch).metres / scene.length_m;
    const int left = static_cast<int>(from * width);
    fill_box(image, left, split.run + 1, std::max(left + 2, static_cast<int>(std::lround(to * width))),
             split.run + split.between - 1, ink);
    std::copy(stretch.rgb.begin(), stretch.rgb.end(),
              image.rgb.end() - static_cast<std::ptrdiff_t>(stretch.rgb.size()));
    return image;
}

}  // namespace battwright::strip
