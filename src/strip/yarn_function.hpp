// Inside this room: shaders/yarn.glsl as C++, with the scene's tables behind the names it reads.
#pragma once

#include <cstddef>
#include <glm/glm.hpp>

#include "strip/yarn_picture.hpp"

namespace battwright::strip::shader {

using namespace glm;  // the shader's names: vec3, clamp, fract ...

// One per thread; the scene must outlive it.
struct YarnFunction {
    YarnFunction(const YarnScene& scene, float width, float height)
        : scene_(&scene),
          seed(scene.seed),
          ply_count(scene.ply_count),
          strand_count(scene.strand_count),
          knitted(scene.view == YarnView::swatch),
          picture_px(width, height),
          yarn_px(scene.yarn_px),
          turns_per_px(scene.turns_per_px),
          twist_per_px(scene.twist_per_px),
          uneven(scene.uneven),
          uneven_per_px(scene.uneven_per_px),
          loop_px(scene.loop_px),
          lump_px(scene.lump_px),
          hair(scene.hair),
          stitch_px(scene.stitch_width_px, scene.stitch_height_px),
          stitch_yarn_px(scene.stitch_yarn_px) {}

  private:
    const YarnScene* scene_;
    uint seed;
    int ply_count, strand_count;
    bool knitted;
    vec2 picture_px;
    float yarn_px, turns_per_px, twist_per_px, uneven, uneven_per_px, loop_px, lump_px, hair;
    vec2 stitch_px;
    float stitch_yarn_px;

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
