// Inside this room: shaders/fibre.glsl as C++, with the scene's tables behind the names it reads.
#pragma once

#include <cstddef>

#include "strip/numbers.hpp"

namespace battwright::strip::shader {

// One per thread; the scene must outlive it.
struct Function : FibreNumbers {
    Function(const Scene& scene, float width, float height)
        : FibreNumbers(resized(numbers_of(scene), width, height)), scene_(&scene) {}

  private:
    const Scene* scene_;

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
