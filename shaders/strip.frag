#version 330 core
// The tables of a scene as buffer textures, one texel a row. fibre_numbers.glsl is put in where the program finds
// the line `// numbers`, shared.glsl and fibre.glsl where it finds `// picture`.
uniform samplerBuffer strands;
uniform samplerBuffer picks;
uniform samplerBuffer fibres;
uniform samplerBuffer cells;
#define NUMBER(type, name) uniform type name;
// numbers
out vec4 pixel;

vec4 strand_row(int strand, int row) { return texelFetch(strands, 2 * strand + row); }
vec2 pick_entry(int cell, int slot) { return texelFetch(picks, cell * strand_count + slot).xy; }
vec4 fibre_row(int cell, int strand) { return texelFetch(fibres, cell * strand_count + strand); }
vec4 cell_row(int cell) { return texelFetch(cells, cell); }

// picture

void main() {
    // The first row of the texture is the top of the picture.
    pixel = vec4(strip_colour(gl_FragCoord.xy), 1.0);
}
