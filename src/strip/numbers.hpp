// Inside this room and the window: what the picture functions are told besides their tables. Which numbers
// these are stands in shaders/*_numbers.glsl alone.
#pragma once

#include <glm/glm.hpp>

#include "strip/picture.hpp"
#include "strip/yarn_picture.hpp"

namespace battwright::strip::shader {

using namespace glm;  // the shader's names: vec2, uint

#define NUMBER(type, name) type name;
struct FibreNumbers {
#include "../../shaders/fibre_numbers.glsl"
};
struct YarnNumbers {
#include "../../shaders/yarn_numbers.glsl"
};
#undef NUMBER

// Calls tell(name, value) with each.
#define NUMBER(type, name) tell(#name, numbers.name);
template <class Tell>
void each_number(const FibreNumbers& numbers, const Tell& tell) {
#include "../../shaders/fibre_numbers.glsl"
}
template <class Tell>
void each_number(const YarnNumbers& numbers, const Tell& tell) {
#include "../../shaders/yarn_numbers.glsl"
}
#undef NUMBER

// The same for a picture of another size in pixels.
inline FibreNumbers resized(FibreNumbers numbers, float width, float height) {
    numbers.cells_per_px = {static_cast<float>(numbers.field_columns) / width,
                            static_cast<float>(numbers.field_rows) / height};
    return numbers;
}
inline YarnNumbers resized(YarnNumbers numbers, float width, float height) {
    numbers.picture_px = {width, height};
    return numbers;
}

// Of a picture of one pixel.
inline FibreNumbers numbers_of(const Scene& scene) {
    return {.seed = scene.seed,
            .strand_count = scene.strand_count,
            .field_columns = scene.field_columns,
            .field_rows = scene.field_rows,
            .cells_per_px = {scene.field_columns, scene.field_rows}};
}
inline YarnNumbers numbers_of(const YarnScene& scene) {
    return {.seed = scene.seed,
            .ply_count = scene.ply_count,
            .strand_count = scene.strand_count,
            .knitted = scene.view == YarnView::swatch,
            .picture_px = {1.0f, 1.0f},
            .yarn_px = scene.yarn_px,
            .turns_per_px = scene.turns_per_px,
            .twist_per_px = scene.twist_per_px,
            .uneven = scene.uneven,
            .uneven_per_px = scene.uneven_per_px,
            .loop_px = scene.loop_px,
            .lump_px = scene.lump_px,
            .hair = scene.hair,
            .stitch_px = {scene.stitch_width_px, scene.stitch_height_px},
            .stitch_yarn_px = scene.stitch_yarn_px};
}

}  // namespace battwright::strip::shader
