#include <algorithm>
#include <cmath>
#include <span>

#include "strip/alias.hpp"
#include "strip/cell_colours.hpp"
#include "strip/function.hpp"
#include "strip/glyph.hpp"
#include "text/believe.hpp"

namespace battwright::strip {
namespace {

using colour::LinearRgb;

// How far single fibres keep their own colour; every pass opens them out further.
float contrast_after(int passes) {
    if (passes <= 1) return 1.0f;
    return 0.9f - 0.1f * static_cast<float>(std::min(passes, 6) - 2);
}

// Tints of one kind are drawn alike, so each look is measured once.
std::vector<Drawn> add_strands(const forecast::Forecast& forecast, Scene& scene) {
    std::vector<Look> looks;
    std::vector<Drawn> drawn;
    for (std::size_t i = 0; i < forecast.strands.size(); ++i) {
        looks.push_back(look_of(forecast.strands[i]));
        const auto same =
            static_cast<std::size_t>(std::find(looks.begin(), looks.end(), looks.back()) - looks.begin());
        drawn.push_back(same < i ? drawn[same] : drawn_of(looks.back()));
        append_rows(looks.back(), drawn.back(), scene.strands);
    }
    return drawn;
}

void add_cells(const forecast::Forecast& forecast, const Field& field, const std::vector<Drawn>& drawn,
               Scene& scene) {
    const std::size_t count = forecast.strands.size();
    const std::size_t cells = count == 0 ? 0 : field.shares.size() / count;
    Blender blender(forecast);
    std::vector<double> chances(count);
    for (std::size_t cell = 0; cell < cells; ++cell) {
        const auto shares = std::span(field.shares).subspan(cell * count, count);
        const LinearRgb blend = blender.blend(shares);
        for (std::size_t i = 0; i < count; ++i) chances[i] = shares[i] / drawn[i].area;
        append_alias_table(chances, scene.picks);
        const double front = front_brightness(chances, drawn);
        append_row(scene.cells, blend, front);
        const LinearRgb average = cell_average(forecast, shares);
        for (const LinearRgb& strand : forecast.strand_colours)
            append_row(scene.fibres, fibre_colour(strand, blend, average, scene.contrast), front);
    }
}

}  // namespace

Scene scene_of(const forecast::Forecast& forecast, const Field& field, int passes) {
    BATTWRIGHT_BELIEVE(field.strands == static_cast<int>(forecast.strands.size()));
    Scene scene;
    scene.strand_count = static_cast<int>(forecast.strands.size());
    scene.field_columns = field.columns;
    scene.field_rows = field.rows;
    scene.seed = seed_of(forecast.recipe.name);
    scene.contrast = contrast_after(passes);
    const std::vector<Drawn> drawn = add_strands(forecast, scene);
    add_cells(forecast, field, drawn, scene);
    return scene;
}

Scene scene_of(const forecast::Forecast& forecast, int passes) {
    if (passes <= 1) return scene_of(forecast, feed_field(forecast), passes);
    if (passes == 2) return scene_of(forecast, streaky_field(forecast), passes);
    return scene_of(forecast, ideal_field(forecast), passes);
}

}  // namespace battwright::strip
