// Whether a frame shows anything else than the one before.
#pragma once

#include <imgui.h>

#include <cstdint>

#include "colour/spaces.hpp"

namespace battwright::window {

// A number that differs when the frame to be painted does: what is drawn where, in what colour, from which
// texture. Of the textures themselves only their names count, so one whose picture changes must take another.
std::uint64_t fingerprint_of(const ImDrawData& frame, const colour::Srgb& ground);

}  // namespace battwright::window
