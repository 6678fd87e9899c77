#include "window/kit/theme.hpp"

#include <algorithm>
#include <utility>

#include "app/settings.hpp"
#include "colour/spaces.hpp"
#include "staple/findings.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

constexpr colour::Srgb rgb(unsigned value) {
    return {((value >> 16) & 255u) / 255.0, ((value >> 8) & 255u) / 255.0, (value & 255u) / 255.0};
}

constexpr Theme light_theme{
    .ground = rgb(0xe9dfcf),
    .panel = rgb(0xfaf5ea),
    .raised = rgb(0xf1e8d8),
    .hover = rgb(0xe6d8c0),
    .chosen = rgb(0xdccaa8),
    .field = rgb(0xfffdf8),
    .edge = rgb(0x8a7a63),
    .line = rgb(0xd8cab2),
    .ink = rgb(0x2a231b),
    .quiet = rgb(0x5a4e3f),
    .accent = rgb(0x8f3f1d),
    .accent_ink = rgb(0xfff8ee),
    .advice = rgb(0x1f5866),
    .warning = rgb(0x7d4a00),
    .spoils = rgb(0x9d1f1f),
};

constexpr Theme dark_theme{
    .ground = rgb(0x191613),
    .panel = rgb(0x25211c),
    .raised = rgb(0x332d26),
    .hover = rgb(0x443b31),
    .chosen = rgb(0x554a3c),
    .field = rgb(0x1d1a16),
    .edge = rgb(0x94856f),
    .line = rgb(0x463e34),
    .ink = rgb(0xf3eadc),
    .quiet = rgb(0xc9bca8),
    .accent = rgb(0xe6a36b),
    .accent_ink = rgb(0x24180e),
    .advice = rgb(0x8fc7d4),
    .warning = rgb(0xf0c069),
    .spoils = rgb(0xff9d8c),
};

// WCAG 2.1's relative luminance; its sRGB threshold differs from the standard's in no 8-bit colour.
double luminance(const colour::Srgb& colour) {
    const colour::LinearRgb linear = colour::linear(colour);
    return 0.2126 * linear.r + 0.7152 * linear.g + 0.0722 * linear.b;
}

}  // namespace

const Theme& theme_for(Shade shade) {
    return shade == Shade::light ? light_theme : dark_theme;
}

double contrast_ratio(const colour::Srgb& first, const colour::Srgb& second) {
    const double a = luminance(first), b = luminance(second);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

std::vector<ContrastPair> contrast_pairs(const Theme& t) {
    std::vector<ContrastPair> pairs;
    const std::vector<std::pair<std::string, colour::Srgb>> grounds{{"ground", t.ground},
                                                                    {"panel", t.panel},
                                                                    {"raised", t.raised},
                                                                    {"hover", t.hover},
                                                                    {"field", t.field}};
    for (const auto& [name, ground] : grounds) {
        pairs.push_back({"ink on " + name, t.ink, ground, 4.5});
        pairs.push_back({"quiet ink on " + name, t.quiet, ground, 4.5});
    }
    pairs.push_back({"ink on chosen", t.ink, t.chosen, 4.5});
    pairs.push_back({"accent ink on accent", t.accent_ink, t.accent, 4.5});
    for (const auto& [name, ground] : {grounds[1], grounds[2]}) {
        pairs.push_back({"accent on " + name, t.accent, ground, 4.5});
        pairs.push_back({"advice on " + name, t.advice, ground, 4.5});
        pairs.push_back({"warning on " + name, t.warning, ground, 4.5});
        pairs.push_back({"spoils on " + name, t.spoils, ground, 4.5});
    }
    pairs.push_back({"edge on panel", t.edge, t.panel, 3.0});
    pairs.push_back({"edge on field", t.edge, t.field, 3.0});
    pairs.push_back({"edge on raised", t.edge, t.raised, 3.0});
    pairs.push_back({"focus on field", t.advice, t.field, 3.0});
    return pairs;
}

colour::Srgb readable_on(const colour::Srgb& ground) {
    const colour::Srgb black{0.0, 0.0, 0.0}, white{1.0, 1.0, 1.0};
    return contrast_ratio(black, ground) >= contrast_ratio(white, ground) ? black : white;
}

const colour::Srgb& colour_of(const Theme& theme, staple::Severity severity) {
    switch (severity) {
        case staple::Severity::spoils:
            return theme.spoils;
        case staple::Severity::warning:
            return theme.warning;
        case staple::Severity::advice:
            break;
    }
    return theme.advice;
}

}  // namespace battwright::window
