#include "strip/table_lay.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "measure/unit_tables.hpp"
#include "strip/raster.hpp"
#include "text/believe.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"

namespace battwright::strip {
namespace {

using forecast::Forecast;
using measure::LengthUnit;

constexpr int laid_columns = 32, laid_rows = 80, torn_columns = 24, torn_rows = 20, end_columns = 64,
              end_rows = 12;
// What the end of a roll shows of the width.
constexpr double side_share = 0.06;
constexpr int most_rolags = 12;
// Between things, and between a roll and its end.
constexpr double apart_mm = 12.0;
// Common practice, no source: a batt is torn into four to eight strips.
constexpr int most_torn = 8;

// One batt as the table sees it.
struct Batting {
    const Forecast* forecast;
    const forecast::Batt* batt;
    const carding::Field* field;
    int pass;
    double grams, round_mm, width_mm;

    double thickness_mm(double kg_m3) const {
        // g / mm^2 over kg / m^3 = 10^6 mm.
        return 1.0e6 * grams / (round_mm * width_mm) / kg_m3;
    }
    std::shared_ptr<const Scene> scene(const Field& shares) const {
        return std::make_shared<const Scene>(scene_of(*forecast, shares, pass));
    }
    std::shared_ptr<const Scene> scene(const Raster& raster) const {
        return scene(rastered(*forecast, *batt, *field, raster));
    }
};

Batting batting_of(const Forecast& f, const forecast::Batt& batt, const carding::Pass& pass) {
    const double batts = static_cast<double>(std::max<std::size_t>(1, f.plan.batts));
    return {&f,
            &batt,
            &pass.field,
            pass.number,
            f.total_grams / batts,
            pass.field.circumference_mm,
            pass.field.width_mm};
}

const measure::YarnLengthRow& yarn_row_beside(LengthUnit unit) {
    return measure::row_of(measure::yarn_length_units, measure::yarn_unit_beside(unit));
}

std::string metres_of(double mm, LengthUnit unit) {
    return measure::print_yarn_length(0.001 * mm, measure::yarn_unit_beside(unit));
}

std::string heavy_is(double grams, measure::MassUnit unit) {
    return unit == measure::MassUnit::gram ? text::number(grams) + " g" : measure::print_mass(grams, unit);
}

// "5 g a metre", "0.16 oz a yard"
std::string a_length_weighs(double grams_a_metre, const TableCanvas& units) {
    const auto& length = yarn_row_beside(units.unit);
    const double grams = length.size * grams_a_metre;
    const std::string heavy = units.mass == measure::MassUnit::gram ? text::rounded(grams, 1) + " g"
                                                                    : measure::print_mass(grams, units.mass);
    return heavy + " a " + std::string(length.name);
}

// Of the winder: "1.5 m", "1.64 yd"
std::string turn_of(double mm, LengthUnit unit) {
    const auto& length = yarn_row_beside(unit);
    return text::rounded(0.001 * mm / length.size, 2) + " " + std::string(length.word);
}

double cell(int index, int count) {
    return static_cast<double>(index) / count;
}

Laid piece_of(double left, double top, const Shape& shape, std::shared_ptr<const Scene> scene) {
    Laid piece;
    piece.left_mm = left;
    piece.top_mm = top;
    piece.shape = shape;
    piece.surface = {shape.along, shape.across};
    piece.fibre = std::move(scene);
    return piece;
}

// The outermost of the batt between two places round the drum.
Raster face_raster(double from, double to, int columns) {
    Raster raster{columns, laid_rows, face_depth * (to - from), true, {}, {}};
    raster.box = [=](int column, int row) {
        carding::Box box;
        box.round_from = from + (to - from) * cell(column, columns);
        box.round_to = from + (to - from) * cell(column + 1, columns);
        box.across_from = cell(row, laid_rows);
        box.across_to = cell(row + 1, laid_rows);
        box.depth_from = 1.0 - face_depth;
        return box;
    };
    return raster;
}

// Depth over the way round, for a part of the width.
Raster depth_raster(double round_from, double round_to, double across_from, double across_to, int columns,
                    int rows) {
    Raster raster{columns, rows, (round_to - round_from) * (across_to - across_from), true, {}, {}};
    raster.box = [=](int column, int row) {
        carding::Box box;
        box.round_from = round_from + (round_to - round_from) * cell(column, columns);
        box.round_to = round_from + (round_to - round_from) * cell(column + 1, columns);
        box.across_from = across_from;
        box.across_to = across_to;
        box.depth_from = cell(rows - row - 1, rows);
        box.depth_to = cell(rows - row, rows);
        return box;
    };
    return raster;
}

TableItem face_laid(const Batting& b, LengthUnit unit) {
    TableItem thing{{b.round_mm, b.width_mm}, {}, ""};
    thing.pieces.push_back(
        piece_of(0.0, 0.0, flat(b.round_mm, b.width_mm), b.scene(face_raster(0.0, 1.0, laid_columns))));
    thing.words = "batt face, " + measure::print_length(b.round_mm, unit) + " by " +
                  measure::print_length(b.width_mm, unit) + ", the outermost sixth of its depth";
    return thing;
}

// Depth over the width, for a part of the way round.
Raster across_raster(double round_from, double round_to, int columns, int rows) {
    Raster raster{columns, rows, round_to - round_from, true, {}, {}};
    raster.box = [=](int column, int row) {
        carding::Box box;
        box.round_from = round_from;
        box.round_to = round_to;
        box.across_from = cell(column, columns);
        box.across_to = cell(column + 1, columns);
        box.depth_from = cell(rows - row - 1, rows);
        box.depth_to = cell(rows - row, rows);
        return box;
    };
    return raster;
}

std::string rolags_counted(int count) {
    return text::counted(count, "rolag", "rolags");
}

// So many pieces of the batt as it lies, seen from the edge, one under another.
template <class RasterOf>
TableItem edges_laid(const Batting& b, double wide, int count, const RasterOf& raster_of) {
    const double thick = b.thickness_mm(lying_kg_m3), between = 0.5 * apart_mm;
    TableItem thing{{wide, count * (thick + between) - between}, {}, ""};
    for (int i = 0; i < count; ++i)
        thing.pieces.push_back(
            piece_of(0.0, i * (thick + between), flat(wide, thick), b.scene(raster_of(i))));
    return thing;
}

// What each rolag is rolled from, seen from the edge, one under another.
TableItem edges_of_rolags(const Batting& b, LengthUnit unit) {
    const int all = recipe::pieces_spun(b.forecast->recipe.carding), seen = std::min(all, most_torn);
    const double thick = b.thickness_mm(lying_kg_m3);
    TableItem thing = edges_laid(b, b.width_mm, seen, [&](int i) {
        return across_raster(cell(i, all), cell(i + 1, all), torn_columns, torn_rows);
    });
    thing.words = (seen < all ? "the first " + text::number(seen) + " of " : "") + rolags_counted(all) +
                  " before rolling, seen from the edge, each " + measure::print_length(b.width_mm, unit) +
                  " long, about " + measure::print_length(std::round(thick), unit) + " thick as it lies";
    return thing;
}

TableItem edge_laid(const Batting& b, LengthUnit unit) {
    if (recipe::makes_rolags(b.forecast->recipe.carding)) return edges_of_rolags(b, unit);
    const int strips = std::max(1, b.forecast->recipe.carding.strips), seen = std::min(strips, most_torn);
    const double thick = b.thickness_mm(lying_kg_m3);
    TableItem thing = edges_laid(b, b.round_mm, seen, [&](int i) {
        return depth_raster(0.0, 1.0, cell(i, strips), cell(i + 1, strips), torn_columns, torn_rows);
    });
    thing.words = "torn edge, " + (seen < strips ? "the first " + text::number(seen) + " of " : "") +
                  text::counted(strips, "strip", "strips") + " of " +
                  measure::print_length(b.round_mm, unit) + ", about " +
                  measure::print_length(std::round(thick), unit) + " thick as it lies";
    return thing;
}

// A part of the batt as it is rolled up: so long and so thick once it is drawn out as often as that.
struct Web {
    double length, thick, drawn;
};
Web web_of(const Batting& b, double share, double most_thick) {
    const double thick = b.thickness_mm(rolled_kg_m3), drawn = std::max(1.0, thick / most_thick);
    return {b.round_mm * share * drawn, thick / drawn, drawn};
}

// The batt between two places round the drum, rolled up towards the second: its side, and its end beside it.
void add_roll(const Batting& b, double from, double to, double most_thick, double left, double top,
              TableItem& thing) {
    const Web web = web_of(b, to - from, most_thick);
    const Shape side = roll(web.length, b.width_mm, web.thick), end = roll_end(web.length, web.thick);
    const double half_turn = side.along / (b.round_mm * web.drawn);
    const int columns = std::max(6, static_cast<int>(std::lround(laid_columns * half_turn)));
    thing.pieces.push_back(piece_of(left, top, side, b.scene(face_raster(to - half_turn, to, columns))));
    const int along = std::max(12, static_cast<int>(std::lround(end_columns * (to - from))));
    thing.pieces.push_back(piece_of(left + side.wide + apart_mm, top, end,
                                    b.scene(depth_raster(from, to, 1.0 - side_share, 1.0, along, end_rows))));
    thing.size.wide_mm = std::max(thing.size.wide_mm, left + side.wide + apart_mm + end.wide);
    thing.size.tall_mm = std::max(thing.size.tall_mm, top + side.tall);
}

TableItem rolled_laid(const Batting& b, LengthUnit unit) {
    TableItem thing;
    add_roll(b, 0.0, 1.0, b.round_mm, 0.0, 0.0, thing);
    thing.words = "rolled batt, " + measure::print_length(b.width_mm, unit) + " long, about " +
                  measure::print_length(std::round(thing.size.tall_mm), unit) + " across, and its end";
    return thing;
}

// As the recipe has it rolled off; else as many as are easily spun.
int rolags_of(const Batting& b) {
    const recipe::Carding& carding = b.forecast->recipe.carding;
    if (recipe::makes_rolags(carding)) return recipe::pieces_spun(carding);
    return std::clamp(static_cast<int>(std::lround(b.grams / rolag_grams)), 2, most_rolags);
}

TableItem rolags_laid(const Batting& b, const TableCanvas& units) {
    const LengthUnit unit = units.unit;
    const int count = rolags_of(b);
    const Web web = web_of(b, 1.0 / count, rolag_web_mm);
    const Shape end = roll_end(web.length, web.thick);
    const int columns = count > 3 ? 2 : 1;
    const double wide = b.width_mm + end.wide + 3.0 * apart_mm, tall = end.tall + apart_mm;
    TableItem thing;
    for (int i = 0; i < count; ++i) {
        const int column = i % columns, row = i / columns;
        add_roll(b, cell(i, count), cell(i + 1, count), rolag_web_mm, wide * column, tall * row, thing);
    }
    thing.words = rolags_counted(count) + " of about " + heavy_is(b.grams / count, units.mass) + ", " +
                  (count == 1 ? "" : "each ") + measure::print_length(b.width_mm, unit) + " long and " +
                  measure::print_length(std::round(end.tall), unit) + " across, with its end";
    return thing;
}

TableItem roving_laid(const Batting& b, const TableCanvas& units) {
    const LengthUnit unit = units.unit;
    const double length = 1000.0 * b.grams / roving_g_per_m;
    // A round strand: its mass a length over its density is its section.
    const double thick = 2.0 * std::sqrt(1000.0 * roving_g_per_m / rolled_kg_m3 / std::numbers::pi);
    const Shape shape = coil(length, thick);
    const int strips = std::max(1, b.forecast->recipe.carding.strips);
    const Field field = pulled_field(*b.forecast, *b.batt, *b.field, carding::Pull::long_strip, strips);
    TableItem thing{{shape.wide, shape.tall}, {piece_of(0.0, 0.0, shape, b.scene(field))}, ""};
    thing.words = "roving drawn off through a diz, about " + metres_of(length, unit) + " at " +
                  a_length_weighs(roving_g_per_m, units) + ", " +
                  measure::print_length(std::round(thick), unit) + " thick";
    return thing;
}

// Rows about twice as long as all of them are high.
constexpr double wound_aspect = 2.0, knitted_aspect = 1.6;
// A skein is opened to a band no wider than two hands.
constexpr double widest_band_mm = 220.0;

struct YarnSizes {
    double thick, length;  // mm
};

Laid wound_up(const YarnSizes& yarn) {
    const double row = std::sqrt(wound_aspect * yarn.length * yarn.thick);
    Laid piece;
    piece.shape = flat(row, std::ceil(yarn.length / row) * yarn.thick);
    piece.shape.length = yarn.length;
    piece.shape.row = yarn.thick;
    return piece;
}

Laid skeined(const YarnSizes& yarn, double turn) {
    const double turns = yarn.length / turn;
    Laid piece;
    piece.layers = std::max(1, static_cast<int>(std::ceil(turns * yarn.thick / widest_band_mm)));
    piece.shape = loop(turn, turns / piece.layers, yarn.thick);
    return piece;
}

Laid knit(const YarnScene& scene, const YarnSizes& yarn) {
    const double wide = scene.stitch_width_px / scene.pixels_per_mm,
                 tall = scene.stitch_height_px / scene.pixels_per_mm,
                 takes = scene.stitch_yarn_px / scene.pixels_per_mm;
    const double stitches = yarn.length / takes;
    const double a_row = std::max(1.0, std::round(std::sqrt(knitted_aspect * stitches * tall / wide)));
    Laid piece;
    piece.shape = flat(a_row * wide, std::max(1.0, std::floor(stitches / a_row)) * tall);
    piece.shape.row = tall;
    return piece;
}

}  // namespace

YarnView yarn_view_of(TableView view) {
    BATTWRIGHT_BELIEVE(is_yarn(view));
    if (view == TableView::single) return YarnView::single;
    return view == TableView::swatch ? YarnView::swatch : YarnView::plied;
}

TableItem batt_laid(const Forecast& forecast, const forecast::Batt& batt, const carding::Pass& pass,
                    TableView view, const TableCanvas& units) {
    BATTWRIGHT_BELIEVE(!is_yarn(view));
    const LengthUnit unit = units.unit;
    const Batting b = batting_of(forecast, batt, pass);
    switch (view) {
        case TableView::edge:
            return edge_laid(b, unit);
        case TableView::rolled:
            return rolled_laid(b, unit);
        case TableView::roving:
            return roving_laid(b, units);
        case TableView::rolags:
            return rolags_laid(b, units);
        case TableView::face:
        case TableView::single:
        case TableView::plied:
        case TableView::skein:
        case TableView::swatch:
            break;
    }
    return face_laid(b, unit);
}

TableItem yarn_laid(const YarnScene& scene, const TableSettings& ask, LengthUnit unit) {
    BATTWRIGHT_BELIEVE(is_yarn(ask.view) && scene.ply_count > 0);
    const YarnSizes yarn{scene.yarn_px / scene.pixels_per_mm, 1000.0 * scene.length_m};
    const double turn = 1000.0 * std::max(ask.turn_m, 0.2);  // round a hand at least
    const std::string all = metres_of(yarn.length, unit);
    TableItem thing;
    if (ask.view == TableView::skein) {
        const Laid piece = skeined(yarn, turn);
        thing.words = all + " in a skein of " + text::number(std::ceil(yarn.length / turn)) + " turns of " +
                      turn_of(turn, unit) +
                      (piece.layers > 1 ? ", one of " + text::number(piece.layers) + " is seen" : "");
        thing.pieces.push_back(piece);
    } else if (ask.view == TableView::swatch) {
        const Laid piece = knit(scene, yarn);
        const double stitch = scene.stitch_width_px / scene.pixels_per_mm;
        thing.words = "all " + all + " knitted, " + text::number(std::round(piece.shape.wide / stitch)) +
                      " stitches by " + text::number(std::round(piece.shape.tall / piece.shape.row)) +
                      " rows, " + measure::print_length(piece.shape.wide, unit) + " by " +
                      measure::print_length(piece.shape.tall, unit);
        thing.pieces.push_back(piece);
    } else {
        const Laid piece = wound_up(yarn);
        thing.words = "all " + all + (ask.view == TableView::single ? " of the single, " : " of the yarn, ") +
                      measure::print_length(yarn.thick, unit) + " thick, wound in rows of " +
                      measure::print_length(piece.shape.wide, unit);
        thing.pieces.push_back(piece);
    }
    Laid& piece = thing.pieces.front();
    // A hair narrower, so that a row has just its stitches.
    const double slack = ask.view == TableView::swatch ? 1.0 - 1e-6 : 1.0;
    piece.surface = {slack * piece.shape.along, piece.shape.tall};
    thing.size = {piece.shape.wide, piece.shape.tall};
    return thing;
}

}  // namespace battwright::strip
