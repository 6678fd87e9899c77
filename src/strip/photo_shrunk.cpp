// A photo made smaller by the mean of what each pixel stands for.
#include <algorithm>
#include <array>
#include <cmath>

#include "colour/spaces.hpp"
#include "strip/photo_formats.hpp"

namespace battwright::strip {
namespace {

std::array<double, 256> light_levels() {
    std::array<double, 256> levels{};
    for (std::size_t i = 0; i < levels.size(); ++i)
        levels[i] = colour::linear(colour::Srgb{static_cast<double>(i) / 255.0, 0.0, 0.0}).r;
    return levels;
}

// The pixels that the i-th of `to` stands for, of `from`: at least one.
struct SourceRun {
    int first = 0, end = 0;
};
SourceRun stretch_of(int i, int from, int to) {
    const auto at = [&](int edge) { return static_cast<int>(static_cast<std::int64_t>(edge) * from / to); };
    return {at(i), std::max(at(i) + 1, at(i + 1))};
}

colour::Srgb mean_of(const Image& image, SourceRun across, SourceRun down) {
    static const std::array<double, 256> levels = light_levels();
    std::array<double, 3> sum{};
    for (int y = down.first; y < down.end; ++y) {
        const auto* row =
            image.rgb.data() + 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) +
                                    static_cast<std::size_t>(across.first));
        for (int x = across.first; x < across.end; ++x)
            for (std::size_t c = 0; c < 3; ++c) sum[c] += levels[*row++];
    }
    const double count = static_cast<double>(across.end - across.first) * (down.end - down.first);
    return colour::clipped(colour::encoded({sum[0] / count, sum[1] / count, sum[2] / count}));
}

}  // namespace

Image shrunk(const Image& image, int most_side) {
    const int longer = std::max(image.width, image.height);
    if (longer <= most_side) return image;
    const auto scaled = [&](int side) {
        return std::max(1, static_cast<int>(std::lround(static_cast<double>(side) * most_side / longer)));
    };
    Image small{scaled(image.width), scaled(image.height), {}};
    small.rgb.reserve(3 * static_cast<std::size_t>(small.width) * static_cast<std::size_t>(small.height));
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x) {
            const auto c = mean_of(image, stretch_of(x, image.width, small.width),
                                   stretch_of(y, image.height, small.height));
            for (const double v : {c.r, c.g, c.b})
                small.rgb.push_back(static_cast<std::uint8_t>(std::lround(255.0 * v)));
        }
    return small;
}

}  // namespace battwright::strip
