// The one file that knows the window system: a GLFW window with OpenGL 3.3 and Dear ImGui in it.
#pragma once

#include <imgui.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "measure/complaint.hpp"
#include "strip/picture.hpp"
#include "window/kit/probe.hpp"
#include "window/kit/theme.hpp"

struct GLFWwindow;

namespace battwright::window {

class Backend {
  public:
    struct Wanted {
        int width = 0, height = 0;  // 0: most of the monitor
        bool fast = false;          // nobody looks: do not wait for the monitor, nor paint every frame
        Arrivals arrivals{};
    };
    static measure::Expected<std::unique_ptr<Backend>> open(const Wanted& wanted);
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
    // Draws ImGui's frame on `ground`, unless it is the one that is shown already; with a path, saves it
    // there before it is shown.
    measure::Expected<void> end_frame(const colour::Srgb& ground, const std::string& picture_path);
    // How many frames differed from the one before.
    long painted() const { return painted_; }
    void renew_fonts();

  private:
    Backend() = default;
    bool take_arrivals();
    measure::Expected<void> save_picture(const std::string& path) const;

    GLFWwindow* window_ = nullptr;
    bool fast_ = false;
    int frames_ = 0;  // of a fast one
    long painted_ = 0;
    std::uint64_t shown_ = 0;  // fingerprint of the last
    bool imgui_ = false;
    bool renderer_ = false;
    struct Arrived;  // what the callbacks have noted
    std::unique_ptr<Arrived> arrived_;
    Arrivals arrivals_;
};

}  // namespace battwright::window
