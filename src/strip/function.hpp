// Inside this room: shaders/fibre.glsl as C++, with the scene's tables behind the names it reads.
#pragma once

#include <cstddef>
#include <glm/glm.hpp>

#include "strip/picture.hpp"

namespace battwright::strip::shader {

using namespace glm;  // the shader's names: vec3, clamp, fract ...

// One per thread; the scene must outlive it.
struct Function {
    Function(const Scene& scene, float width, float height)
        : scene_(&scene),
          seed(scene.seed),
          strand_count(scene.strand_count),
          field_columns(scene.field_columns),
          field_rows(scene.field_rows),
          cells_per_px(static_cast<float>(scene.field_columns) / width,
                       static_cast<float>(scene.field_rows) / height) {}

  private:
    const Scene* scene_;
    uint seed;
    int strand_count, field_columns, field_rows;
    vec2 cells_per_px;

    vec4 four(const std::vector<float>& table, int index) const {
        const float* at = table.data() + 4 * static_cast<std::size_t>(index);
        return {at[0], at[1], at[2], at[3]};
    }

  public:
    vec4 strand_row(int strand, int row) const { return four(scene_->strands, 2 * strand + row); }
    vec4 fibre_row(int cell, int strand) const { return four(scene_->fibres, cell * strand_count + strand); }
    vec4 cell_row(int cell) const { return four(scene_->cells, cell); }
    vec2 pick_entry(int cell, int slot) const {
        const auto at = 2 * static_cast<std::size_t>(cell * strand_count + slot);
        return {scene_->picks[at], scene_->picks[at + 1]};
    }

#include "../../shaders/shared.glsl"
// after what it uses
#include "../../shaders/fibre.glsl"
};

}  // namespace battwright::strip::shader
