// The fibre picture and the yarn picture on the GPU: the same functions as strip::draw, as an OpenGL texture.
#pragma once

#include <memory>

#include "measure/complaint.hpp"
#include "strip/picture.hpp"
#include "strip/yarn_picture.hpp"

namespace battwright::window {

// Whether this context's OpenGL is worked out by the CPU, by the name its driver gives.
bool drawn_by_software();

// Draws scenes into a texture of its own. Needs OpenGL 3.3 core, and its context to be current whenever it is
// made, used or destroyed. It leaves the bindings and states it changes as it found them.
class StripRenderer {
  public:
    // Compiles the shaders. The complaint holds the first line of the driver's own words.
    static measure::Expected<StripRenderer> make();
    StripRenderer(StripRenderer&&) noexcept;
    StripRenderer& operator=(StripRenderer&&) noexcept;
    ~StripRenderer();

    // Copies the scene's tables to the GPU; the scene may go afterwards.
    measure::Expected<void> upload(const strip::Scene& scene);
    measure::Expected<void> upload(const strip::YarnScene& scene);
    // Draws what was last uploaded; the first row of the texture is the top of the picture. Two
    // textures take turns, so that a changed picture is known by its name.
    measure::Expected<void> draw(int width, int height);
    // Name of the OpenGL texture of the last drawing (RGBA, 8 bits, sRGB-encoded numbers); 0 before the first
    // drawing.
    unsigned texture() const;
    // Reads the texture back.
    strip::Image image() const;

  private:
    struct Parts;
    explicit StripRenderer(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

}  // namespace battwright::window
