#include <algorithm>
#include <cmath>

#include "colour/reflectance.hpp"
#include "strip/alias.hpp"
#include "strip/function.hpp"
#include "strip/glyph.hpp"

namespace battwright::strip {
namespace {

using colour::LinearRgb;

// FNV-1a (Fowler, Noll, Vo), 32 bits: the recipe's name decides where its fibres lie.
std::uint32_t seed_of(const std::string& name) {
    std::uint32_t hash = 2166136261u;
    for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
    return hash;
}

// How far single fibres keep their own colour; every pass opens them out further.
float contrast_after(int passes) {
    if (passes <= 1) return 1.0f;
    return 0.9f - 0.1f * static_cast<float>(std::min(passes, 6) - 2);
}

// Blends of strands, with each strand's additive function worked out once (colour::forward).
class Blender {
  public:
    explicit Blender(const forecast::Forecast& forecast) : forecast_(&forecast) {}

    LinearRgb blend(const double* shares) {
        if (portions_.empty()) prepare();
        for (std::size_t i = 0; i < portions_.size(); ++i) portions_[i].share = shares[i];
        return forecast::seen(colour::blend(portions_, forecast_->optics), forecast_->light);
    }

  private:
    void prepare() {
        for (const auto& strand : forecast_->strands)
            portions_.push_back({0.0, colour::reflectance_of(strand.colour)});
    }
    const forecast::Forecast* forecast_;
    std::vector<colour::Portion> portions_;
};

bool is_the_batt(const forecast::Forecast& forecast, const double* shares) {
    for (std::size_t i = 0; i < forecast.strands.size(); ++i)
        if (std::abs(shares[i] - forecast.strands[i].mass_share) > 1e-6) return false;
    return true;
}

// Index of a strand that has the cell to itself, or npos.
std::size_t alone(const double* shares, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i)
        if (shares[i] > 1.0 - 1e-6) return i;
    return std::string::npos;
}

LinearRgb cell_blend(const forecast::Forecast& forecast, const double* shares, Blender& blender) {
    if (is_the_batt(forecast, shares)) return colour::linear(forecast.colour.srgb);
    const std::size_t only = alone(shares, forecast.strands.size());
    if (only != std::string::npos) return forecast.strand_colours[only];
    return blender.blend(shares);
}

LinearRgb cell_average(const forecast::Forecast& forecast, const double* shares) {
    LinearRgb sum;
    for (std::size_t i = 0; i < forecast.strands.size(); ++i) {
        sum.r += shares[i] * forecast.strand_colours[i].r;
        sum.g += shares[i] * forecast.strand_colours[i].g;
        sum.b += shares[i] * forecast.strand_colours[i].b;
    }
    return sum;
}

// The strand's own hue carried over to the blend: averaged by share it is the blend's colour, channel by
// channel. The floor keeps a channel that hardly any strand has from running away.
double fibre_channel(double strand, double blend, double average, double contrast) {
    constexpr double floor = 0.004;
    return blend * (1.0 + contrast * ((strand + floor) / (average + floor) - 1.0));
}

LinearRgb fibre_colour(const LinearRgb& strand, const LinearRgb& blend, const LinearRgb& average,
                       double contrast) {
    return {fibre_channel(strand.r, blend.r, average.r, contrast),
            fibre_channel(strand.g, blend.g, average.g, contrast),
            fibre_channel(strand.b, blend.b, average.b, contrast)};
}

void append(std::vector<float>& table, const LinearRgb& colour, double last) {
    for (const double value : {colour.r, colour.g, colour.b, last})
        table.push_back(static_cast<float>(value));
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
    std::vector<double> last_shares;
    LinearRgb blend;
    for (std::size_t cell = 0; cell < cells; ++cell) {
        const double* shares = field.shares.data() + cell * count;
        if (!std::equal(last_shares.begin(), last_shares.end(), shares, shares + count)) {
            blend = cell_blend(forecast, shares, blender);
            last_shares.assign(shares, shares + count);
        }
        for (std::size_t i = 0; i < count; ++i) chances[i] = shares[i] / drawn[i].area;
        append_alias_table(chances, scene.picks);
        const double front = front_brightness(chances, drawn);
        append(scene.cells, blend, front);
        const LinearRgb average = cell_average(forecast, shares);
        for (const LinearRgb& strand : forecast.strand_colours)
            append(scene.fibres, fibre_colour(strand, blend, average, scene.contrast), front);
    }
}

}  // namespace

Scene scene_of(const forecast::Forecast& forecast, const Field& field, int passes) {
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
