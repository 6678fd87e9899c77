// The strips of the variants.
#pragma once

#include <map>
#include <optional>

#include "window/gl/strip_texture.hpp"
#include "window/room.hpp"

namespace battwright::app {
struct Variant;
}

namespace battwright::window {

// The strips of the variants, drawn once each.
class VariantPictures {
  public:
    // Draws what is new and forgets what is gone. The complaint is the driver's.
    std::optional<measure::Complaint> follow(const std::map<unsigned long, strip::Scene>& scenes);
    ImTextureID of(const Variant& variant) const;

  private:
    std::map<unsigned long, StripTexture> strips_;  // by the variant's number
};

}  // namespace battwright::window
