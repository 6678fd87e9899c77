// Looks of pictures put down once, to be held against.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>

#include "strip/picture.hpp"

namespace looks {

// Of the light of the three channels, 0..255: mean, spread, how much it changes from a pixel to the one on
// the right and to the one below, and the levels that a twentieth lie under and over.
constexpr std::size_t figures = 6;
using Look = std::array<double, figures>;

inline Look look_of(const battwright::strip::Image& image) {
    const auto width = static_cast<std::size_t>(image.width), height = static_cast<std::size_t>(image.height);
    std::vector<double> light(width * height);
    for (std::size_t i = 0; i < light.size(); ++i)
        light[i] = (image.rgb[3 * i] + image.rgb[3 * i + 1] + image.rgb[3 * i + 2]) / 3.0;
    Look look{};
    double squares = 0.0, across = 0.0, down = 0.0;
    for (std::size_t y = 0; y < height; ++y)
        for (std::size_t x = 0; x < width; ++x) {
            const double here = light[y * width + x];
            look[0] += here;
            squares += here * here;
            if (x + 1 < width) across += std::abs(light[y * width + x + 1] - here);
            if (y + 1 < height) down += std::abs(light[(y + 1) * width + x] - here);
        }
    const double count = static_cast<double>(light.size());
    look[0] /= count;
    look[1] = std::sqrt(std::max(0.0, squares / count - look[0] * look[0]));
    look[2] = across / count;
    look[3] = down / count;
    std::sort(light.begin(), light.end());
    look[4] = light[light.size() / 20];
    look[5] = light[light.size() - 1 - light.size() / 20];
    return look;
}

// By the name of the picture.
const std::map<std::string, Look>& put_down();

// With BATTWRIGHT_LOOKS set to a folder the pictures are put there to be looked at.
inline void keep(const std::string& name, const battwright::strip::Image& image) {
    const char* folder = std::getenv("BATTWRIGHT_LOOKS");
    if (folder != nullptr)
        CHECK(battwright::strip::save_png(image, std::string(folder) + "/" + name + ".png"));
}

inline void check(const std::string& name, const battwright::strip::Image& image) {
    CAPTURE(name);
    REQUIRE_FALSE(image.rgb.empty());
    keep(name, image);
    const Look seen = look_of(image);
    char line[160];
    std::snprintf(line, sizeof line, "{\"%s\", {%.2f, %.2f, %.3f, %.3f, %.1f, %.1f}},", name.c_str(), seen[0],
                  seen[1], seen[2], seen[3], seen[4], seen[5]);
    const auto known = put_down().find(name);
    bool same = known != put_down().end();
    // Half a per cent and a tenth of a level: less is rounding, more is seen side by side.
    for (std::size_t i = 0; same && i < figures; ++i)
        same = std::abs(seen[i] - known->second[i]) <=
               0.005 * std::abs(known->second[i]) + (i < 4 ? 0.02 : 1.01);
    CHECK_MESSAGE(same, line);
}

}  // namespace looks
