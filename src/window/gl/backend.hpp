// The one file that knows the window system: a GLFW window with OpenGL 3.3 and Dear ImGui in it.
#pragma once

#include <imgui.h>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "measure/complaint.hpp"
#include "window/gl/copy_piece.hpp"
#include "window/gl/kept_frame.hpp"
#include "window/gl/tiles.hpp"
#include "window/kit/probe.hpp"
#include "window/kit/theme.hpp"

struct GLFWwindow;

namespace battwright::window {

class Backend {
  public:
    struct Options {
        int width = 0, height = 0;  // 0: most of the monitor
        bool fast = false;          // nobody looks: do not wait for the monitor, nor paint every frame
        Arrivals arrivals{};
    };
    static measure::Expected<std::unique_ptr<Backend>> open(const Options& wanted);
    ~Backend();
    Backend(const Backend&) = delete;
    Backend& operator=(const Backend&) = delete;

    // Takes waiting events without waiting. True when there was one.
    bool poll();
    // Sleeps until an event, at most `seconds` when given. True when there was one.
    bool wait(std::optional<double> seconds);
    // Whether since the last wait began the pointer moved and nothing else happened.
    bool only_pointer() const;
    // More has arrived than the last frame could be told.
    bool input_waits() const;
    // Wakes a wait; from any thread.
    static void wake();
    bool take_close_request();
    std::vector<std::filesystem::path> take_dropped();
    // The monitor's pixels per design pixel.
    float content_scale() const;
    void set_title(const std::string& title);
    void resize(int width, int height);
    ImVec2 size() const;

    void begin_frame(const Input& input);
    // Draws what of ImGui's frame is not shown already, on `ground`; with a path, saves the frame there
    // before it is shown.
    measure::Expected<void> end_frame(const colour::Srgb& ground, const std::string& picture_path);
    // How many frames differed from the one before.
    long painted() const { return painted_; }
    void renew_fonts();

  private:
    Backend() = default;
    bool take_arrivals();
    void show(const std::vector<PixelRect>& painted);

    GLFWwindow* window_ = nullptr;
    bool fast_ = false;
    int frames_ = 0;  // of a fast one
    long painted_ = 0;
    StaleTiles stale_;
    std::optional<KeptFrame> kept_;
    CopyPiece copy_piece_;
    bool imgui_ = false;
    bool renderer_ = false;
    struct Arrived;  // what the callbacks have noted
    std::unique_ptr<Arrived> arrived_;
    Arrivals arrivals_;
    PixelRect copied_{};  // the whole frame that pieces are copied of
};

}  // namespace battwright::window
