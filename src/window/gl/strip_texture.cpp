#include "window/gl/strip_texture.hpp"

#include <epoxy/gl.h>

#include <algorithm>
#include <chrono>
#include <type_traits>
#include <utility>

namespace battwright::window {
namespace {

// By how much to shrink each side so that a picture that takes `seconds` is done within a frame; on the CPU
// at least by half, which leaves it to the rest of the frame.
int shrink_for(double seconds, bool on_cpu) {
    int shrink = on_cpu ? 2 : 1;
    while (shrink < 8 && seconds / (shrink * shrink) > 0.010) shrink *= 2;
    return shrink;
}

}  // namespace

measure::Expected<void> StripTexture::draw(const strip::Scene& scene, const Size& size) {
    return draw_any(scene, size);
}

measure::Expected<void> StripTexture::draw(const strip::YarnScene& scene, const Size& size) {
    return draw_any(scene, {size.width, size.height, size.distance, false});
}

template <class AnyScene>
measure::Expected<void> StripTexture::draw_any(const AnyScene& scene, const Size& size) {
    measure::Expected<void> told;
    // Software GL takes as long for the shader's start alone as the CPU for a hundred strips.
    const bool on_cpu = std::is_same_v<AnyScene, strip::Scene> && drawn_by_software();
    if (!on_cpu && !renderer_ && !no_renderer_) {
        if (auto made = StripRenderer::make())
            renderer_ = std::move(*made);
        else {
            no_renderer_ = true;
            told = tl::make_unexpected(made.error());
        }
    }
    const int times = 1 << size.distance;
    const int shrink = size.hurried ? shrink_for(seconds_full_, on_cpu) : 1;
    const int width = std::max(1, size.width * times / shrink),
              height = std::max(1, size.height * times / shrink);
    const auto start = std::chrono::steady_clock::now();
    from_renderer_ = !on_cpu && renderer_ && renderer_->upload(scene) && renderer_->draw(width, height);
    if (!from_renderer_)
        texture_.keep(strip::seen_from_afar(strip::draw(scene, width, height), times));
    else if (times > 1)
        texture_.keep(strip::seen_from_afar(renderer_->image(), times));
    from_renderer_ = from_renderer_ && times == 1;
    glFinish();
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    seconds_full_ = took.count() * shrink * shrink;
    return told;
}

ImTextureID StripTexture::id() const {
    return from_renderer_ ? Texture::id_of(renderer_->texture()) : texture_.id();
}

}  // namespace battwright::window
