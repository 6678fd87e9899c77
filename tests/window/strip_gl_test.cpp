#include "window/gl/strip_gl.hpp"

#include <doctest/doctest.h>

#include <array>
#include <chrono>
#include <string>

#include "../strip/batts.hpp"
#include "gl_context.hpp"

using namespace battwright;
using gl_context::Context;
using gl_context::share_alike;

TEST_CASE("the strip: the GPU's picture is the CPU's") {
    const Context context;
    auto renderer = window::StripRenderer::make();
    REQUIRE_MESSAGE(renderer.has_value(), measure::to_line(renderer.error()));
    for (const batts::Batt& batt : batts::all()) {
        const batts::Carded carded(batt);
        for (const int passes : {1, 2, 3}) {
            CAPTURE(batt.name);
            CAPTURE(passes);
            const strip::Scene scene = strip::scene_of(carded.forecast, passes);
            REQUIRE(renderer->upload(scene).has_value());
            REQUIRE(renderer->draw(640, 96).has_value());
            const strip::Image on_gpu = renderer->image(), on_cpu = strip::draw(scene, 640, 96);
            REQUIRE(on_gpu.rgb.size() == on_cpu.rgb.size());
            CHECK(share_alike(on_gpu, on_cpu, 2) >= 0.999);
        }
    }
    CHECK(glGetError() == GL_NO_ERROR);
}

TEST_CASE("the strip: drawing leaves the states it changes as they were") {
    const Context context;
    auto renderer = window::StripRenderer::make();
    REQUIRE(renderer.has_value());
    const batts::Carded carded(batts::all().front());
    glEnable(GL_SCISSOR_TEST);
    glViewport(3, 4, 50, 40);
    REQUIRE(renderer->upload(strip::scene_of(carded.forecast, 3)).has_value());
    REQUIRE(renderer->draw(200, 60).has_value());
    std::array<GLint, 4> viewport{};
    glGetIntegerv(GL_VIEWPORT, viewport.data());
    CHECK(viewport == std::array<GLint, 4>{3, 4, 50, 40});
    CHECK(glIsEnabled(GL_SCISSOR_TEST) == GL_TRUE);
    GLint frame = -1;
    glGetIntegerv(GL_FRAMEBUFFER_BINDING, &frame);
    CHECK(frame == 0);
    // The scissor did not cut the picture: its last pixel is drawn.
    CHECK(share_alike(renderer->image(), strip::draw(strip::scene_of(carded.forecast, 3), 200, 60), 2) >=
          0.999);
}

TEST_CASE("the strip: sizes and scenes that cannot be drawn get a complaint") {
    const Context context;
    auto renderer = window::StripRenderer::make();
    REQUIRE(renderer.has_value());
    CHECK_FALSE(renderer->draw(100, 100).has_value());
    CHECK_FALSE(renderer->upload(strip::Scene{}).has_value());
    const batts::Carded carded(batts::all().front());
    REQUIRE(renderer->upload(strip::scene_of(carded.forecast, 3)).has_value());
    CHECK_FALSE(renderer->draw(0, 100).has_value());
    CHECK_FALSE(renderer->draw(1 << 20, 100).has_value());
    CHECK(renderer->image().rgb.empty());
    CHECK(renderer->draw(31, 17).has_value());
    CHECK(renderer->image().rgb.size() == 3u * 31u * 17u);
}

TEST_CASE("the strip: how long drawing takes (a message, not a check)") {
    const Context context;
    auto renderer = window::StripRenderer::make();
    REQUIRE(renderer.has_value());
    const batts::Carded carded(batts::all().front());
    REQUIRE(renderer->upload(strip::scene_of(carded.forecast, 3)).has_value());
    double best_ms = 1e9;
    for (int i = 0; i < 12; ++i) {
        const auto start = std::chrono::steady_clock::now();
        REQUIRE(renderer->draw(strip::usual_width_px, strip::usual_height_px).has_value());
        glFinish();
        const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
        best_ms = std::min(best_ms, took.count());
    }
    MESSAGE("1920 x 160 on " << std::string(reinterpret_cast<const char*>(glGetString(GL_RENDERER))) << ": "
                             << best_ms << " ms");
    CHECK(best_ms < 1000.0);
}
