// Pictures of the yarn: the single, the plied yarn and a knitted swatch, one shader function drawn on the CPU
// and on the GPU, with the colours in the order in which the batt is spun.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "carding/pull.hpp"
#include "forecast/batt.hpp"
#include "strip/picture.hpp"

namespace battwright::strip {

// `single`: as spun, and `plied`: the finished yarn, each wound row by row, the next row the next stretch of
// it. `swatch`: the finished yarn in stocking stitch, knitted back and forth.
enum class YarnView { single, plied, swatch };
std::string_view word_for(YarnView view);  // "single", "plied yarn", "knitted swatch"

// Common practice, no source: half as many stitches an inch as wraps, so a stitch is two yarns wide.
inline constexpr double stitch_widths_per_diameter = 2.0;
// Munden, "The geometry and dimensional properties of plain-knit fabrics", J. Textile Inst. 50 (1959), T448,
// figures from memory, wet relaxed: wales and courses in the length of a stitch's yarn.
inline constexpr double munden_wales = 4.1, munden_courses = 5.3;
// Yarn between the loops of a chain ply, an arm's length drawn through. Common practice, no source.
inline constexpr double chain_loop_m = 0.5;

struct YarnScene {
    YarnView view = YarnView::plied;
    // Tables as shaders/yarn.glsl sets them out; the GPU uploads the same numbers as buffer textures.
    std::vector<float> plies;               // three RGBA rows a ply
    std::vector<float> picks;               // (threshold, alias), twice `strand_count` a cell
    std::vector<float> fibres;              // an RGBA row a cell and strand
    std::vector<float> lumps;               // one number a cell
    std::vector<colour::LinearRgb> blends;  // of each cell; for `on_show`, not for drawing
    int ply_count = 0;                      // 0: there is no yarn to draw
    int strand_count = 0;
    std::uint32_t seed = 0;
    float yarn_px = 1.0f, turns_per_px = 0.0f, twist_per_px = 0.0f;
    float uneven = 0.0f, uneven_per_px = 0.0f, loop_px = 0.0f, lump_px = 0.0f, hair = 0.0f;
    float stitch_width_px = 1.0f, stitch_height_px = 1.0f, stitch_yarn_px = 1.0f;

    // What the picture stands for.
    double pixels_per_mm = 0.0;
    double length_m = 0.0;             // of all the yarn
    double from_m = 0.0;               // where in it the picture begins
    std::vector<double> ply_surfaces;  // share of the picture each ply takes; sum to 1
    int batts = 1;                     // spun one after another
    std::string remark;                // why there is no yarn, or what is wrong with it
};

// Where the picture begins, 0..1 along the yarn, and how many times larger than usual it is drawn (a screen
// of fine pixels).
struct YarnFrame {
    double from = 0.0;
    double zoom = 1.0;
    bool operator==(const YarnFrame&) const = default;
};

// Geometry as the forecast says it: thickness, twist, plies and lengths, so that a step along the batt
// becomes so many metres of yarn. Two plies: the second runs from the ball's other end. More: so many equal
// lengths of the single after one another. Chain: three strands of one stretch, a loop at a time. Barber
// pole: the batt parted down its middle, each half spun by itself. Precondition: the pass is one of the
// batt's, and the batt was made from this forecast.
YarnScene yarn_scene(const forecast::Forecast& forecast, const forecast::Batt& batt,
                     const carding::Pass& pass, carding::Pull pull, YarnView view,
                     const YarnFrame& frame = {});
// The same after the recipe's passes (0), or after so many: carded here and now.
YarnScene carded_yarn_scene(const forecast::Forecast& forecast, int passes, carding::Pull pull, YarnView view,
                            const YarnFrame& frame = {});

// Draws on the CPU with at most `threads` threads (0: as many as there are); the picture does not depend on
// it. Empty when a side is not positive or there is no yarn.
Image draw(const YarnScene& scene, int width, int height, int threads = 0);

// What a picture of that size shows.
struct YarnOnShow {
    double metres = 0.0;       // of yarn, at most what there is from `from_m` on
    int stitches = 0;          // of a row of the swatch
    double rows = 0.0;         // of yarn or of stitches
    colour::LinearRgb colour;  // mean of that stretch: what the picture's mean is to be
};
YarnOnShow on_show(const YarnScene& scene, int width, int height);
// The colours along all of the yarn, ply by ply, each at the middles of `steps` equal stretches.
std::vector<std::vector<colour::Srgb>> run_of(const YarnScene& scene, std::size_t steps);

// A yarn's picture begins with all of it: how a height is shared out among the run of colours, what is left
// free for the mark of the stretch below, and that stretch.
struct YarnSplit {
    int run = 0, between = 0, stretch = 0;  // px
};
YarnSplit yarn_split(int height);
// The run of all the yarn, ply under ply, from the first metre to the last, what of it is enlarged marked
// under it, and that stretch below.
Image draw_with_run(const YarnScene& scene, int width, int height, const colour::Srgb& ground,
                    const colour::Srgb& ink, int threads = 0);

// "5.4 m of plied yarn from the start of the batt; 1 mm = 6 px". `pixels_per_mm` other than the scene's when
// the picture is shown smaller than drawn (0: the scene's).
std::string caption(const YarnScene& scene, int width, int height, double pixels_per_mm = 0.0,
                    measure::YarnLengthUnit unit = measure::YarnLengthUnit::metre);

}  // namespace battwright::strip
