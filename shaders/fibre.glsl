// The fibre picture. This one text is compiled twice: as GLSL 3.30 for the window, and as C++ with glm for
// files and tests (see shared.glsl, which goes before it).
//
// The including side supplies the tables and the numbers of the scene:
//   vec4 strand_row(int strand, int row)   row 0: half width px, half length px, crimp height px, waves a px
//                                          row 1: mean of across^2 over the drawn area; mean highlight;
//                                                 highlight's strength; 1 for film that glints, streaks across
//                                                 a lump as a number under 0
//   vec2 pick_entry(int cell, int slot)    Walker's alias table (1977): threshold, alias
//   vec4 fibre_row(int cell, int strand)   linear colour of the strand's fibres in that field cell; brightness
//                                          of the front layer there
//   vec4 cell_row(int cell)                linear colour of the blend; brightness of the front layer
//   uint seed; int strand_count, field_columns, field_rows; vec2 cells_per_px;
//
// Scale: 4 px a millimetre, so 160 px are 40 mm of batt; fibres are drawn about tenfold too thick, as a
// 20 um fibre would be 0.08 px. x runs along the strip, y down. The field is stretched over the picture; the
// fibres are not: they lie on the same endless sheet whatever the picture's size.

FIXED int layer_count = 4;
FIXED float row_px = 5.0f;      // every layer is rows of cells, and a fibre keeps to its row,
FIXED float cell_px = 192.0f;   // so that one look-up a layer finds it
FIXED float most_pieces = 4.0f;
FIXED float layer_dimming = 0.93f;
FIXED float shadow_depth = 0.26f;
FIXED float shadow_px = 2.4f;
FIXED float roundness = 0.42f;  // how much darker a fibre's edge is than its middle
FIXED float overhead = 0.16f;   // light from above: upper side lighter, lower side darker
FIXED float least_through = 0.06f;  // less of what lies behind is not looked for

// The work is laid out by how often it changes, so that whoever draws row by row of fibres does each part once:
// what is the same all along a fibre (Piece, Paint), what is the same at one x of it (Course), and the rest.

// A fibre as it lies in its cell. Short fibres and lumps share a cell: up to `most_pieces` of them, one behind
// the other.
struct Piece {
    vec4 luck;
    float pieces, piece_px;
    float half_length, pushed;      // px; how far it is pushed along its place
    float wide, taper, soft, room;  // half width; how soon its ends are full; its edge; what is left of the row
    float turns, crimp, lean;
};
// A fibre at one x.
struct Course {
    float half_width, middle, steep, end;
    float sheen, flash;  // of hair and of film
    float streak;        // where among a lump's streaks
};
// How a strand takes the light at a place of the field.
struct Paint {
    vec3 colour, bright;
    float relief;
};
// What one fibre does at one point.
struct Glyph {
    float cover;   // 0..1, soft at the edge
    float shade;   // 0..1, how much of its shadow falls here
    float across;  // -1 upper edge .. 1 lower edge
};

// How many pieces share a cell, and which place along it that is: the whole part counts the piece.
float pieces_of(vec4 shape) { return clamp(floor(cell_px / (2.3f * shape.y)), 1.0f, most_pieces); }
float place_at(float x, float pieces) { return (x * (1.0f / cell_px) + 0.5f) * pieces; }

// `lean` is the slope of the layer where the fibre lies.
Piece piece_at(vec4 shape, float pieces, int number, uint token, float lean) {
    Piece piece;
    piece.pieces = pieces;
    piece.piece_px = cell_px / pieces;
    vec4 luck = luck_of(stir(token + uint(number) * 0x85ebca6bu));
    piece.luck = luck;
    piece.half_length = shape.y * (0.72f + 0.28f * luck.x);
    piece.pushed = (0.5f * piece.piece_px - piece.half_length) * (2.0f * luck.w - 1.0f);
    piece.wide = shape.x * (0.75f + 0.25f * luck.y);
    piece.taper = clamp(0.12f * shape.y / shape.x, 1.0f, 8.0f);
    piece.soft = max(1.0f, 0.55f * shape.x);
    piece.room = 0.5f * row_px - shape.x - 0.4f * piece.soft;
    piece.turns = shape.w * (0.7f + 0.6f * luck.z);
    piece.crimp = shape.z * (0.25f + luck.y);
    piece.lean = lean;
    return piece;
}

// `x` is measured from the middle of the fibre's cell.
Course course_at(Piece piece, float x, uint token) {
    Course course;
    vec4 luck = piece.luck;
    float along_px = (fract(place_at(x, piece.pieces)) - 0.5f) * piece.piece_px - piece.pushed;
    float along = along_px / piece.half_length;
    course.half_width = piece.wide * sqrt(clamp((1.0f - along * along) * piece.taper, 0.0f, 1.0f));
    course.end = min(1.0f, 2.0f * course.half_width);
    // Crimp comes and goes along a fibre, and no two waves are quite alike.
    float ebb = wave(along_px * piece.turns * 0.21f + luck.x * 7.0f);
    float height = min(piece.crimp * (0.7f + 0.3f * ebb), piece.room);
    float phase = along_px * piece.turns + luck.y * 3.0f + 0.3f * ebb;
    course.middle = height * wave(phase) + (piece.room - height) * wave(along_px * 0.0045f + luck.z * 5.0f + luck.w);
    float slope = height * piece.turns * wave_slope(phase) - piece.lean;
    course.steep = inversesqrt(1.0f + slope * slope);
    course.sheen = 0.5f + 0.5f * wave(x * 0.011f + float(int(token & 1023u)) * (1.0f / 1024.0f));
    float facet = x * 0.16f;
    float bend = fract(facet);
    float bow = 4.0f * bend * (1.0f - bend);
    course.flash = (stir(token + uint(int(floor(facet))) * 0x9e3779b9u) & 255u) < 48u ? bow : 0.0f;
    course.streak = x * 0.03f;
    return course;
}

// `y` is measured from the middle of the fibre's row.
Glyph glyph_at(Course course, float soft, float y) {
    float away = (y - course.middle) * course.steep;
    Glyph glyph;
    glyph.cover = clamp((course.half_width - abs(away)) / soft + 0.5f, 0.0f, 1.0f) * course.end;
    glyph.shade = clamp(1.0f - (abs(away - 0.7f) - course.half_width) * (1.0f / shadow_px), 0.0f, 1.0f) * course.end;
    glyph.across = clamp(away / (course.half_width + 0.5f * soft), -1.0f, 1.0f);
    return glyph;
}

// Each layer leans and wanders in its own way: how far it is shifted down at x.
float layer_lean(int layer) { return 0.085f * wave(float(layer) * 0.381966f + 0.1f); }
float layer_waves(int layer) { return 0.0016f + 0.0014f * fract(float(layer) * 0.618034f); }
float layer_shift(int layer, float x) {
    return layer_lean(layer) * x + 11.0f * wave(x * layer_waves(layer) + float(layer) * 0.2360680f);
}

int field_cell(vec2 at) {
    int column = clamp(int(floor(at.x * cells_per_px.x)), 0, field_columns - 1);
    int row = clamp(int(floor(at.y * cells_per_px.y)), 0, field_rows - 1);
    return row * field_columns + column;
}

// Walker's method; `ticket` runs evenly over cells so that shares hold in small pictures too.
int picked_strand(int cell, uint ticket) {
    uint scaled = (ticket >> 16u) * uint(strand_count);
    int slot = int(scaled >> 16u);
    vec2 entry = pick_entry(cell, slot);
    return float(int(scaled & 65535u)) < entry.x * 65536.0f ? slot : int(entry.y);
}

// The cells of a layer's row are slid along it, each row by its own length.
uint row_token_of(int layer, float row) {
    return stir(seed + 0x51ed270bu) + uint(int(row)) * 0x91e10da5u + uint(layer) * 0x9e3779b9u;
}
float slid_by(uint row_token) { return cell_px * (float(int((row_token * 0x9c8f2d35u) >> 8u)) * (1.0f / 16777216.0f)); }
uint ticket_of(uint row_token, float column) { return row_token + uint(int(column)) * 0xc13fa9a9u; }
uint token_of(uint ticket, int layer) { return ticket * 0x2c1b3c6du + uint(layer); }
// The field is asked where the fibre's cell has its middle.
int cell_under(int layer, float row, float column, float slid) {
    float anchor = (column + 0.5f) * cell_px - slid;
    return field_cell(vec2(anchor, (row + 0.5f) * row_px - layer_shift(layer, anchor)));
}

// 0..1: where along a fibre the light is thrown back; film does it in short flashes.
float highlight_of(Course course, float across, float glints) {
    float round_top = 1.0f - (across + 0.25f) * (across + 0.25f);
    float hair = max(round_top, 0.0f) * course.sheen * course.sheen;
    return glints > 0.5f ? course.flash : hair;
}

Paint paint_of(vec4 fibre, vec4 finish) {
    Paint paint;
    vec3 colour = vec3(fibre);
    float brightest = fibre.w * (1.06f + roundness * finish.x);
    paint.colour = colour;
    paint.relief = relief_of(colour, brightest);
    float highest = max(colour.x, max(colour.y, colour.z));
    vec3 top = max(vec3(1.0f - highest * paint.relief * (brightest - 1.0f)), colour);
    paint.bright = min(min(colour * (1.0f + finish.z) + vec3(0.02f * finish.z), top),
                       colour * (0.7f / max(finish.y, 0.05f)));
    return paint;
}

// Colour of a strand at a point of its fibre. `light` is 1 on average over all that is seen. Relief and
// highlight are added, each with mean nought, so that the fibre's mean stays its colour.
vec3 lit_colour(Paint paint, vec4 finish, Course course, float across, float light) {
    float streaks = 0.22f * wave(across * finish.w + course.streak);
    float modelling = roundness * (finish.x - across * across) - overhead * across + (finish.w < 0.0f ? streaks : 0.0f);
    float flash = (highlight_of(course, across, finish.w) - finish.y) / (1.0f - finish.y);
    return paint.colour * (1.0f + paint.relief * (light * (1.0f + modelling) - 1.0f)) +
           (paint.bright - paint.colour) * flash;
}

// What shows behind the last layer: its colour, and how strongly relief may show there.
float ground_relief(vec4 ground) { return relief_of(vec3(ground), ground.w + roundness * 0.35f); }
vec3 ground_light(vec4 ground, float relief, float dimmed) {
    return vec3(ground) * (1.0f + relief * (dimmed * ground.w - 1.0f));
}
// How much of the light is left behind a fibre.
float dimmed_by(float dimmed, float shade) { return dimmed * layer_dimming * (1.0f - shadow_depth * shade); }

// Linear colour at a point, front layer first, until nothing shows through.
vec3 strip_light(vec2 at) {
    vec3 sum = vec3(0.0f);
    float through = 1.0f;
    float dimmed = 1.0f;
    int layer = 0;
    // One loop, and a fibre's colour is worked out even where it does not cover: a loop within the loop that
    // looks for the next fibre first costs software GL half as much again.
    while (layer < layer_count && through > least_through) {
        float shifted = at.y + layer_shift(layer, at.x);
        float row = floor(shifted * (1.0f / row_px));
        uint row_token = row_token_of(layer, row);
        float by = slid_by(row_token);
        float slid = at.x + by;
        float column = floor(slid * (1.0f / cell_px));
        float x = slid - (column + 0.5f) * cell_px;
        float y = shifted - (row + 0.5f) * row_px;
        uint ticket = ticket_of(row_token, column);
        uint token = token_of(ticket, layer);
        int cell = cell_under(layer, row, column, by);
        int strand = picked_strand(cell, ticket);
        vec4 shape = strand_row(strand, 0);
        vec4 finish = strand_row(strand, 1);
        vec4 fibre = fibre_row(cell, strand);
        float pieces = pieces_of(shape);
        Piece piece = piece_at(shape, pieces, int(place_at(x, pieces)), token, layer_lean(layer));
        Course course = course_at(piece, x, token);
        Glyph glyph = glyph_at(course, piece.soft, y);
        vec3 lit = lit_colour(paint_of(fibre, finish), finish, course, glyph.across, dimmed * fibre.w);
        sum = sum + lit * (through * glyph.cover);
        through = through * (1.0f - glyph.cover);
        dimmed = dimmed_by(dimmed, glyph.shade);
        layer = layer + 1;
    }
    vec4 ground = cell_row(field_cell(at));
    return sum + ground_light(ground, ground_relief(ground), dimmed) * through;
}

vec3 strip_colour(vec2 at) { return srgb_encoded(strip_light(at)); }
