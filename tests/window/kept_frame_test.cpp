// A frame painted in part is the frame painted whole, byte for byte.
#include "window/gl/kept_frame.hpp"

#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>

#include "gl_context.hpp"
#include "window/gl/texture.hpp"
#include "window/gl/tiles.hpp"
#include "workplace.hpp"

using namespace battwright;
using script::Input;
using script::Probe;
using script::Script;
using window::KeptFrame;
using window::PixelRect;
using window::StaleTiles;
namespace fs = std::filesystem;

namespace {

// ImGui with OpenGL behind it and no window in front.
class Drawing {
  public:
    Drawing() {
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        ImGui::GetIO().Fonts->AddFontDefault();
        REQUIRE(ImGui_ImplOpenGL3_Init("#version 330 core"));
    }
    Drawing(const Drawing&) = delete;
    Drawing& operator=(const Drawing&) = delete;
    ~Drawing() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui::DestroyContext();
    }
    template <class Draw>
    ImDrawData& frame(ImVec2 size, const Draw& draw) {
        ImGui::GetIO().DisplaySize = size;
        ImGui_ImplOpenGL3_NewFrame();
        ImGui::NewFrame();
        draw();
        ImGui::Render();
        return *ImGui::GetDrawData();
    }

  private:
    gl_context::Context context_;
};

strip::Image speckled(unsigned seed) {
    std::mt19937 luck(seed);
    strip::Image image;
    image.width = 90;
    image.height = 30;
    for (int i = 0; i < 3 * image.width * image.height; ++i)
        image.rgb.push_back(static_cast<std::uint8_t>(luck() % 256));
    return image;
}

// Shapes, letters and a picture in a window that scrolls, moved a little from frame to frame, some at rest.
class Scene {
  public:
    void step() {
        const auto shake = [this](float& at) {
            if (luck_() % 4 == 0) at += std::uniform_real_distribution<float>(-20.0f, 20.0f)(luck_);
        };
        for (ImVec2& place : places_) {
            shake(place.x);
            shake(place.y);
        }
        if (luck_() % 6 == 0) picture_.keep(speckled(static_cast<unsigned>(luck_())));
        if (luck_() % 5 == 0) ++count_;
        if (luck_() % 40 == 0) ground_ = {0.1, 0.01 * static_cast<double>(luck_() % 90), 0.3};
        scroll_ = static_cast<float>(luck_() % 60);
    }
    void draw() {
        ImDrawList& behind = *ImGui::GetBackgroundDrawList();
        behind.AddRectFilledMultiColor(places_[0], {places_[0].x + 300.3f, places_[0].y + 140.7f},
                                       IM_COL32(200, 20, 20, 255), IM_COL32(0, 200, 20, 99),
                                       IM_COL32(0, 0, 250, 255), IM_COL32(9, 9, 9, 20));
        behind.AddCircleFilled(places_[1], 61.5f, IM_COL32(240, 220, 90, 128), 40 + count_ % 3);
        behind.AddLine(places_[1], places_[2], IM_COL32(30, 240, 230, 200), 2.5f);
        ImGui::SetNextWindowPos(places_[3]);
        ImGui::SetNextWindowSize({250.4f, 180.6f});
        ImGui::Begin("tide table", nullptr, ImGuiWindowFlags_NoSavedSettings);
        ImGui::SetScrollY(scroll_);
        ImGui::Text("boats in: %d", count_);
        ImGui::Image(picture_.id(), picture_.size());
        for (int i = 0; i < 20; ++i) ImGui::BulletText("quay %d", i);
        ImGui::End();
    }
    const colour::Srgb& ground() const { return ground_; }

  private:
    std::mt19937 luck_{2026};
    ImVec2 places_[4] = {{40.5f, 30.25f}, {330.0f, 220.0f}, {500.0f, 90.0f}, {280.7f, 130.2f}};
    window::Texture picture_{speckled(1)};
    colour::Srgb ground_{0.9, 0.9, 0.8};
    int count_ = 0;
    float scroll_ = 0.0f;
};

long pixels_in(const std::vector<PixelRect>& rects) {
    long pixels = 0;
    for (const PixelRect& r : rects) pixels += long{r.right - r.left} * (r.bottom - r.top);
    return pixels;
}

std::string picture_bytes(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

// Saves the window once it is carded to an end and nothing moves any more.
void save_window(Script& script, const fs::path& path, bool anew) {
    script.then([](const Probe&) {});
    script.step([path, anew](const Probe&, Input& input, int phase) {
        if (phase < 8) return false;
        if (phase == 8) input.picture = path.string();
        input.repaint = anew;
        return fs::exists(path) || (phase > 2000 && (input.quit = true)) || Script::wait(input);
    });
}

// The window as it was painted bit by bit, then painted anew: the same picture.
void compare_repainted(Script& script, const fs::path& folder) {
    const fs::path in_part = folder / "part.png", anew = folder / "anew.png";
    save_window(script, in_part, false);
    save_window(script, anew, true);
    script.then([in_part, anew](const Probe&) {
        CHECK(fs::file_size(in_part) > 10000);
        CHECK(picture_bytes(in_part) == picture_bytes(anew));
        fs::remove(in_part);
        fs::remove(anew);
    });
}

}  // namespace

TEST_CASE("frames painted in part are those painted whole") {
    Drawing drawing;
    Scene scene;
    StaleTiles stale;
    KeptFrame in_part, whole;
    long least = 0, all = 0;
    for (int i = 0; i < 200; ++i) {
        CAPTURE(i);
        scene.step();
        // Somebody makes the window larger.
        const ImVec2 size = i < 150 ? ImVec2{640.0f, 480.0f} : ImVec2{701.0f, 533.0f};
        ImDrawData& frame = drawing.frame(size, [&scene] { scene.draw(); });
        stale.see(window::tile_prints(frame, scene.ground()));
        if (i % 7 == 3) continue;  // seen, and not painted
        const auto rects = stale.take();
        in_part.paint(frame, scene.ground(), rects);
        whole.paint(frame, scene.ground(), {window::pixels_of(frame)});
        REQUIRE(in_part.image().rgb == whole.image().rgb);
        least += pixels_in(rects);
        all += pixels_in({window::pixels_of(frame)});
    }
    CHECK(least < all * 3 / 4);
}

TEST_CASE("what does not change is not painted, what does is, to the tile") {
    Drawing drawing;
    const ImVec2 size{640.0f, 320.0f};
    const auto square = [&](float x) -> ImDrawData& {
        return drawing.frame(size, [x] {
            ImDrawList& list = *ImGui::GetBackgroundDrawList();
            list.AddRectFilled({0.0f, 0.0f}, {640.0f, 320.0f}, IM_COL32(20, 30, 40, 255));
            list.AddRectFilled({x, 70.0f}, {x + 20.0f, 90.0f}, IM_COL32(220, 30, 40, 255));
        });
    };
    const auto see = [](StaleTiles& stale, const ImDrawData& frame, double red = 0.0) {
        return stale.see(window::tile_prints(frame, {red, 0.0, 0.0}));
    };
    StaleTiles stale;
    const PixelRect all{0, 0, 640, 320};
    square(70.0f);  // ImGui's own windows appear
    CHECK(see(stale, square(70.0f)));
    CHECK(stale.take() == std::vector{all});
    CHECK_FALSE(see(stale, square(70.0f)));
    CHECK(stale.take().empty());
    CHECK(see(stale, square(90.0f)));
    CHECK(stale.take() == std::vector{PixelRect{64, 64, 128, 128}});
    CHECK(see(stale, square(130.0f)));
    CHECK(see(stale, square(200.0f)));
    // Both the frame that was not painted and this one.
    CHECK(stale.take() == std::vector{PixelRect{64, 64, 256, 128}});
    CHECK(see(stale, square(200.0f), 0.5));
    CHECK(stale.take() == std::vector{all});
    stale.forget();
    CHECK(see(stale, square(200.0f), 0.5));
    CHECK(stale.take() == std::vector{all});
}

TEST_CASE("the window painted bit by bit is the window painted anew") {
    const workplace::Place place("kept-frame");
    Script script;
    compare_repainted(script, place.path);
    script.drag("border 1", 30.0f, 0.0f);
    compare_repainted(script, place.path);
    script.point("add a fibre");
    compare_repainted(script, place.path);
    script.control(GLFW_KEY_Z);
    compare_repainted(script, place.path);
    script.click("batt name").type("low water").enter();
    compare_repainted(script, place.path);
    script.control(GLFW_KEY_T);
    compare_repainted(script, place.path);
    script.escape();
    compare_repainted(script, place.path);
    workplace::run(place, script, {.recipe = workplace::example("dawn-tide")});
}
