#version 330 core
// The tables of a yarn scene as buffer textures, one texel a row. yarn_numbers.glsl is put in where the program
// finds the line `// numbers`, shared.glsl and yarn.glsl where it finds `// picture`.
uniform samplerBuffer plies;
uniform samplerBuffer picks;
uniform samplerBuffer fibres;
uniform samplerBuffer lumps;
#define NUMBER(type, name) uniform type name;
// numbers
out vec4 pixel;

vec4 ply_row(int ply, int row) { return texelFetch(plies, 3 * ply + row); }
vec2 pick_entry(int cell, int slot) { return texelFetch(picks, 2 * cell * strand_count + slot).xy; }
vec4 fibre_row(int cell, int strand) { return texelFetch(fibres, cell * strand_count + strand); }
float lumps_in(int cell) { return texelFetch(lumps, cell).x; }

// picture

void main() {
    // The first row of the texture is the top of the picture.
    pixel = vec4(yarn_colour(gl_FragCoord.xy), 1.0);
}
