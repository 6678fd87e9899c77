#include "strip/yarn_cells.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "strip/alias.hpp"
#include "strip/cell_colours.hpp"

namespace battwright::strip {
namespace {

using colour::LinearRgb;
using forecast::Forecast;

constexpr double thread_gloss = 0.15;

// Strands that show one by one: lumps, film, and locks too coarse to blend.
bool stands_out(const recipe::Strand& strand) {
    return strand.kind->form != fibre::Form::fibre;
}

LinearRgb part_of(const LinearRgb& colour, double share) {
    return {colour.r * share, colour.g * share, colour.b * share};
}

// What is left of `whole` for `share` of the cell when the rest of it takes `taken`.
LinearRgb left_of(const LinearRgb& whole, const LinearRgb& taken, double share) {
    if (share <= 1e-9) return whole;
    const double scale = 1.0 / share;
    return {std::max(0.0, whole.r - taken.r) * scale, std::max(0.0, whole.g - taken.g) * scale,
            std::max(0.0, whole.b - taken.b) * scale};
}

void add(LinearRgb& sum, const LinearRgb& part) {
    sum = {sum.r + part.r, sum.g + part.g, sum.b + part.b};
}

// Each strand's colour in a cell, so that their mean by share is the blend. Those that stand out keep their
// own contrast, and the others share what that leaves.
std::vector<LinearRgb> strand_colours(const Forecast& f, std::span<const double> shares,
                                      const LinearRgb& blend, double contrast) {
    const LinearRgb average = cell_average(f, shares);
    LinearRgb taken, own;
    double rest = 0.0;
    std::vector<LinearRgb> colours;
    for (std::size_t i = 0; i < f.strands.size(); ++i) {
        colours.push_back(fibre_colour(f.strand_colours[i], blend, average, 1.0));
        if (stands_out(f.strands[i])) {
            add(taken, part_of(colours[i], shares[i]));
        } else {
            rest += shares[i];
            add(own, part_of(f.strand_colours[i], shares[i]));
        }
    }
    const LinearRgb ground = left_of(blend, taken, rest), ground_average = left_of(own, {}, rest);
    for (std::size_t i = 0; i < f.strands.size(); ++i)
        if (!stands_out(f.strands[i]))
            colours[i] = fibre_colour(f.strand_colours[i], ground, ground_average, contrast);
    return colours;
}

void append_picks(const Forecast& f, std::span<const double> shares, const CellLook& look, YarnScene& scene) {
    const std::size_t count = f.strands.size();
    std::vector<double> in_lumps(count, 0.0), in_fibres(shares.begin(), shares.end());
    double lumps = 0.0;
    for (std::size_t i = 0; i < count; ++i)
        if (is_lump(f.strands[i])) lumps += shares[i];
    const double drawn = std::min(lumps, look.lump_fill);
    for (std::size_t i = 0; i < count; ++i) {
        if (!is_lump(f.strands[i]) || drawn <= 0.0) continue;
        in_lumps[i] = shares[i];
        in_fibres[i] = shares[i] * (1.0 - drawn / lumps);
    }
    append_alias_table(in_fibres, scene.picks);
    append_alias_table(in_lumps, scene.picks);
    scene.lumps.push_back(drawn > 0.0 ? static_cast<float>(drawn / look.lump_fill) : 0.0f);
}

double gloss_of(const recipe::Strand& strand) {
    const double lustre = std::clamp(strand.kind->lustre, 0.0, 1.0);
    return strand.kind->form == fibre::Form::film ? 1.0 : lustre * lustre;
}

void append_thread(const LinearRgb& colour, std::size_t strands, YarnScene& scene) {
    for (int table = 0; table < 2; ++table)
        append_alias_table(std::vector<double>(strands, 1.0), scene.picks);
    for (std::size_t i = 0; i < strands; ++i) append_row(scene.fibres, colour, thread_gloss);
    scene.lumps.push_back(0.0f);
    scene.blends.push_back(colour);
}

}  // namespace

bool is_lump(const recipe::Strand& strand) {
    return strand.kind->form == fibre::Form::nep;
}

double streak_contrast(const Forecast& f, double streak_mm) {
    const double fibre_mm = 0.001 * std::max(f.diameter.mean_um, 1.0);
    return 1.0 / std::sqrt(std::max(1.0, streak_mm / fibre_mm));
}

void append_cells(const Forecast& f, const Supply& supply, const CellLook& look, YarnScene& scene) {
    const std::size_t count = f.strands.size();
    if (supply.thread) return append_thread(*supply.thread, count, scene);
    Blender blender(f);
    for (std::size_t cell = 0; cell < static_cast<std::size_t>(supply.field.columns); ++cell) {
        const auto shares = std::span(supply.field.shares).subspan(cell * count, count);
        const LinearRgb blend = blender.blend(shares);
        append_picks(f, shares, look, scene);
        const auto colours = strand_colours(f, shares, blend, look.contrast);
        for (std::size_t i = 0; i < count; ++i) append_row(scene.fibres, colours[i], gloss_of(f.strands[i]));
        scene.blends.push_back(blend);
    }
}

}  // namespace battwright::strip
