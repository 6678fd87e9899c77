// The yarn picture: yarn wound side by side, or knitted. Compiled twice, as shared.glsl says, which goes before
// it.
//
// The including side supplies the tables and the numbers of the scene. A ply is one of the strands wound round
// each other in the yarn; a strand is one colour of one fibre, as in the fibre picture; a cell is one step of the
// supply, the section of the batt that a stretch of the single is drafted from.
//   vec4 ply_row(int ply, int row)        row 0: half width px, distance of its axis from the yarn's px,
//                                                brightness that makes its mean 1, streaks round it
//                                         row 1: step of the supply at the picture's start, steps a px of yarn,
//                                                steps from one loop of a chain to the next, brightest spot
//                                         row 2: first cell, cells till the next batt begins, steps in all,
//                                                mean of the flash
//   vec2 pick_entry(int cell, int slot)   Walker's alias table (1977): threshold, alias; `strand_count` for
//                                         fibres, then as many for lumps
//   vec4 fibre_row(int cell, int strand)  linear colour of the strand's streaks there; their gloss
//   float lumps_in(int cell)              chance that a lump's place is taken
//   uint seed; int ply_count, strand_count; bool knitted; vec2 picture_px
//   float yarn_px                 thickness of the yarn, and of a row of it
//   float turns_per_px            of the plies round each other
//   float twist_per_px            of the fibres round their ply
//   float uneven, uneven_per_px   how far thickness swings, and how often
//   float loop_px                 yarn from one loop of a chain to the next; 0 without loops
//   float lump_px                 half width of a lump; 0 without lumps
//   float hair                    0..1, how hairy
//   vec2 stitch_px; float stitch_yarn_px   a stitch's width and height, and the yarn in it

FIXED float streak_px = 30.0f;      // how long one streak of fibre shows
FIXED float ground_light = 0.32f;   // between the yarns
FIXED float roundness = 0.50f;      // how much darker a ply's edge is than its middle
FIXED float overhead = 0.17f;       // light from above, or from the left of a stitch
FIXED float hair_light = 1.25f;
FIXED float lump_reach = 2.3f;      // side of a lump's place over its half width
FIXED float base_reach = 0.40f;     // how far a leg of a stitch goes beyond its row, in rows: down,
FIXED float top_reach = 0.24f;      // and up

// A point of the picture as a point of the yarn.
struct Place {
    float along;   // px, along this row or leg
    float across;  // px from the yarn's axis, down or to the right
    float total;   // px of yarn since the picture's start
    float phase;   // turns, where the plies happen to stand
    float cover;   // 0 where there is no yarn
    float shade;   // what its neighbours leave of the light
    uint token;
};

// What is seen at a point.
struct Seen {
    int ply;
    float light;  // before the ply's own brightness
    float flash;
    vec4 fibre;
};

// Sine of turns, within 0.001: a parabola and its square.
float sine(float turns) {
    float p = -wave(turns);
    return p + 0.225f * (p * abs(p) - p);
}
// Arc sine in turns, within 0.005; its slope in the middle is exact.
float turns_at(float height) {
    float square = height * height;
    return height * (0.15915494f + square * (0.0190f + square * square * 0.07184506f));
}

Place wound_place(vec2 at) {
    Place place;
    float row = floor(at.y / yarn_px);
    place.token = stir(seed + uint(int(row)) * 0x91e10da5u);
    vec4 luck = luck_of(place.token);
    float swing = wave(at.x * uneven_per_px + luck.y) + 0.6f * wave(at.x * uneven_per_px * 2.6f + luck.z);
    float thickness = 1.0f - uneven + uneven * swing;
    place.along = at.x;
    place.across = (at.y - (row + 0.5f) * yarn_px - 0.03f * yarn_px * wave(at.x * uneven_per_px * 0.7f + luck.w)) /
                   thickness;
    place.total = row * picture_px.x + at.x;
    place.phase = luck.x;
    place.cover = 1.0f;
    place.shade = 1.0f;
    return place;
}

// A leg of a stitch, by how far up from the stitch's base in rows: its thickness as a share of the yarn's, and
// how far it stands from the stitch's middle in stitch widths.
float leg_share(float up) {
    float e = (up - 0.5f * (1.0f + top_reach - base_reach)) * (2.0f / (1.0f + top_reach + base_reach));
    return sqrt(max(1.0f - e * e * e * e, 0.0f));
}
float leg_stand(float up) { return 0.155f + up * (0.225f - 0.06f * up); }
float leg_lean(float up) { return stitch_px.x * (0.225f - 0.12f * up) / stitch_px.y; }
// Px of leg left beyond a point that far up and that far from the stitch's middle; under 0 outside.
float leg_room(float up, float away) {
    float lean = leg_lean(up);
    return 0.5f * yarn_px * leg_share(up) -
           abs(away - stitch_px.x * leg_stand(up)) * inversesqrt(1.0f + lean * lean);
}

// Stocking stitch from its right side, row upon row from the bottom; the first row is worked from right to left,
// the next one back.
Place knit_place(vec2 at) {
    float column = floor(at.x / stitch_px.x);
    float x = at.x - (column + 0.5f) * stitch_px.x;
    float side = x < 0.0f ? -1.0f : 1.0f;
    float rows = (picture_px.y - at.y) / stitch_px.y;
    float row = floor(rows);
    float up = rows - row;
    // The base of the stitch above lies over this one's top; this one's base over the top of the one below.
    float above = leg_room(up - 1.0f, abs(x));
    float here = leg_room(up, abs(x));
    float below = leg_room(up + 1.0f, abs(x));
    float step = above > 0.0f ? 1.0f : (here > 0.0f ? 0.0f : (below > 0.0f ? -1.0f : 0.0f));
    float room = above > 0.0f ? above : (here > 0.0f ? here : (below > 0.0f ? below : max(max(above, here), below)));
    row = row + step;
    up = up - step;
    float lean = leg_lean(up);
    float straight = inversesqrt(1.0f + lean * lean);
    float stitches = ceil(picture_px.x / stitch_px.x);
    bool to_the_left = fract(0.5f * row) < 0.25f;
    float stitch = row * stitches + (to_the_left ? stitches - 1.0f - column : column);
    bool first_leg = to_the_left == (side > 0.0f);
    Place place;
    place.token = stir(seed + uint(int(stitch)) * 0x91e10da5u + (side > 0.0f ? 0x68bc21ebu : 0u));
    vec4 luck = luck_of(place.token);
    float share = max(leg_share(up), 0.05f);
    place.along = up * stitch_px.y / straight;
    place.across = (x - side * stitch_px.x * leg_stand(up)) * straight / share;
    place.total = (stitch + (first_leg ? 0.25f : 0.75f)) * stitch_yarn_px;
    place.phase = luck.x;
    place.cover = clamp(room + 0.5f, 0.0f, 1.0f);
    place.shade = (1.0f - 0.42f * clamp(up * 2.6f - 1.7f, 0.0f, 1.0f)) * (1.0f - 0.30f * clamp(-2.4f * up, 0.0f, 1.0f));
    return place;
}

// A loose fibre that stands off the yarn: 0..1.
float hair_at(vec2 at, float row_px, uint salt) {
    float band = floor(at.y / row_px + 0.5f);
    float y = at.y - band * row_px;
    float length_px = 22.0f + 1.2f * row_px;
    uint token = stir(seed + salt + uint(int(band)) * 0x9e3779b9u);
    float slid = at.x / length_px + float(int(token >> 24u)) * (1.0f / 256.0f);
    float column = floor(slid);
    float x = slid - column;
    vec4 luck = luck_of(stir(token + uint(int(column)) * 0xc13fa9a9u));
    float way = luck.x < 0.5f ? -1.0f : 1.0f;
    float height = (0.14f + 0.42f * luck.y) * row_px;
    float bow = 4.0f * x * (1.0f - x);
    float middle = way * (height * bow - 0.16f * row_px) + (luck.z - 0.5f) * (x - 0.5f) * 0.5f * row_px;
    float slope = way * height * (4.0f - 8.0f * x) / length_px;
    float away = abs(y - middle) * inversesqrt(1.0f + slope * slope);
    float ends = clamp(8.0f * min(x - 0.04f, 0.45f + 0.5f * luck.w - x), 0.0f, 1.0f);
    float there = fract(luck.x * 2.0f) < hair ? 1.0f : 0.0f;
    return clamp(1.0f - away, 0.0f, 1.0f) * ends * there * (0.45f + 0.4f * luck.w);
}

// Walker's method.
int picked_strand(int cell, uint ticket, int table) {
    uint scaled = (ticket >> 16u) * uint(strand_count);
    int slot = int(scaled >> 16u);
    vec2 entry = pick_entry(cell, table * strand_count + slot);
    return float(int(scaled & 65535u)) < entry.x * 65536.0f ? slot : int(entry.y);
}

// The cell that a ply is drafted from at a place. `jitter` is -0.5..0.5: fibres of two steps lie side by side
// where one passes into the next.
int cell_at(vec4 supply, vec4 cells, float total, float jitter) {
    float loops = loop_px > 0.0f ? floor(total / loop_px) : 0.0f;
    float step = supply.x + supply.y * (total - loops * loop_px) + supply.z * loops;
    int whole = int(clamp(floor(step + jitter), 0.0f, cells.z - 1.0f));
    int cycle = int(cells.y);
    return int(cells.x) + whole - cycle * (whole / cycle);
}

// The surface of the ply that is in front at a place.
Seen seen_at(Place place) {
    float thick = 0.5f * yarn_px;
    float turn = place.phase + place.along * turns_per_px;
    // Only the two plies whose axes lie nearest to the point's own direction can be in front.
    float facing_it = (turns_at(clamp(place.across / thick, -1.0f, 1.0f)) - turn) * float(ply_count);
    float first = floor(facing_it);
    float tall = -1.0e6f;
    float off = 0.0f;
    float width = 1.0f;
    int ply = 0;
    for (int i = 0; i < 2; ++i) {
        float index = first + float(i);
        int one = int(index - float(ply_count) * floor((index + 0.5f) / float(ply_count)));
        vec4 shape = ply_row(one, 0);
        float direction = turn + index / float(ply_count);
        float away = place.across - shape.y * sine(direction);
        float inside = shape.x * shape.x - away * away;
        // Outside of both, the nearer one; never before one that is there.
        float height = inside > 0.0f ? shape.y * sine(direction + 0.25f) + sqrt(inside) : -1000.0f + inside;
        bool front = height > tall;
        tall = front ? height : tall;
        off = front ? away : off;
        width = front ? shape.x : width;
        ply = front ? one : ply;
    }
    vec4 shape = ply_row(ply, 0);
    vec4 supply = ply_row(ply, 1);
    vec4 cells = ply_row(ply, 2);
    float v = clamp(off / width, -1.0f, 1.0f);
    float facing = sqrt(1.0f - v * v);

    float around = turns_at(v) + place.along * twist_per_px;
    float streak = shape.w * around;
    float line = floor(streak);
    float edge = 2.0f * (streak - line) - 1.0f;
    uint token = stir(place.token + uint(ply) * 0x2c1b3c6du + uint(int(line)) * 0x9e3779b9u);
    float slid = place.along / streak_px + float(int(token >> 24u)) * (1.0f / 256.0f);
    token = stir(token + uint(int(floor(slid))) * 0x85ebca6bu);
    vec4 luck = luck_of(token);
    int cell = cell_at(supply, cells, place.total, luck.y - 0.5f);
    float relief = (1.0f + 0.34f * (luck.x - 0.5f)) * (1.0f - 0.20f * edge * edge);
    float ends = slid - floor(slid);
    int table = 0;
    if (lump_px > 0.0f) {
        float side = lump_reach * lump_px;
        float places = max(1.0f, floor(6.2831853f * width / side + 0.5f));
        // Shifted by row and ply, so that places do not stand in columns.
        uint lay = place.token * 0x27d4eb2fu + uint(ply) * 0x9e3779b9u;
        vec2 spot = vec2(place.along / side + float(int(lay >> 24u)) * (1.0f / 256.0f), places * around);
        vec2 corner = floor(spot);
        uint lump = stir(lay + uint(int(corner.x)) * 0x165667b1u + uint(int(corner.y)) * 0xd3a2646cu);
        vec4 chance = luck_of(lump);
        // Some longer, some wider, of one size.
        float longer = 0.86f + 0.30f * chance.z;
        vec2 from = (spot - corner - vec2(0.5f)) * vec2(side * longer, 6.2831853f * width / (places * longer));
        float far = dot(from, from) / (lump_px * lump_px);
        int its_cell = cell_at(supply, cells, place.total, chance.y - 0.5f);
        bool lies = far < 1.0f && chance.x < lumps_in(its_cell);
        table = lies ? 1 : 0;
        token = lies ? stir(lump + 0x7f4a7c15u) : token;
        cell = lies ? its_cell : cell;
        relief = lies ? 1.14f - 0.34f * far : relief;
    }
    Seen seen;
    seen.ply = ply;
    float cover = clamp(width - abs(off) + 0.5f, 0.0f, 1.0f) * place.cover;
    float deep = 0.74f + 0.26f * clamp(tall / thick, 0.0f, 1.0f);
    float light = (1.0f - roundness + roundness * facing) * (1.0f - overhead * v) * deep * relief * place.shade;
    seen.light = ground_light + (light - ground_light) * cover;
    float ridge = (v + 0.3f) * 2.2f;
    seen.flash = max(1.0f - ridge * ridge, 0.0f) * luck.z * 4.0f * ends * (1.0f - ends) * cover * place.shade;
    seen.fibre = fibre_row(cell, picked_strand(cell, token, table));
    return seen;
}

Seen yarn_seen(vec2 at) {
    Seen seen;
    if (knitted) {
        seen = seen_at(knit_place(at));
    } else {
        seen = seen_at(wound_place(at));
    }
    float row_px = knitted ? stitch_px.y : yarn_px;
    float loose = max(hair_at(at, row_px, 0x51ed270bu), hair_at(vec2(at.x + 9.0f, at.y), row_px, 0x1b873593u)) *
                  (knitted ? 0.35f : 1.0f);
    seen.light = seen.light + (hair_light - seen.light) * loose;
    return seen;
}

// Linear colour at a point.
vec3 yarn_light(vec2 at) {
    Seen seen = yarn_seen(at);
    vec3 colour = vec3(seen.fibre);
    float brightest = ply_row(seen.ply, 1).w;
    float light = seen.light * ply_row(seen.ply, 0).z;
    float relief = relief_of(colour, brightest);
    float highest = max(colour.x, max(colour.y, colour.z));
    vec3 top = max(vec3(1.0f - highest * relief * (brightest - 1.0f)), colour);
    vec3 bright = min(colour * 2.4f + vec3(0.05f), top);
    float flash = (seen.flash - ply_row(seen.ply, 2).w) * seen.fibre.w;
    return colour * (1.0f + relief * (light - 1.0f)) + (bright - colour) * flash;
}

vec3 yarn_colour(vec2 at) { return srgb_encoded(yarn_light(at)); }
