// What the window costs on this machine's OpenGL, over a frame at 60 Hz. Needs a display (Xvfb will do).
#include <epoxy/gl.h>

#include <GLFW/glfw3.h>
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>

#include "forecast/forecast.hpp"
#include "hand.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "window/gl/strip_gl.hpp"
#include "window/gl/strip_texture.hpp"

namespace {

using namespace battwright;

constexpr double frame_seconds = 1.0 / 60.0;

void time_strip(benchmark::State& state, const std::string& path, const auto& make_draw) {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto recipe = recipe::read_file(path, catalogue);
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    if (!recipe) return state.SkipWithError(recipe.error().what.c_str());
    const auto forecast = forecast::forecast(*recipe, bench);
    auto draw = make_draw();
    const auto scene = strip::scene_of(*forecast, 3);
    draw(scene);  // the first has the shaders compiled
    glFinish();
    const auto start = std::chrono::steady_clock::now();
    for (auto _ : state) {
        draw(scene);
        glFinish();
    }
    const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - start;
    state.counters["of_frame"] = elapsed.count() / static_cast<double>(state.iterations()) / frame_seconds;
}

// As the window draws it when the composition has changed.
void strip_in_window(benchmark::State& state, const std::string& path) {
    time_strip(state, path, [] {
        return [texture = window::StripTexture()](const strip::Scene& scene) mutable {
            (void)texture.draw(scene, {strip::usual_width_px, strip::usual_height_px});
        };
    });
}

// By the shader, whatever works it out.
void strip_by_shader(benchmark::State& state, const std::string& path) {
    auto renderer = window::StripRenderer::make();
    if (!renderer) return state.SkipWithError(renderer.error().what.c_str());
    time_strip(state, path, [&renderer] {
        return [&renderer](const strip::Scene& scene) {
            if (renderer->upload(scene)) (void)renderer->draw(strip::usual_width_px, strip::usual_height_px);
        };
    });
}

int draw_strips(const std::filesystem::path& folder) {
    if (glfwInit() == 0) return 2;
    glfwWindowHint(GLFW_VISIBLE, GLFW_FALSE);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    GLFWwindow* window = glfwCreateWindow(64, 64, "bench", nullptr, nullptr);
    if (window == nullptr) return 2;
    glfwMakeContextCurrent(window);
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string name = entry.path().stem();
        for (auto* row : {benchmark::RegisterBenchmark(name.c_str(), strip_in_window, entry.path().string()),
                          benchmark::RegisterBenchmark(("shader:" + name).c_str(), strip_by_shader,
                                                       entry.path().string())})
            row->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();
    }
    benchmark::RunSpecifiedBenchmarks();
    glfwTerminate();
    return 0;
}

}  // namespace

// Usage: bench_window FOLDER-OF-RECIPES [benchmark options]
//        bench_window --hand still|ground|border RECIPE [MOVES]
// The second opens the window for a few seconds and prints the CPU seconds it takes for each second with a
// hand that does nothing, moves over empty ground, or drags a border, at so many moves a second (60).
int main(int argc, char** argv) {
    if (argc >= 4 && std::string(argv[1]) == "--hand")
        return bench::time_hand(argv[2], argv[3], argc > 4 ? std::max(1.0, std::atof(argv[4])) : 60.0);
    benchmark::Initialize(&argc, argv);
    if (argc != 2) {
        std::fputs("usage: bench_window FOLDER-OF-RECIPES, with a display\n", stderr);
        return 2;
    }
    return draw_strips(argv[1]);
}
