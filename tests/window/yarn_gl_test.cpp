// The yarn picture on the GPU against the CPU's.
#include <doctest/doctest.h>

#include <chrono>
#include <string>

#include "../strip/batts.hpp"
#include "../strip/examples.hpp"
#include "gl_context.hpp"
#include "window/gl/strip_gl.hpp"

using namespace battwright;
using gl_context::Context;
using gl_context::share_alike;

namespace {

constexpr strip::YarnView views[] = {strip::YarnView::single, strip::YarnView::plied,
                                     strip::YarnView::swatch};

strip::YarnScene scene_of(const examples::Made& made, strip::YarnView view,
                          const strip::YarnFrame& frame = {}) {
    return strip::yarn_scene(made.forecast, made.batt, made.last(), carding::Pull::torn_lengthwise, view,
                             frame);
}

}  // namespace

TEST_CASE("the yarn: the GPU's picture is the CPU's, within 2/255 for 99.5 % of the pixels") {
    const Context context;
    auto renderer = window::StripRenderer::make();
    REQUIRE_MESSAGE(renderer.has_value(), measure::to_line(renderer.error()));
    for (const auto& path : examples::all()) {
        const auto made = examples::made(examples::recipe_of(path), true);
        for (const auto view : views) {
            for (const double from : {0.0, 0.6}) {
                CAPTURE(path.filename().string());
                CAPTURE(strip::word_for(view));
                CAPTURE(from);
                const strip::YarnScene scene = scene_of(made, view, {from, 1.0});
                const auto sent = renderer->upload(scene);
                REQUIRE_MESSAGE(sent.has_value(), measure::to_line(sent.error()));
                REQUIRE(renderer->draw(640, 96).has_value());
                const strip::Image on_gpu = renderer->image(), on_cpu = strip::draw(scene, 640, 96);
                REQUIRE(on_gpu.rgb.size() == on_cpu.rgb.size());
                CHECK(share_alike(on_gpu, on_cpu, 2) >= 0.995);
            }
        }
    }
    CHECK(glGetError() == GL_NO_ERROR);
}

TEST_CASE("the yarn: one renderer goes from fibre to yarn and back") {
    const Context context;
    auto renderer = window::StripRenderer::make();
    REQUIRE(renderer.has_value());
    const auto made = examples::made(examples::recipe_of(examples::folder() / "dawn-tide.toml"), true);
    const batts::Carded carded(batts::all().front());
    const strip::Scene fibre = strip::scene_of(carded.forecast, 3);
    const strip::YarnScene yarn = scene_of(made, strip::YarnView::plied);
    for (int i = 0; i < 2; ++i) {
        REQUIRE(renderer->upload(fibre).has_value());
        REQUIRE(renderer->draw(300, 64).has_value());
        CHECK(share_alike(renderer->image(), strip::draw(fibre, 300, 64), 2) >= 0.995);
        REQUIRE(renderer->upload(yarn).has_value());
        REQUIRE(renderer->draw(300, 64).has_value());
        CHECK(share_alike(renderer->image(), strip::draw(yarn, 300, 64), 2) >= 0.995);
    }
    CHECK_FALSE(renderer->upload(strip::YarnScene{}).has_value());
    CHECK(glGetError() == GL_NO_ERROR);
}

TEST_CASE("the yarn: how long drawing takes (a message; only something far off fails)") {
    const Context context;
    auto renderer = window::StripRenderer::make();
    REQUIRE(renderer.has_value());
    const auto made = examples::made(examples::recipe_of(examples::folder() / "gull-speckle.toml"), true);
    for (const auto view : views) {
        REQUIRE(renderer->upload(scene_of(made, view)).has_value());
        double best_ms = 1e9;
        for (int i = 0; i < 12; ++i) {
            const auto start = std::chrono::steady_clock::now();
            REQUIRE(renderer->draw(strip::usual_width_px, strip::usual_height_px).has_value());
            glFinish();
            const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
            best_ms = std::min(best_ms, took.count());
        }
        MESSAGE("1920 x 160, ", std::string(strip::word_for(view)), ": ", best_ms, " ms");
        CHECK(best_ms < 1000.0);
    }
}
