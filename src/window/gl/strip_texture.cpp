#include "window/gl/strip_texture.hpp"

#include <epoxy/gl.h>

#include <algorithm>
#include <array>
#include <bit>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <type_traits>
#include <utility>

namespace battwright::window {
namespace {

// By how much to shrink each side so that a picture that takes `seconds` is done within a frame.
int shrink_for(double seconds) {
    int shrink = 1;
    while (shrink < 8 && seconds / (shrink * shrink) > 0.010) shrink *= 2;
    return shrink;
}

}  // namespace

StripTexture::~StripTexture() {
    release();
}

StripTexture::StripTexture(StripTexture&& other) noexcept {
    *this = std::move(other);
}

StripTexture& StripTexture::operator=(StripTexture&& other) noexcept {
    if (this == &other) return *this;
    release();
    renderer_ = std::move(other.renderer_);
    other.renderer_.reset();
    no_renderer_ = other.no_renderer_;
    from_renderer_ = std::exchange(other.from_renderer_, false);
    texture_ = std::exchange(other.texture_, 0u);
    seconds_full_ = other.seconds_full_;
    return *this;
}

void StripTexture::release() {
    if (texture_ != 0) glDeleteTextures(1, &texture_);
    texture_ = 0;
}

void StripTexture::keep(const strip::Image& image) {
    // A name that is not the old one's: by it a changed picture is known.
    unsigned fresh = 0;
    glGenTextures(1, &fresh);
    if (texture_ != 0) glDeleteTextures(1, &texture_);
    texture_ = fresh;
    glBindTexture(GL_TEXTURE_2D, texture_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, image.width, image.height, 0, GL_RGB, GL_UNSIGNED_BYTE,
                 image.rgb.data());
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
}

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
    const int shrink = size.hurried ? shrink_for(seconds_full_) : 1;
    const int width = std::max(1, size.width * times / shrink),
              height = std::max(1, size.height * times / shrink);
    const auto start = std::chrono::steady_clock::now();
    from_renderer_ = !on_cpu && renderer_ && renderer_->upload(scene) && renderer_->draw(width, height);
    if (!from_renderer_)
        keep(strip::seen_from_afar(strip::draw(scene, width, height), times));
    else if (times > 1)
        keep(strip::seen_from_afar(renderer_->image(), times));
    from_renderer_ = from_renderer_ && times == 1;
    glFinish();
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    seconds_full_ = took.count() * shrink * shrink;
    return told;
}

ImTextureID StripTexture::id() const {
    const unsigned name = from_renderer_ ? renderer_->texture() : texture_;
    return std::bit_cast<ImTextureID>(static_cast<std::uintptr_t>(name));
}

}  // namespace battwright::window
