// What fibre.glsl is told besides its tables, each named here alone: the fragment shader, the function in C++ and
// who hands the numbers over read this list.
NUMBER(uint, seed)
NUMBER(int, strand_count)
NUMBER(int, field_columns)
NUMBER(int, field_rows)
NUMBER(vec2, cells_per_px)
