// The fibre picture or the yarn picture as a texture that ImGui can show.
#pragma once

#include <optional>

#include "strip/picture.hpp"
#include "window/gl/strip_gl.hpp"
#include "window/gl/texture.hpp"

namespace battwright::window {

// Needs the window's context to be current whenever it is used or destroyed. Drawn on the GPU; on the CPU
// when the driver cannot compile the picture, and the fibre picture also where the driver is software, which
// takes several times as long.
class StripTexture {
  public:
    struct Size {
        int width = 0, height = 0;
        int distance = 0;  // 1 and 2: two and four times as far away, so more fibre, blended by the eye
        // A hand is moving: coarser on the CPU, and where the full picture takes longer than a frame.
        bool hurried = false;
    };
    // Draws the scene. The complaint is the driver's, told once; the picture is there all the same.
    measure::Expected<void> draw(const strip::Scene& scene, const Size& size);
    // Yarn is never drawn coarser: it would seem to come nearer.
    measure::Expected<void> draw(const strip::YarnScene& scene, const Size& size);
    // True when the full picture takes longer than a 60 Hz frame leaves for it.
    bool slow() const { return seconds_full_ > 0.010; }
    ImTextureID id() const;

  private:
    template <class AnyScene>
    measure::Expected<void> draw_any(const AnyScene& scene, const Size& size);

    std::optional<StripRenderer> renderer_;
    bool no_renderer_ = false;
    bool from_renderer_ = false;
    Texture texture_;  // our own, for pictures that came by way of the CPU
    double seconds_full_ = 0.0;
};

}  // namespace battwright::window
