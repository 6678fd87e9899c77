#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "jobs/wide.hpp"
#include "measure/choices.hpp"
#include "measure/parts.hpp"
#include "measure/unit_tables.hpp"
#include "strip/drawing.hpp"
#include "strip/yarn_function.hpp"
#include "text/numbers.hpp"

namespace battwright::strip {
namespace {

using colour::LinearRgb;

// All in one piece, as draw_strip_row() is.
BATTWRIGHT_WIDE __attribute__((flatten)) void draw_yarn_row(shader::YarnFunction& function, float y,
                                                            std::span<glm::vec3> row) {
    float x = 0.5f;
    for (glm::vec3& colour : row) {
        colour = function.yarn_colour({x, y});
        x += 1.0f;
    }
}

constexpr int samples = 512;

// Px of yarn that the picture has room for.
double yarn_pixels(const YarnScene& scene, int width, int height) {
    if (scene.view == YarnView::swatch)
        return std::ceil(width / double{scene.stitch_width_px}) * double{scene.stitch_yarn_px} * height /
               scene.stitch_height_px;
    return double(width) * height / scene.yarn_px;
}

// The blend a ply is drafted from at a place of the yarn: as the picture mixes the fibres of two steps.
LinearRgb colour_at(const YarnScene& scene, const float* ply, double total) {
    const double loops = scene.loop_px > 0.0f ? std::floor(total / scene.loop_px) : 0.0;
    const double step = ply[4] + ply[5] * (total - loops * scene.loop_px) + ply[6] * loops;
    const double low = std::floor(step - 0.5), part = step - 0.5 - low;
    const auto cell = [&](double at) -> const LinearRgb& {
        const double whole = std::clamp(at, 0.0, ply[10] - 1.0);
        return scene.blends[static_cast<std::size_t>(ply[8] + std::fmod(whole, ply[9]))];
    };
    const LinearRgb &before = cell(low), &after = cell(low + 1.0);
    return {before.r + part * (after.r - before.r), before.g + part * (after.g - before.g),
            before.b + part * (after.b - before.b)};
}

std::string what_it_is(const YarnScene& scene) {
    if (scene.view == YarnView::single) return "the single";
    return scene.view == YarnView::plied && scene.ply_count > 1 ? "plied yarn" : "yarn";
}

std::string where_it_begins(const YarnScene& scene) {
    const double share = scene.length_m > 0.0 ? scene.from_m / scene.length_m : 0.0;
    if (share < 0.005)
        return scene.batts > 1 ? "from the start of the first batt" : "from the start of the batt";
    return "from " + text::number(100.0 * share) + " % of the way along";
}

std::string gauge(const YarnScene& scene, const YarnOnShow& shown) {
    const double per_10_cm = 100.0 * scene.pixels_per_mm;
    return "stocking stitch, " + std::to_string(shown.stitches) + " stitches by " + text::number(shown.rows) +
           " rows back and forth (" + text::number(per_10_cm / scene.stitch_width_px) + " by " +
           text::number(per_10_cm / scene.stitch_height_px) + " in 10 cm)";
}

}  // namespace

std::string_view word_for(YarnView view) {
    constexpr std::array<measure::Word<YarnView>, 3> views{{{YarnView::single, "single"},
                                                            {YarnView::plied, "plied yarn"},
                                                            {YarnView::swatch, "knitted swatch"}}};
    static_assert(measure::one_row_each(views));
    return measure::row_of(views, view).word;
}

Image draw(const YarnScene& scene, int width, int height, int threads) {
    if (scene.ply_count <= 0) return {};
    shader::YarnFunction function(scene, static_cast<float>(width), static_cast<float>(height));
    const auto row = [function](float y, std::span<glm::vec3> colours) mutable {
        draw_yarn_row(function, y, colours);
    };
    return drawn_by(row, width, height, threads);
}

YarnOnShow on_show(const YarnScene& scene, int width, int height) {
    YarnOnShow shown;
    if (scene.ply_count <= 0 || width <= 0 || height <= 0) return shown;
    const double pixels = yarn_pixels(scene, width, height);
    const double room_m = pixels / scene.pixels_per_mm / 1000.0;
    shown.metres = std::min(room_m, std::max(0.0, scene.length_m - scene.from_m));
    const bool swatch = scene.view == YarnView::swatch;
    shown.stitches = swatch ? static_cast<int>(std::ceil(width / double{scene.stitch_width_px})) : 0;
    shown.rows = height / double{swatch ? scene.stitch_height_px : scene.yarn_px};
    for (std::size_t i = 0; i < scene.ply_surfaces.size(); ++i) {
        const double weight = scene.ply_surfaces[i] / samples;
        for (int n = 0; n < samples; ++n) {
            const LinearRgb colour =
                colour_at(scene, scene.plies.data() + 12 * i, pixels * measure::middle_of(n, samples));
            shown.colour.r += weight * colour.r;
            shown.colour.g += weight * colour.g;
            shown.colour.b += weight * colour.b;
        }
    }
    return shown;
}

std::vector<std::vector<colour::Srgb>> run_of(const YarnScene& scene, std::size_t steps) {
    std::vector<std::vector<colour::Srgb>> plies(static_cast<std::size_t>(scene.ply_count));
    const double px_per_m = 1000.0 * scene.pixels_per_mm;
    for (std::size_t ply = 0; ply < plies.size(); ++ply) {
        for (std::size_t i = 0; i < steps; ++i) {
            const double metre = scene.length_m * (static_cast<double>(i) + 0.5) / static_cast<double>(steps);
            plies[ply].push_back(colour::encoded(
                colour_at(scene, scene.plies.data() + 12 * ply, (metre - scene.from_m) * px_per_m)));
        }
    }
    return plies;
}

std::string caption(const YarnScene& scene, int width, int height, double pixels_per_mm,
                    measure::YarnLengthUnit unit) {
    if (scene.ply_count <= 0) return "no yarn to show" + (scene.remark.empty() ? "" : ": " + scene.remark);
    const YarnOnShow shown = on_show(scene, width, height);
    const bool swatch = scene.view == YarnView::swatch;
    const auto& length = measure::row_of(measure::yarn_length_units, unit);
    std::string text = text::number(shown.metres / length.size, 1) + " " + std::string(length.word) + " of " +
                       what_it_is(scene) + " " + where_it_begins(scene);
    if (swatch) text += ", " + gauge(scene, shown);
    text += "; 1 mm = " + text::figures(pixels_per_mm > 0.0 ? pixels_per_mm : scene.pixels_per_mm, 3) + " px";
    return scene.remark.empty() ? text : text + "; " + scene.remark;
}

}  // namespace battwright::strip
