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

const int layer_count = 4;
const float row_px = 5.0f;      // every layer is rows of cells, and a fibre keeps to its row,
const float cell_px = 192.0f;   // so that one look-up a layer finds it
const float most_pieces = 4.0f;
const float layer_dimming = 0.93f;
const float shadow_depth = 0.26f;
const float shadow_px = 2.4f;
const float roundness = 0.42f;  // how much darker a fibre's edge is than its middle
const float overhead = 0.16f;   // light from above: upper side lighter, lower side darker

// What one fibre does at one point.
struct Glyph {
    float cover;   // 0..1, soft at the edge
    float shade;   // 0..1, how much of its shadow falls here
    float across;  // -1 upper edge .. 1 lower edge
};

// `at` is measured from the middle of the fibre's cell, `lean` is the slope of the layer there. Short fibres
// and lumps share a cell: up to `most_pieces` of them, one behind the other.
Glyph glyph_at(vec4 shape, vec2 at, uint token, float lean) {
    float pieces = clamp(floor(cell_px / (2.3f * shape.y)), 1.0f, most_pieces);
    float piece_px = cell_px / pieces;
    float place = (at.x * (1.0f / cell_px) + 0.5f) * pieces;
    vec4 luck = luck_of(stir(token + uint(int(place)) * 0x85ebca6bu));
    float half_length = shape.y * (0.72f + 0.28f * luck.x);
    float x = (fract(place) - 0.5f) * piece_px - (0.5f * piece_px - half_length) * (2.0f * luck.w - 1.0f);
    float along = x / half_length;
    float taper = clamp(0.12f * shape.y / shape.x, 1.0f, 8.0f);
    float half_width = shape.x * (0.75f + 0.25f * luck.y) * sqrt(clamp((1.0f - along * along) * taper, 0.0f, 1.0f));
    float soft = max(1.0f, 0.55f * shape.x);
    float room = 0.5f * row_px - shape.x - 0.4f * soft;
    // Crimp comes and goes along a fibre, and no two waves are quite alike.
    float turns = shape.w * (0.7f + 0.6f * luck.z);
    float ebb = wave(x * turns * 0.21f + luck.x * 7.0f);
    float height = min(shape.z * (0.25f + luck.y) * (0.7f + 0.3f * ebb), room);
    float phase = x * turns + luck.y * 3.0f + 0.3f * ebb;
    float middle = height * wave(phase) + (room - height) * wave(x * 0.0045f + luck.z * 5.0f + luck.w);
    float slope = height * turns * wave_slope(phase) - lean;
    float away = (at.y - middle) * inversesqrt(1.0f + slope * slope);
    float end = min(1.0f, 2.0f * half_width);
    Glyph glyph;
    glyph.cover = clamp((half_width - abs(away)) / soft + 0.5f, 0.0f, 1.0f) * end;
    glyph.shade = clamp(1.0f - (abs(away - 0.7f) - half_width) * (1.0f / shadow_px), 0.0f, 1.0f) * end;
    glyph.across = clamp(away / (half_width + 0.5f * soft), -1.0f, 1.0f);
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

// 0..1: where along a fibre the light is thrown back; film does it in short flashes.
float highlight_of(float across, float x, uint token, float glints) {
    float round_top = 1.0f - (across + 0.25f) * (across + 0.25f);
    float sheen = 0.5f + 0.5f * wave(x * 0.011f + float(int(token & 1023u)) * (1.0f / 1024.0f));
    float facet = x * 0.16f;
    float bend = fract(facet);
    uint flash = stir(token + uint(int(floor(facet))) * 0x9e3779b9u) & 255u;
    return glints > 0.5f ? (flash < 48u ? 4.0f * bend * (1.0f - bend) : 0.0f) : max(round_top, 0.0f) * sheen * sheen;
}

// Colour of a strand at a point of its fibre. `light` is 1 on average over all that is seen. Relief and
// highlight are added, each with mean nought, so that the fibre's mean stays its colour.
vec3 lit_colour(vec3 colour, vec4 finish, float across, float x, float light, float front, uint token) {
    float strands = finish.w < 0.0f ? 0.22f * wave(across * finish.w + x * 0.03f) : 0.0f;
    float modelling = roundness * (finish.x - across * across) - overhead * across + strands;
    float brightest = front * (1.06f + roundness * finish.x);
    float relief = relief_of(colour, brightest);
    float highest = max(colour.x, max(colour.y, colour.z));
    vec3 top = max(vec3(1.0f - highest * relief * (brightest - 1.0f)), colour);
    vec3 bright = min(min(colour * (1.0f + finish.z) + vec3(0.02f * finish.z), top),
                      colour * (0.7f / max(finish.y, 0.05f)));
    float flash = (highlight_of(across, x, token, finish.w) - finish.y) / (1.0f - finish.y);
    return colour * (1.0f + relief * (light * (1.0f + modelling) - 1.0f)) + (bright - colour) * flash;
}

// Linear colour at a point, front layer first, until nothing shows through.
vec3 strip_light(vec2 at) {
    vec3 sum = vec3(0.0f);
    float through = 1.0f;
    float dimmed = 1.0f;
    int layer = 0;
    uint start = stir(seed + 0x51ed270bu);
    // One loop, and in GL a fibre's colour is worked out even where it does not cover: a loop within the loop
    // that looks for the next fibre first costs software GL half as much again.
    while (layer < layer_count && through > 0.06f) {
        float shifted = at.y + layer_shift(layer, at.x);
        float row = floor(shifted * (1.0f / row_px));
        uint row_token = start + uint(int(row)) * 0x91e10da5u + uint(layer) * 0x9e3779b9u;
        float slid = at.x + cell_px * (float(int((row_token * 0x9c8f2d35u) >> 8u)) * (1.0f / 16777216.0f));
        float column = floor(slid * (1.0f / cell_px));
        float x = slid - (column + 0.5f) * cell_px;
        float y = shifted - (row + 0.5f) * row_px;
        uint ticket = row_token + uint(int(column)) * 0xc13fa9a9u;
        uint token = ticket * 0x2c1b3c6du + uint(layer);
        // The field is asked where the fibre's cell has its middle.
        float anchor = at.x - x;
        int cell = field_cell(vec2(anchor, (row + 0.5f) * row_px - layer_shift(layer, anchor)));
        int strand = picked_strand(cell, ticket);
        Glyph glyph = glyph_at(strand_row(strand, 0), vec2(x, y), token, layer_lean(layer));
        vec4 fibre = fibre_row(cell, strand);
#ifdef __cplusplus
        if (glyph.cover > 0.0f)
#endif
        {
            vec3 lit = lit_colour(vec3(fibre), strand_row(strand, 1), glyph.across, x, dimmed * fibre.w, fibre.w, token);
            sum = sum + lit * (through * glyph.cover);
        }
        through = through * (1.0f - glyph.cover);
        dimmed = dimmed * layer_dimming * (1.0f - shadow_depth * glyph.shade);
        layer = layer + 1;
    }
    vec4 ground = cell_row(field_cell(at));
    vec3 base = vec3(ground);
    vec3 deep = base * (1.0f + relief_of(base, ground.w + roundness * 0.35f) * (dimmed * ground.w - 1.0f));
    return sum + deep * through;
}

vec3 strip_colour(vec2 at) { return srgb_encoded(strip_light(at)); }
