#include <algorithm>
#include <array>
#include <cmath>

#include "strip/picture.hpp"
#include "text/believe.hpp"

namespace battwright::strip {

Image seen_from_afar(Image image, int times) {
    BATTWRIGHT_BELIEVE(times >= 1);
    if (times == 1) return image;
    std::array<float, 256> light{};
    for (std::size_t i = 0; i < light.size(); ++i)
        light[i] = static_cast<float>(colour::linear({static_cast<double>(i) / 255.0, 0.0, 0.0}).r);
    Image far{image.width / times, image.height / times, {}};
    const auto stride = static_cast<std::size_t>(image.width);
    const auto step = static_cast<std::size_t>(times);
    for (std::size_t y = 0; y < static_cast<std::size_t>(far.height); ++y) {
        for (std::size_t x = 0; x < static_cast<std::size_t>(far.width); ++x) {
            std::array<float, 3> sum{};
            for (std::size_t k = 0; k < step * step; ++k) {
                const std::size_t from = ((y * step + k / step) * stride + x * step + k % step) * 3;
                for (std::size_t c = 0; c < 3; ++c) sum[c] += light[image.rgb[from + c]];
            }
            const double part = 1.0 / static_cast<double>(step * step);
            const auto mixed =
                colour::encoded({double{sum[0]} * part, double{sum[1]} * part, double{sum[2]} * part});
            for (const double channel : {mixed.r, mixed.g, mixed.b})
                far.rgb.push_back(
                    static_cast<std::uint8_t>(std::lround(std::clamp(channel, 0.0, 1.0) * 255.0)));
        }
    }
    return far;
}

}  // namespace battwright::strip
