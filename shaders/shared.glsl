// What the pictures share. Every picture's text is compiled twice: as GLSL 3.30 for the window, and as C++ with
// glm for files and tests. So: no swizzle assignment, `1.0f` and never `1.0`, whole-number hashes only.

#ifdef __cplusplus
#define FIXED static constexpr
#else
#define FIXED const
#endif

FIXED float least_relief = 0.13f;

uint stir(uint n) {
    n = (n ^ (n >> 16u)) * 0x7feb352du;
    n = (n ^ (n >> 15u)) * 0x846ca68bu;
    return n ^ (n >> 16u);
}

// A sine of parabolas, period 1; `wave_slope` is its derivative.
float wave(float turns) {
    float p = 2.0f * fract(turns) - 1.0f;
    return 4.0f * p * (1.0f - abs(p));
}
float wave_slope(float turns) { return 8.0f * (1.0f - 2.0f * abs(2.0f * fract(turns) - 1.0f)); }

vec4 luck_of(uint n) {
    // By way of int: software GL turns unsigned numbers into floats slowly.
    return vec4(float(int(n & 255u)), float(int((n >> 8u) & 255u)), float(int((n >> 16u) & 255u)),
                float(int(n >> 24u))) * (1.0f / 256.0f);
}

// How strongly relief may show on a colour before its brightest channel clips.
float relief_of(vec3 colour, float brightest) {
    float top = max(max(colour.x, colour.y), max(colour.z, 0.004f));
    return clamp((1.0f - top) / (top * max(brightest - 1.0f, 0.01f)), least_relief, 1.0f);
}

vec3 srgb_encoded(vec3 light) {
    vec3 c = clamp(light, vec3(0.0f), vec3(1.0f));
    vec3 low = c * 12.92f;
    vec3 high = 1.055f * pow(max(c, vec3(0.0031308f)), vec3(1.0f / 2.4f)) - vec3(0.055f);
    return vec3(c.x < 0.0031308f ? low.x : high.x, c.y < 0.0031308f ? low.y : high.y,
                c.z < 0.0031308f ? low.z : high.z);
}
