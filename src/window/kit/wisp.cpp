#include <algorithm>
#include <cmath>

#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

// A scrambled number in 0..1 (the finaliser of MurmurHash3, public domain): the same wisp every frame.
float scattered(unsigned value) {
    value ^= value >> 16;
    value *= 0x85ebca6bu;
    value ^= value >> 13;
    value *= 0xc2b2ae35u;
    value ^= value >> 16;
    return static_cast<float>(value & 0xffffu) / 65535.0f;
}

colour::Srgb shaded(const colour::Srgb& colour, float by) {
    const auto shade = [by](double channel) {
        return std::clamp(channel + static_cast<double>(by), 0.0, 1.0);
    };
    return {shade(colour.r), shade(colour.g), shade(colour.b)};
}

const colour::Srgb& pick(const std::vector<colour::Srgb>& colours, const std::vector<double>& shares,
                         float at) {
    double sum = 0.0, all = 0.0;
    for (const double share : shares) all += share;
    for (std::size_t i = 0; i < colours.size(); ++i) {
        sum += shares[i];
        if (static_cast<double>(at) * all <= sum) return colours[i];
    }
    return colours.back();
}

}  // namespace

void draw_wisp(ImDrawList& list, ImVec2 low, ImVec2 high, const std::vector<colour::Srgb>& colours,
               const std::vector<double>& shares, unsigned twist, const colour::Srgb& edge) {
    if (colours.empty()) return;
    const float width = high.x - low.x, height = high.y - low.y;
    const ImVec2 c{0.5f * (low.x + high.x), 0.5f * (low.y + high.y)};
    constexpr unsigned locks = 20;
    const float thick = 1.5f * height / locks;
    // First the outline, so that pale fibre shows on pale paper; then the fibre itself.
    for (const bool outline : {true, false}) {
        for (unsigned i = 0; i < locks; ++i) {
            const unsigned key = twist * 977u + i * 13u;
            const float across = 2.0f * (static_cast<float>(i) + 0.5f) / locks - 1.0f;
            const auto stray = [&](unsigned which) { return 0.10f * (scattered(key + which) - 0.5f); };
            // Gathered at both ends, full in the middle, with a lean that makes each lock its own.
            const auto point = [&](float along, float spread, unsigned which) {
                return ImVec2{c.x + width * along,
                              c.y + height * (across * spread + 0.16f * along + stray(which))};
            };
            const float reach = 0.46f + 0.05f * scattered(key + 5);
            const colour::Srgb& colour = pick(colours, shares, (static_cast<float>(i) + 0.5f) / locks);
            const float shade = 0.12f * (scattered(key) - 0.5f);
            list.AddBezierCubic(point(-reach, 0.20f, 1), point(-0.2f, 0.56f, 2), point(0.2f, 0.56f, 3),
                                point(reach, 0.20f, 4), u32(outline ? edge : shaded(colour, shade)),
                                outline ? thick + 2.5f : thick, 14);
        }
    }
}

}  // namespace battwright::window
