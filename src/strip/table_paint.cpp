#include "strip/table_paint.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "jobs/wide.hpp"
#include "measure/parts.hpp"
#include "strip/drawing.hpp"
#include "strip/function.hpp"
#include "strip/yarn_function.hpp"

namespace battwright::strip {
namespace {

using Brush = std::variant<shader::Function, shader::YarnFunction>;

// All in one piece, as draw_strip_row() is.
BATTWRIGHT_WIDE __attribute__((flatten)) void light_of_fibre(shader::Function& function,
                                                             const std::vector<glm::vec2>& at,
                                                             std::vector<glm::vec3>& light) {
    for (std::size_t i = 0; i < at.size(); ++i) light[i] = function.strip_light(at[i]);
}

BATTWRIGHT_WIDE __attribute__((flatten)) void light_of_yarn(shader::YarnFunction& function,
                                                            const std::vector<glm::vec2>& at,
                                                            std::vector<glm::vec3>& light) {
    for (std::size_t i = 0; i < at.size(); ++i) light[i] = function.yarn_light(at[i]);
}

// Pixels of the scene a millimetre. Fibre is drawn to the picture's own scale from `pixels_per_millimetre`
// on; smaller, it keeps its thickness in points, else it could not be seen.
double scene_scale(const Laid& laid, double points_per_mm) {
    return laid.yarn ? laid.yarn->pixels_per_mm : std::min(points_per_mm, pixels_per_millimetre);
}

Brush brush_for(const Laid& laid, double points_per_mm) {
    const double scale = scene_scale(laid, points_per_mm);
    const auto wide = static_cast<float>(laid.surface.wide_mm * scale);
    const auto tall = static_cast<float>(laid.surface.tall_mm * scale);
    if (laid.yarn) return shader::YarnFunction(*laid.yarn, wide, tall);
    return shader::Function(*laid.fibre, wide, tall);
}

// One row of pixels; each thread has its own.
struct TableRow {
    const std::vector<Laid>* laid;
    TableFrame frame;
    int times;
    glm::vec3 ground;
    std::vector<Brush> brushes;
    // Points of one piece on one line: where on the surface, which of the line's points, how lit.
    std::vector<glm::vec2> at{};
    std::vector<std::size_t> which{};
    std::vector<float> lit{};
    std::vector<glm::vec3> light{}, points{}, sums{};

    double points_per_mm() const { return frame.pixels_per_mm * times; }

    void find_spots(const Laid& one, double y_mm) {
        at.clear();
        which.clear();
        lit.clear();
        const double from = (one.left_mm - frame.left_mm) * points_per_mm();
        const double to = from + one.shape.wide * points_per_mm();
        const auto scale = static_cast<float>(scene_scale(one, points_per_mm()));
        const double last = std::min(static_cast<double>(points.size()), std::ceil(to));
        for (double k = std::max(0.0, std::floor(from)); k < last; k += 1.0) {
            Spot spot;
            const double x_mm = (k + 0.5 - from) / points_per_mm();
            if (!spot_in(one.shape, static_cast<float>(x_mm), static_cast<float>(y_mm), spot)) continue;
            if (one.layers > 1) {
                const auto row = static_cast<float>(one.shape.row);
                spot.at.y += row * std::floor(spot.at.y / row) * static_cast<float>(one.layers - 1);
            }
            at.push_back(spot.at * scale);
            which.push_back(static_cast<std::size_t>(k));
            lit.push_back(spot.light);
        }
        light.resize(at.size());
    }

    void draw_line(double y_mm) {
        std::fill(points.begin(), points.end(), ground);
        for (std::size_t i = 0; i < laid->size(); ++i) {
            const Laid& one = (*laid)[i];
            const double y = y_mm - one.top_mm;
            if (y < 0.0 || y >= one.shape.tall) continue;
            find_spots(one, y);
            if (auto* fibre = std::get_if<shader::Function>(&brushes[i]))
                light_of_fibre(*fibre, at, light);
            else
                light_of_yarn(std::get<shader::YarnFunction>(brushes[i]), at, light);
            for (std::size_t k = 0; k < at.size(); ++k)
                points[which[k]] = glm::clamp(light[k] * lit[k], glm::vec3(0.0f), glm::vec3(1.0f));
        }
    }

    void operator()(float y, std::span<glm::vec3> row) {
        const auto step = static_cast<std::size_t>(times);
        points.resize(row.size() * step);
        sums.assign(row.size(), glm::vec3(0.0f));
        for (int line = 0; line < times; ++line) {
            draw_line(frame.top_mm +
                      (double(y) - 0.5 + measure::middle_of(line, times)) / frame.pixels_per_mm);
            for (std::size_t k = 0; k < points.size(); ++k) sums[k / step] += points[k];
        }
        static const Scene nothing;
        shader::Function encoder(nothing, 1.0f, 1.0f);
        const float part = 1.0f / static_cast<float>(times * times);
        for (std::size_t x = 0; x < row.size(); ++x) row[x] = encoder.srgb_encoded(sums[x] * part);
    }
};

}  // namespace

Image painted(const std::vector<Laid>& laid, const TableFrame& frame, const colour::Srgb& ground, int times,
              int threads) {
    const colour::LinearRgb bare = colour::linear(ground);
    TableRow row{&laid,
                 frame,
                 times,
                 {static_cast<float>(bare.r), static_cast<float>(bare.g), static_cast<float>(bare.b)},
                 {}};
    for (const Laid& one : laid) row.brushes.push_back(brush_for(one, row.points_per_mm()));
    return drawn_by(row, frame.width, frame.height, threads);
}

}  // namespace battwright::strip
