// Inside this room: shaders/yarn.glsl as C++, with the scene's tables behind the names it reads.
#pragma once

#include <cstddef>

#include "strip/numbers.hpp"

namespace battwright::strip::shader {

// One per thread; the scene must outlive it.
struct YarnFunction : YarnNumbers {
    YarnFunction(const YarnScene& scene, float width, float height)
        : YarnNumbers(resized(numbers_of(scene), width, height)), scene_(&scene) {}

  private:
    const YarnScene* scene_;

    vec4 four(const std::vector<float>& table, int index) const {
        const float* at = table.data() + 4 * static_cast<std::size_t>(index);
        return {at[0], at[1], at[2], at[3]};
    }
    vec4 ply_row(int ply, int row) const { return four(scene_->plies, 3 * ply + row); }
    vec4 fibre_row(int cell, int strand) const { return four(scene_->fibres, cell * strand_count + strand); }
    float lumps_in(int cell) const { return scene_->lumps[static_cast<std::size_t>(cell)]; }
    vec2 pick_entry(int cell, int slot) const {
        const auto at = 2 * static_cast<std::size_t>(2 * cell * strand_count + slot);
        return {scene_->picks[at], scene_->picks[at + 1]};
    }

  public:
#include "../../shaders/shared.glsl"
// after what it uses
#include "../../shaders/yarn.glsl"
};

}  // namespace battwright::strip::shader
