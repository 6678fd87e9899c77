#include "strip/glyph.hpp"

#include <algorithm>
#include <cmath>

#include "strip/function.hpp"

namespace battwright::strip {
namespace {

constexpr double nep_half_px = 2.2;
constexpr double film_width_px = 1.5;

float pixels(double millimetres) {
    return static_cast<float>(millimetres * pixels_per_millimetre);
}

void shape_lump(const recipe::Strand& strand, Look& look) {
    const bool nep = strand.kind->form == fibre::Form::nep;
    look.half_width_px = static_cast<float>(nep ? nep_half_px : 2.0);
    look.half_length_px = nep ? 3.2f : std::min(0.5f * pixels(strand.staple_mm), 34.0f);
    look.crimp_px = nep ? 0.0f : 0.5f;
    look.waves_per_px = nep ? 0.0f : 0.035f;
    look.streaks = nep ? 0.8f : 1.4f;
}

void shape_fibre(const recipe::Strand& strand, Look& look) {
    look.half_width_px = static_cast<float>(0.5 * std::clamp(0.9 + 0.028 * strand.diameter_um, 1.25, 2.4));
    look.half_length_px = std::min(0.5f * pixels(strand.staple_mm), 95.0f);
    const double waves_per_cm = std::max(strand.kind->crimp_per_cm, 0.0);
    const double waves = std::max(waves_per_cm / (10.0 * pixels_per_millimetre), 1.0 / 150.0);
    look.waves_per_px = static_cast<float>(std::min(waves, 0.17));
    look.crimp_px = static_cast<float>(std::min(0.095 / waves, 1.5));
}

}  // namespace

Look look_of(const recipe::Strand& strand) {
    Look look;
    const auto lustre = static_cast<float>(std::clamp(strand.kind->lustre, 0.0, 1.0));
    look.highlight = 0.25f + 2.2f * lustre * lustre;
    switch (strand.kind->form) {
        case fibre::Form::nep:
        case fibre::Form::lock:
            shape_lump(strand, look);
            break;
        case fibre::Form::film:
            shape_fibre(strand, look);
            look.half_width_px = static_cast<float>(0.5 * film_width_px);
            look.crimp_px = 1.0f;
            look.waves_per_px = 0.006f;
            look.highlight = 5.0f;
            look.glints = true;
            break;
        case fibre::Form::fibre:
            shape_fibre(strand, look);
            break;
    }
    return look;
}

Drawn drawn_of(const Look& look) {
    using namespace shader;
    static const Scene nothing;
    Function function(nothing, 1.0f, 1.0f);
    const vec4 shape(look.half_width_px, look.half_length_px, look.crimp_px, look.waves_per_px);
    const float pieces = function.pieces_of(shape);
    constexpr float step_x = 2.0f, step_y = 0.5f;
    const int samples = look.half_length_px < 40.0f ? 24 : 16;
    double cover = 0.0, rest = 0.0, squared = 0.0, highlight = 0.0, points = 0.0;
    std::uint32_t token = 1;
    for (float x = -0.5f * function.cell_px + 0.5f * step_x; x < 0.5f * function.cell_px; x += step_x) {
        // Several fibres a step in x: the mean over many, each seen at a few places. Lumps leave most of
        // their cell empty, so they take more.
        for (int sample = 0; sample < samples; ++sample) {
            token = function.stir(token + 0x9e3779b9u);
            const float lean = function.layer_lean(sample % Function::layer_count);
            const float jitter = step_y * static_cast<float>(token & 255u) / 64.0f;
            const int number = static_cast<int>(function.place_at(x, pieces));
            const Function::Piece piece = function.piece_at(shape, pieces, number, token, lean);
            const Function::Course course = function.course_at(piece, x, token);
            for (float y = -0.5f * function.row_px + jitter; y < 0.5f * function.row_px; y += 4 * step_y) {
                const Function::Glyph glyph = function.glyph_at(course, piece.soft, y);
                cover += glyph.cover;
                rest += (1.0 - glyph.cover) * (1.0 - function.shadow_depth * glyph.shade);
                squared += glyph.cover * glyph.across * glyph.across;
                highlight +=
                    glyph.cover * function.highlight_of(course, glyph.across, look.glints ? 1.0f : 0.0f);
                points += 1.0;
            }
        }
    }
    Drawn drawn;
    drawn.area = std::max(cover / points, 1e-6) * function.cell_px * function.row_px;
    drawn.dimmed_rest = rest / points;
    if (cover > 0.0) {
        drawn.across_squared = squared / cover;
        drawn.highlight = highlight / cover;
    }
    return drawn;
}

void append_rows(const Look& look, const Drawn& drawn, std::vector<float>& rows) {
    rows.insert(rows.end(), {look.half_width_px, look.half_length_px, look.crimp_px, look.waves_per_px});
    rows.insert(rows.end(), {static_cast<float>(drawn.across_squared), static_cast<float>(drawn.highlight),
                             look.highlight, look.glints ? 1.0f : -look.streaks});
}

double front_brightness(const std::vector<double>& chances, const std::vector<Drawn>& drawn) {
    static const Scene nothing;
    const shader::Function function(nothing, 1.0f, 1.0f);
    double sum = 0.0, cover = 0.0, rest = 0.0;
    for (std::size_t i = 0; i < chances.size(); ++i) {
        sum += chances[i];
        cover += chances[i] * drawn[i].area;
        rest += chances[i] * drawn[i].dimmed_rest;
    }
    if (sum <= 0.0) return 1.0;
    cover /= sum * function.cell_px * function.row_px;
    rest /= sum;
    // Seen light of a unit front layer: cover * q^l at layer l, the ground behind the last at q^layers, where
    // q = mean of (1 - cover) * shadow * dimming of one layer.
    const double q = rest * function.layer_dimming;
    const double below = std::pow(q, function.layer_count);
    return 1.0 / (cover * (1.0 - below) / (1.0 - q) + below);
}

}  // namespace battwright::strip
