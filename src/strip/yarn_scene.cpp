#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "measure/choices.hpp"
#include "strip/cell_colours.hpp"
#include "strip/yarn_cells.hpp"
#include "strip/yarn_function.hpp"
#include "strip/yarn_makeup.hpp"
#include "text/believe.hpp"

namespace battwright::strip {
namespace {

using forecast::Forecast;

// How large yarn is drawn: at the first scale, as long as it is then so many pixels thick.
struct Scale {
    double pixels_per_mm, least_px, most_px;
};
constexpr Scale wound{7.0, 12.0, 28.0}, knitted{4.0, 8.0, 15.0};
constexpr double streak_width_px = 2.3;
constexpr double lump_half_mm = 0.55;  // of a nep: about the size of a pinhead
// Mass swings along a yarn drafted by hand with a wave of about this many staple lengths (Klein, The Rieter
// Manual of Spinning, on drafting waves, from memory).
constexpr double draft_wave_staples = 2.5;
constexpr double most_uneven = 0.10;

struct HairRow {
    recipe::Preparation value;
    double hairiness;
};
constexpr std::array<HairRow, 3> hair{{{recipe::Preparation::woollen, 0.9},
                                       {recipe::Preparation::semi_woollen, 0.65},
                                       {recipe::Preparation::worsted, 0.4}}};
static_assert(measure::one_row_each(hair));

double pixels_per_mm(double diameter_mm, YarnView view, double zoom) {
    const Scale& scale = view == YarnView::swatch ? knitted : wound;
    const double low = scale.least_px / diameter_mm, high = scale.most_px / diameter_mm;
    return zoom * std::clamp(scale.pixels_per_mm, low, high);
}

void set_geometry(const Forecast& f, const Makeup& makeup, YarnScene& scene) {
    const double px_per_m = 1000.0 * scene.pixels_per_mm;
    scene.yarn_px = static_cast<float>(makeup.diameter_mm * scene.pixels_per_mm);
    scene.turns_per_px = static_cast<float>(makeup.ply_turns_per_m / px_per_m);
    scene.twist_per_px = static_cast<float>(makeup.fibre_turns_per_m / px_per_m);
    // Thickness goes as the root of mass, and the picture's wave has a root mean square of 0.85.
    scene.uneven = static_cast<float>(std::min(most_uneven, 0.5 * 0.01 * makeup.cv_pct / 0.85));
    const double wave_mm = draft_wave_staples * std::max(f.length.number_mean_mm, 10.0);
    scene.uneven_per_px = static_cast<float>(1.0 / (wave_mm * scene.pixels_per_mm));
    scene.loop_px = static_cast<float>(makeup.loop_m * px_per_m);
    scene.hair = static_cast<float>(measure::row_of(hair, f.yarn.preparation).hairiness);
    const double stitch = stitch_widths_per_diameter * makeup.diameter_mm * scene.pixels_per_mm;
    scene.stitch_width_px = static_cast<float>(stitch);
    scene.stitch_yarn_px = static_cast<float>(stitch * munden_wales);
    scene.stitch_height_px = static_cast<float>(stitch * munden_wales / munden_courses);
}

int streaks_round(double half_width_px, double zoom) {
    return std::max(5, static_cast<int>(std::lround(2.0 * std::numbers::pi * half_width_px /
                                                    (streak_width_px * std::min(zoom, 1.5)))));
}

// How much of a ply's surface lumps can cover: a circle in each place for one, as the picture lays them out.
double lump_fill(double half_width_px, const YarnScene& scene) {
    const shader::YarnFunction function(scene, 1.0f, 1.0f);
    const double side = double{function.lump_reach} * double{scene.lump_px};
    const double round = 2.0 * std::numbers::pi * half_width_px;
    const double places = std::max(1.0, std::floor(round / side + 0.5));
    return std::min(0.95, std::numbers::pi * scene.lump_px * scene.lump_px / (side * round / places));
}

// Row 0 of every supply in the tables.
std::vector<int> add_cells(const Forecast& f, const Makeup& makeup, double zoom, YarnScene& scene) {
    const double half_px = 0.5 * scene.yarn_px * makeup.plies.front().half_width;
    if (std::any_of(f.strands.begin(), f.strands.end(), is_lump))
        scene.lump_px = static_cast<float>(lump_half_mm * scene.pixels_per_mm);
    CellLook look;
    look.contrast = streak_contrast(f, streak_width_px * std::min(zoom, 1.5) / scene.pixels_per_mm);
    look.lump_fill = scene.lump_px > 0.0f ? lump_fill(half_px, scene) : 0.0;
    std::vector<int> first_cells;
    for (const Supply& supply : makeup.supplies) {
        first_cells.push_back(static_cast<int>(scene.blends.size()));
        append_cells(f, supply, look, scene);
    }
    return first_cells;
}

void add_plies(const Makeup& makeup, const std::vector<int>& first_cells, double zoom, YarnScene& scene) {
    const double px_per_m = 1000.0 * scene.pixels_per_mm;
    for (const PlyPath& ply : makeup.plies) {
        const Supply& supply = makeup.supplies[ply.supply];
        const double half_px = 0.5 * scene.yarn_px * ply.half_width;
        const double steps = supply.thread ? 1.0 : supply.field.columns;
        const double rows[] = {half_px,
                               0.5 * scene.yarn_px * ply.axis,
                               1.0,
                               double(streaks_round(half_px, zoom)),
                               ply.first_m / supply.metres_a_step,
                               ply.metres_a_metre / px_per_m / supply.metres_a_step,
                               ply.metres_a_loop / supply.metres_a_step,
                               1.0,
                               double(first_cells[ply.supply]),
                               steps,
                               steps * makeup.batts,
                               0.0};
        for (const double number : rows) scene.plies.push_back(static_cast<float>(number));
    }
}

// What is seen of a ply, all over.
struct Measured {
    double points = 0.0, light = 0.0, flash = 0.0, brightest = 0.0;

    void add(const Measured& other) {
        points += other.points;
        light += other.light;
        flash += other.flash;
        brightest = std::max(brightest, other.brightest);
    }
};

// Yarns or stitches in it each way, and points on the thickness of a yarn.
struct Sample {
    float wide, tall, points;
};
constexpr Sample wound_sample{14.0f, 9.0f, 14.0f}, knitted_sample{16.0f, 12.0f, 9.0f};

// Measured on a sample drawn by the picture function itself.
std::vector<Measured> measure(const YarnScene& scene) {
    const bool swatch = scene.view == YarnView::swatch;
    const Sample& sample = swatch ? knitted_sample : wound_sample;
    const float width = sample.wide * (swatch ? scene.stitch_width_px : scene.yarn_px),
                height = sample.tall * (swatch ? scene.stitch_height_px : scene.yarn_px);
    // As many points in a sample of large pixels as in one of small.
    const float step = std::max(1.0f, scene.yarn_px / sample.points);
    shader::YarnFunction function(scene, width, height);
    std::vector<Measured> plies(static_cast<std::size_t>(scene.ply_count));
    for (float y = 0.5f * step; y < height; y += step) {
        for (float x = 0.5f * step; x < width; x += step) {
            const auto seen = function.yarn_seen({x, y});
            Measured one{1.0, seen.light, seen.flash, seen.light};
            plies[static_cast<std::size_t>(seen.ply)].add(one);
        }
    }
    return plies;
}

// Plies alike are seen alike in the long run, so they are measured together.
void even_out(const Makeup& makeup, std::vector<Measured>& plies) {
    if (makeup.supplies.back().thread) return;
    Measured all;
    for (const Measured& ply : plies) all.add(ply);
    const double count = static_cast<double>(plies.size());
    all = {all.points / count, all.light / count, all.flash / count, all.brightest};
    std::fill(plies.begin(), plies.end(), all);
}

// Brightness and flash that make each ply's mean its colour.
void balance(const Makeup& makeup, YarnScene& scene) {
    std::vector<Measured> plies = measure(scene);
    even_out(makeup, plies);
    double points = 0.0;
    for (const Measured& ply : plies) points += ply.points;
    for (std::size_t i = 0; i < plies.size(); ++i) {
        const Measured& ply = plies[i];
        scene.ply_surfaces.push_back(ply.points / points);
        if (ply.points <= 0.0 || ply.light <= 0.0) continue;
        const double brightness = ply.points / ply.light;
        scene.plies[12 * i + 2] = static_cast<float>(brightness);
        scene.plies[12 * i + 7] = static_cast<float>(std::max(1.0, brightness * ply.brightest));
        scene.plies[12 * i + 11] = static_cast<float>(ply.flash / ply.points);
    }
}

std::string remark_on(const yarn::YarnForecast& yarn) {
    if (yarn.thread_complaint) return yarn.thread_complaint->what;
    if (!(yarn.length_m > 0.0)) return "this plan gives no yarn";
    return yarn.spinnable ? "" : "too fine to spin from these fibres";
}

}  // namespace

YarnScene yarn_scene(const Forecast& f, const forecast::Batt& batt, const carding::Pass& pass,
                     carding::Pull pull, YarnView view, const YarnFrame& frame) {
    BATTWRIGHT_BELIEVE(forecast::is_of(f, batt, pass));
    YarnScene scene;
    scene.view = view;
    scene.remark = remark_on(f.yarn);
    const Makeup makeup = makeup_of(f, batt, pass, pull, view, frame.from);
    if (makeup.plies.empty()) return scene;
    const double zoom = std::clamp(frame.zoom, 0.25, 8.0);
    scene.seed = seed_of(f.recipe.name);
    scene.batts = makeup.batts;
    scene.length_m = makeup.length_m;
    scene.from_m = makeup.from_m;
    scene.pixels_per_mm = pixels_per_mm(makeup.diameter_mm, view, zoom);
    scene.ply_count = static_cast<int>(makeup.plies.size());
    scene.strand_count = static_cast<int>(f.strands.size());
    set_geometry(f, makeup, scene);
    const std::vector<int> first_cells = add_cells(f, makeup, zoom, scene);
    add_plies(makeup, first_cells, zoom, scene);
    balance(makeup, scene);
    return scene;
}

YarnScene carded_yarn_scene(const Forecast& f, int passes, carding::Pull pull, YarnView view,
                            const YarnFrame& frame) {
    const forecast::Batt batt = forecast::batt_of(f, {passes, false, 0});
    if (!batt.passes.empty()) return yarn_scene(f, batt, batt.passes.back(), pull, view, frame);
    YarnScene scene;
    scene.view = view;
    scene.remark = "nothing is on the drum";
    return scene;
}

}  // namespace battwright::strip
