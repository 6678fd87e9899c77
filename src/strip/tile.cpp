#include "strip/tile.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "jobs/wide.hpp"
#include "strip/bytes_of_light.hpp"

namespace battwright::strip {
namespace {

using shader::Function;

constexpr int lanes = 8;  // points worked on side by side
constexpr int blocks = tile_px / lanes;
// Lines are looked for with so much to spare; whose row a point is in, lay_row() looks.
constexpr float rounding_px = 0.05f;

using TileLine = std::array<float, tile_px>;

float middle_of(int pixel) {
    return static_cast<float>(pixel) + 0.5f;
}

// A row of fibres of one layer, at each x of the tile: shader::Function's Course, Paint and finish in
// columns.
struct Courses {
    TileLine half_width, middle, steep, end, sheen, flash, streak, soft;
    TileLine red, green, blue, bright_red, bright_green, bright_blue, relief, front;
    TileLine across_squared, mean_highlight, streaks;
};

// What has been seen so far at points side by side.
struct SeenSoFar {
    std::array<float, lanes> red{}, green{}, blue{}, through{}, dimmed{};
};

// What lies behind the last layer at each x of the tile.
struct GroundLine {
    TileLine red, green, blue, front, relief;
};

// Light at points side by side, and its part of the table of bytes.
struct Ends {
    std::array<std::array<float, lanes>, 3> light;
    std::array<std::array<std::uint32_t, lanes>, 3> part;
};

// A fibre of the row, and what it looks like.
struct RowFibre {
    Function::Paint paint{};
    glm::vec4 shape{}, finish{};
    float front = 1.0f, pieces = 1.0f;
    glm::uint token = 0;
};

struct TilePlace {
    int left, top, width, height;
};

// Everything at the points from..to of the row, which one piece of fibre has to itself.
BATTWRIGHT_WIDE __attribute__((flatten)) void run_course(Function& function, const Function::Piece& whole,
                                                         const RowFibre& fibre, const TileLine& xs, int from,
                                                         int to, Courses* __restrict out) {
    const Function::Piece piece = whole;
    const glm::uint token = fibre.token;
    const float* __restrict x = xs.data();
    for (int i = from; i < to; ++i) {
        const auto at = static_cast<std::size_t>(i);
        const Function::Course course = function.course_at(piece, x[at], token);
        out->half_width[at] = course.half_width;
        out->middle[at] = course.middle;
        out->steep[at] = course.steep;
        out->end[at] = course.end;
        out->sheen[at] = course.sheen;
        out->flash[at] = course.flash;
        out->streak[at] = course.streak;
    }
    const auto along = [from, to](TileLine& line, float value) {
        std::fill(line.begin() + from, line.begin() + to, value);
    };
    along(out->soft, piece.soft);
    along(out->red, fibre.paint.colour.x);
    along(out->green, fibre.paint.colour.y);
    along(out->blue, fibre.paint.colour.z);
    along(out->bright_red, fibre.paint.bright.x);
    along(out->bright_green, fibre.paint.bright.y);
    along(out->bright_blue, fibre.paint.bright.z);
    along(out->relief, fibre.paint.relief);
    along(out->front, fibre.front);
    along(out->across_squared, fibre.finish.x);
    along(out->mean_highlight, fibre.finish.y);
    along(out->streaks, fibre.finish.w);
}

RowFibre row_fibre(Function& function, int layer, float row, glm::uint row_token, float slid, float column) {
    RowFibre fibre;
    const glm::uint ticket = function.ticket_of(row_token, column);
    fibre.token = function.token_of(ticket, layer);
    const int cell = function.cell_under(layer, row, column, slid);
    const int strand = function.picked_strand(cell, ticket);
    fibre.shape = function.strand_row(strand, 0);
    fibre.finish = function.strand_row(strand, 1);
    const glm::vec4 looks = function.fibre_row(cell, strand);
    fibre.front = looks.w;
    fibre.pieces = function.pieces_of(fibre.shape);
    fibre.paint = function.paint_of(looks, fibre.finish);
    return fibre;
}

// The first point from `from` on that is not like it; `like` gives a whole number.
template <class Like>
int end_of(int from, int width, const Like& like) {
    const auto here = like(from);
    int to = from + 1;
    while (to < width && like(to) == here) ++to;
    return to;
}

BATTWRIGHT_WIDE __attribute__((flatten)) void place_in_row(float slid, const TilePlace& tile, TileLine& xs,
                                                           std::array<int, tile_px>& columns) {
    const float left = middle_of(tile.left);
    for (int i = 0; i < tile_px; ++i) {
        const auto at = static_cast<std::size_t>(i);
        const float along = (left + static_cast<float>(i)) + slid;
        const float column = std::floor(along * (1.0f / Function::cell_px));
        columns[at] = static_cast<int>(column);
        xs[at] = along - (column + 0.5f) * Function::cell_px;
    }
}

void courses_of(Function& function, int layer, float row, const TilePlace& tile, Courses& courses) {
    const glm::uint row_token = function.row_token_of(layer, row);
    const float slid = function.slid_by(row_token);
    TileLine xs;
    std::array<int, tile_px> columns{};
    place_in_row(slid, tile, xs, columns);
    const auto x = [&xs](int i) { return xs[static_cast<std::size_t>(i)]; };
    for (int from = 0; from < tile.width;) {
        const int to = end_of(from, tile.width, [&](int i) { return columns[static_cast<std::size_t>(i)]; });
        const auto column = static_cast<float>(columns[static_cast<std::size_t>(from)]);
        const RowFibre fibre = row_fibre(function, layer, row, row_token, slid, column);
        const auto number = [&](int i) { return static_cast<int>(function.place_at(x(i), fibre.pieces)); };
        while (from < to) {
            const int end = end_of(from, to, number);
            const auto piece = function.piece_at(fibre.shape, fibre.pieces, number(from), fibre.token,
                                                 function.layer_lean(layer));
            run_course(function, piece, fibre, xs, from, end, &courses);
            from = end;
        }
    }
}

// Lays a row of fibres over the points of `lanes` columns, from the line `from` to `to`.
BATTWRIGHT_WIDE __attribute__((flatten)) void lay_row(Function& function, const Courses* __restrict courses,
                                                      const float* __restrict shift, std::size_t first,
                                                      float row, float top, int from, int to,
                                                      SeenSoFar* __restrict seen) {
    for (int line = from; line < to; ++line) {
        const float y = top + static_cast<float>(line);
        SeenSoFar* __restrict here = seen + line;
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            const std::size_t at = first + lane;
            const float shifted = y + shift[at];
            const float own_row = std::floor(shifted * (1.0f / Function::row_px));
            const Function::Course course{courses->half_width[at], courses->middle[at], courses->steep[at],
                                          courses->end[at],        courses->sheen[at],  courses->flash[at],
                                          courses->streak[at]};
            const Function::Paint paint{
                {courses->red[at], courses->green[at], courses->blue[at]},
                {courses->bright_red[at], courses->bright_green[at], courses->bright_blue[at]},
                courses->relief[at]};
            const glm::vec4 finish(courses->across_squared[at], courses->mean_highlight[at], 0.0f,
                                   courses->streaks[at]);
            const Function::Glyph glyph =
                function.glyph_at(course, courses->soft[at], shifted - (row + 0.5f) * Function::row_px);
            const float through = here->through[lane], dimmed = here->dimmed[lane];
            const glm::vec3 lit =
                function.lit_colour(paint, finish, course, glyph.across, dimmed * courses->front[at]);
            const float part = through * glyph.cover, left = through * (1.0f - glyph.cover);
            const float darker = function.dimmed_by(dimmed, glyph.shade);
            const float red = here->red[lane] + lit.x * part, green = here->green[lane] + lit.y * part,
                        blue = here->blue[lane] + lit.z * part;
            const bool its = (own_row == row) & (through > Function::least_through);
            here->red[lane] = its ? red : here->red[lane];
            here->green[lane] = its ? green : here->green[lane];
            here->blue[lane] = its ? blue : here->blue[lane];
            here->through[lane] = its ? left : through;
            here->dimmed[lane] = its ? darker : dimmed;
        }
    }
}

void lay_layer(Function& function, int layer, const TilePlace& tile, std::vector<SeenSoFar>& seen) {
    const float top = middle_of(tile.top);
    TileLine shift{};
    for (int i = 0; i < tile.width; ++i)
        shift[static_cast<std::size_t>(i)] = function.layer_shift(layer, middle_of(tile.left + i));
    for (int i = tile.width; i < tile_px; ++i)
        shift[static_cast<std::size_t>(i)] = shift[static_cast<std::size_t>(tile.width - 1)];
    const auto [least, most] = std::minmax_element(shift.begin(), shift.end());
    const float bottom = top + static_cast<float>(tile.height - 1);
    const float first_row = std::floor((top + *least) / Function::row_px) - 1.0f;
    const float last_row = std::floor((bottom + *most) / Function::row_px) + 1.0f;
    Courses courses{};
    for (float row = first_row; row <= last_row; row += 1.0f) {
        bool made = false;
        for (std::size_t block = 0; block < blocks; ++block) {
            const auto begin = shift.begin() + static_cast<std::ptrdiff_t>(block * lanes);
            const auto [low, high] = std::minmax_element(begin, begin + lanes);
            const int from = static_cast<int>(std::ceil(row * Function::row_px - *high - top - rounding_px));
            const int to =
                static_cast<int>(std::floor((row + 1.0f) * Function::row_px - *low - top + rounding_px)) + 1;
            if (to <= 0 || from >= tile.height) continue;
            if (!made) courses_of(function, layer, row, tile, courses);
            made = true;
            lay_row(function, &courses, shift.data(), block * lanes, row, top, std::max(0, from),
                    std::min(to, tile.height), &seen[block * tile_px]);
        }
    }
}

void ground_of(Function& function, const TilePlace& tile, float y, GroundLine& ground) {
    int last = -1;
    glm::vec4 row;
    for (int i = 0; i < tile.width; ++i) {
        const auto at = static_cast<std::size_t>(i);
        const int cell = function.field_cell({middle_of(tile.left + i), y});
        if (cell != last) row = function.cell_row(cell);
        last = cell;
        ground.red[at] = row.x;
        ground.green[at] = row.y;
        ground.blue[at] = row.z;
        ground.front[at] = row.w;
        ground.relief[at] = function.ground_relief(row);
    }
}

const BytesOfLight& bytes_of_light() {
    static const BytesOfLight bytes([](float light) {
        static const Scene nothing;
        return Function(nothing, 1.0f, 1.0f).srgb_encoded(glm::vec3(light)).x;
    });
    return bytes;
}

// The ground behind `lanes` points that have been seen so far, and where their light is looked up.
BATTWRIGHT_WIDE __attribute__((flatten)) void add_ground(Function& function,
                                                         const GroundLine* __restrict ground,
                                                         std::size_t first, const SeenSoFar* __restrict seen,
                                                         Ends* __restrict ends) {
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        const std::size_t at = first + lane;
        const glm::vec4 row(ground->red[at], ground->green[at], ground->blue[at], ground->front[at]);
        const glm::vec3 light = function.ground_light(row, ground->relief[at], seen->dimmed[lane]);
        ends->light[0][lane] = BytesOfLight::within(seen->red[lane] + light.x * seen->through[lane]);
        ends->light[1][lane] = BytesOfLight::within(seen->green[lane] + light.y * seen->through[lane]);
        ends->light[2][lane] = BytesOfLight::within(seen->blue[lane] + light.z * seen->through[lane]);
        ends->part[0][lane] = BytesOfLight::part_of(ends->light[0][lane]);
        ends->part[1][lane] = BytesOfLight::part_of(ends->light[1][lane]);
        ends->part[2][lane] = BytesOfLight::part_of(ends->light[2][lane]);
    }
}

}  // namespace

void draw_tile(Function& function, int left, int top, int width, int height, std::uint8_t* rgb,
               std::size_t stride) {
    const TilePlace tile{left, top, width, height};
    SeenSoFar nothing;
    nothing.through.fill(1.0f);
    nothing.dimmed.fill(1.0f);
    std::vector<SeenSoFar> seen(std::size_t{blocks} * tile_px, nothing);
    for (int layer = 0; layer < Function::layer_count; ++layer) lay_layer(function, layer, tile, seen);
    const BytesOfLight& byte_of = bytes_of_light();
    GroundLine ground{};
    int cell = -1;
    for (int line = 0; line < height; ++line) {
        const float y = middle_of(top + line);
        // All of a line lies in one row of the field.
        const int now = function.field_cell({middle_of(left), y});
        if (now != cell) ground_of(function, tile, y, ground);
        cell = now;
        std::uint8_t* out =
            rgb + static_cast<std::size_t>(top + line) * stride + 3 * static_cast<std::size_t>(left);
        for (int first = 0; first < width; first += lanes) {
            Ends ends{};
            add_ground(
                function, &ground, static_cast<std::size_t>(first),
                &seen[static_cast<std::size_t>(first / lanes) * tile_px + static_cast<std::size_t>(line)],
                &ends);
            const auto count = static_cast<std::size_t>(std::min(lanes, width - first));
            for (std::size_t lane = 0; lane < count; ++lane) {
                for (std::size_t c = 0; c < 3; ++c) *out++ = byte_of(ends.part[c][lane], ends.light[c][lane]);
            }
        }
    }
}

}  // namespace battwright::strip
