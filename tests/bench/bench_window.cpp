// What the window costs on this machine's OpenGL, over a frame at 60 Hz. Needs a display (Xvfb will do).
#include <epoxy/gl.h>

#include <GLFW/glfw3.h>
#include <benchmark/benchmark.h>

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <string>

#include "forecast/forecast.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "window/gl/strip_gl.hpp"

namespace {

using namespace battwright;

constexpr double frame_seconds = 1.0 / 60.0;

void strip_on_gpu(benchmark::State& state, const std::string& path) {
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto recipe = recipe::read_file(path, catalogue);
    forecast::Bench bench;
    bench.catalogue = &catalogue;
    if (!recipe) return state.SkipWithError(recipe.error().what.c_str());
    const auto forecast = forecast::forecast(*recipe, bench);
    auto renderer = window::StripRenderer::make();
    if (!renderer) return state.SkipWithError(renderer.error().what.c_str());
    if (auto sent = renderer->upload(strip::scene_of(*forecast, 3)); !sent)
        return state.SkipWithError(sent.error().what.c_str());
    const auto start = std::chrono::steady_clock::now();
    for (auto _ : state) {
        (void)renderer->draw(strip::usual_width_px, strip::usual_height_px);
        glFinish();
    }
    const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - start;
    state.counters["of_frame"] = elapsed.count() / static_cast<double>(state.iterations()) / frame_seconds;
}

}  // namespace

// Usage: bench_window FOLDER-OF-RECIPES [benchmark options]
int main(int argc, char** argv) {
    if (argc < 2 || glfwInit() == 0) {
        std::fputs("usage: bench_window FOLDER-OF-RECIPES, with a display\n", stderr);
        return 2;
    }
    glfwWindowHint(GLFW_VISIBLE, GLFW_FALSE);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    GLFWwindow* window = glfwCreateWindow(64, 64, "bench", nullptr, nullptr);
    if (window == nullptr) return 2;
    glfwMakeContextCurrent(window);
    for (const auto& entry : std::filesystem::directory_iterator(argv[1]))
        benchmark::RegisterBenchmark(entry.path().stem().c_str(), strip_on_gpu, entry.path().string())
            ->Unit(benchmark::kMillisecond)
            ->UseRealTime();
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    glfwTerminate();
    return 0;
}
