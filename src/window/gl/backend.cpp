#include "window/gl/backend.hpp"

#include <epoxy/gl.h>
// After epoxy, so that GLFW brings no OpenGL header of its own.
#include <GLFW/glfw3.h>
#include <imgui.h>
#include <imgui_impl_glfw.h>
#include <imgui_impl_opengl3.h>
#include <stb/stb_image.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <utility>

#include "window/gl/input_queue.hpp"
#include "window/shell/window.hpp"

namespace battwright::embedded {
extern const unsigned char icon_32[];
extern const std::size_t icon_32_size;
extern const unsigned char icon_128[];
extern const std::size_t icon_128_size;
}  // namespace battwright::embedded

namespace battwright::window {

struct Backend::Arrived {
    bool pointer = false;  // it moved
    bool other = false;    // than that
    bool close = false;
    bool covered = true;  // what is on the screen may not be the last frame
    std::vector<std::filesystem::path> dropped;
    InputQueue input;

    bool since_pointer = false, since_other = false;  // the same since the last wait began

    void tell(const InputEvent& event) {
        (event.kind == InputEvent::Kind::move ? pointer : other) = true;
        input.push(event);
    }
    // Whether anything has come; noted once.
    bool take() {
        since_pointer |= pointer;
        since_other |= other;
        const bool pointer_moved = std::exchange(pointer, false);
        return std::exchange(other, false) || pointer_moved;
    }
};

namespace {

tl::unexpected<measure::Complaint> complain(std::string what, std::string mend) {
    const char* reason = nullptr;
    if (glfwGetError(&reason) != GLFW_NO_ERROR && reason != nullptr) what += " (" + std::string(reason) + ")";
    return tl::make_unexpected(measure::Complaint{std::move(what), std::move(mend)});
}

// Nobody looks at a fast window: of so many frames one is painted, and every one of which a picture is saved.
constexpr int frames_a_picture = 4;
constexpr float script_frame_seconds = 1.0f / 30.0f;

template <class Arrived>
Arrived& arrived(GLFWwindow* window) {
    return *static_cast<Arrived*>(glfwGetWindowUserPointer(window));
}

template <class Arrived>
void listen_to_pointer(GLFWwindow* window) {
    using Kind = InputEvent::Kind;
    glfwSetCursorPosCallback(window, [](GLFWwindow* w, double x, double y) {
        arrived<Arrived>(w).tell({Kind::move, static_cast<float>(x), static_cast<float>(y)});
    });
    glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int entered) {
        double x = 0.0, y = 0.0;
        glfwGetCursorPos(w, &x, &y);
        arrived<Arrived>(w).tell(
            {entered == GLFW_TRUE ? Kind::move : Kind::leave, static_cast<float>(x), static_cast<float>(y)});
    });
    glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int button, int action, int) {
        arrived<Arrived>(w).tell({Kind::button, 0.0f, 0.0f, button, action == GLFW_PRESS});
    });
    glfwSetScrollCallback(window, [](GLFWwindow* w, double x, double y) {
        arrived<Arrived>(w).tell({Kind::wheel, static_cast<float>(x), static_cast<float>(y)});
    });
}

// ImGui's backend has no callbacks of its own here: it would lose a press that is over before the frame.
template <class Arrived>
void listen(GLFWwindow* window) {
    using Kind = InputEvent::Kind;
    listen_to_pointer<Arrived>(window);
    glfwSetKeyCallback(window, [](GLFWwindow* w, int key, int, int action, int) {
        arrived<Arrived>(w).other = true;  // a repeat is told by time
        if (action != GLFW_REPEAT)
            arrived<Arrived>(w).tell({Kind::key, 0.0f, 0.0f, key, action == GLFW_PRESS});
    });
    glfwSetCharCallback(window, [](GLFWwindow* w, unsigned letter) {
        arrived<Arrived>(w).tell({Kind::letter, 0.0f, 0.0f, static_cast<int>(letter)});
    });
    glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int focused) {
        arrived<Arrived>(w).tell({Kind::focus, 0.0f, 0.0f, 0, focused == GLFW_TRUE});
    });
    glfwSetWindowRefreshCallback(
        window, [](GLFWwindow* w) { arrived<Arrived>(w).other = arrived<Arrived>(w).covered = true; });
    glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) {
        arrived<Arrived>(w).other = arrived<Arrived>(w).covered = true;
    });
    glfwSetWindowContentScaleCallback(window,
                                      [](GLFWwindow* w, float, float) { arrived<Arrived>(w).other = true; });
    glfwSetWindowCloseCallback(window, [](GLFWwindow* w) {
        glfwSetWindowShouldClose(w, GLFW_FALSE);
        arrived<Arrived>(w).other = arrived<Arrived>(w).close = true;
    });
    glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
        for (int i = 0; i < count; ++i) arrived<Arrived>(w).dropped.emplace_back(paths[i]);
        arrived<Arrived>(w).other = true;
    });
}

GLFWimage decoded_icon(const unsigned char* png, std::size_t size) {
    GLFWimage image{};
    int channels = 0;
    image.pixels =
        stbi_load_from_memory(png, static_cast<int>(size), &image.width, &image.height, &channels, 4);
    return image;
}

// The program's icon. Where windows have none (Wayland) nothing happens.
void give_icon(GLFWwindow* window) {
    std::array images{decoded_icon(embedded::icon_32, embedded::icon_32_size),
                      decoded_icon(embedded::icon_128, embedded::icon_128_size)};
    if (images[0].pixels != nullptr && images[1].pixels != nullptr)
        glfwSetWindowIcon(window, static_cast<int>(images.size()), images.data());
    glfwGetError(nullptr);  // a display without icons is no error of ours
    for (const GLFWimage& image : images) stbi_image_free(image.pixels);
}

void size_for_monitor(int& width, int& height) {
    if (width > 0 && height > 0) return;
    int x = 0, y = 0, wide = 0, high = 0;
    if (GLFWmonitor* monitor = glfwGetPrimaryMonitor()) glfwGetMonitorWorkarea(monitor, &x, &y, &wide, &high);
    width = std::max(1280, wide * 9 / 10);
    height = std::max(800, high * 9 / 10);
    if (wide > 0) width = std::min(width, wide);
    if (high > 0) height = std::min(height, high);
}

}  // namespace

bool display_available() {
    const auto named = [](const char* variable) {
        const char* value = std::getenv(variable);
        return value != nullptr && *value != '\0';
    };
    return named("DISPLAY") || named("WAYLAND_DISPLAY");
}

measure::Expected<std::unique_ptr<Backend>> Backend::open(const Options& wanted) {
    if (glfwInit() != GLFW_TRUE)
        return complain("no window can be opened here",
                        "set DISPLAY, or use the command line: battwright --help");
    std::unique_ptr<Backend> backend(new Backend());
    backend->arrived_ = std::make_unique<Arrived>();
    backend->arrivals_ = wanted.arrivals;
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
    int width = wanted.width, height = wanted.height;
    size_for_monitor(width, height);
    backend->window_ = glfwCreateWindow(width, height, "Battwright", nullptr, nullptr);
    if (backend->window_ == nullptr)
        return complain("OpenGL 3.3 is not to be had on this display",
                        "install the graphics driver (Debian: libgl1-mesa-dri), or use the command line");
    give_icon(backend->window_);
    glfwMakeContextCurrent(backend->window_);
    glfwSwapInterval(wanted.fast ? 0 : 1);
    backend->fast_ = wanted.fast;
    glfwSetWindowSizeLimits(backend->window_, 960, 600, GLFW_DONT_CARE, GLFW_DONT_CARE);
    glfwSetWindowUserPointer(backend->window_, backend->arrived_.get());
    listen<Arrived>(backend->window_);
    ImGui::CreateContext();
    backend->imgui_ = true;
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    io.ConfigInputTextCursorBlink = false;  // a blinking cursor would keep an idle window drawing
    ImGui_ImplGlfw_InitForOpenGL(backend->window_, false);
    backend->renderer_ = ImGui_ImplOpenGL3_Init("#version 330 core");
    if (!backend->renderer_) return complain("OpenGL could not be set up", "check the graphics driver");
    backend->copy_piece_ = piece_copier();
    backend->kept_.emplace(backend->copy_piece_ ? KeptFrame::Kept::in_window : KeptFrame::Kept::apart);
    return backend;
}

Backend::~Backend() {
    kept_.reset();
    if (renderer_) ImGui_ImplOpenGL3_Shutdown();
    if (imgui_) {
        ImGui_ImplGlfw_Shutdown();
        ImGui::DestroyContext();
    }
    if (window_ != nullptr) glfwDestroyWindow(window_);
    glfwTerminate();
}

bool Backend::take_arrivals() {
    if (arrivals_) {
        for (const InputEvent& event : arrivals_()) arrived_->tell(event);
    }
    return arrived_->take();
}

bool Backend::poll() {
    glfwPollEvents();
    return take_arrivals();
}

bool Backend::wait(std::optional<double> seconds) {
    arrived_->since_pointer = arrived_->since_other = false;
    if (take_arrivals()) return true;
    if (seconds)
        glfwWaitEventsTimeout(std::max(*seconds, 0.001));
    else
        glfwWaitEvents();
    return take_arrivals();
}

bool Backend::input_waits() const {
    return !arrived_->input.empty();
}

bool Backend::only_pointer() const {
    return arrived_->since_pointer && !arrived_->since_other;
}

void Backend::wake() {
    glfwPostEmptyEvent();
}

bool Backend::take_close_request() {
    return std::exchange(arrived_->close, false);
}

std::vector<std::filesystem::path> Backend::take_dropped() {
    return std::exchange(arrived_->dropped, {});
}

float Backend::content_scale() const {
    float x = 1.0f, y = 1.0f;
    glfwGetWindowContentScale(window_, &x, &y);
    return std::clamp(std::max(x, y), 0.5f, 4.0f);
}

void Backend::set_title(const std::string& title) {
    glfwSetWindowTitle(window_, title.c_str());
}

void Backend::resize(int width, int height) {
    glfwSetWindowSize(window_, width, height);
}

ImVec2 Backend::size() const {
    int width = 0, height = 0;
    glfwGetWindowSize(window_, &width, &height);
    return {static_cast<float>(std::max(width, 1)), static_cast<float>(std::max(height, 1))};
}

void Backend::begin_frame(const Input& input) {
    ImGui_ImplOpenGL3_NewFrame();
    if (input.repaint) stale_.forget();
    for (const auto& key : input.keys)
        ImGui_ImplGlfw_KeyCallback(window_, key.key, 0, key.down ? GLFW_PRESS : GLFW_RELEASE, 0);
    ImGuiIO& io = ImGui::GetIO();
    arrived_->input.take(io, {[this](int key, bool down) {
                                  ImGui_ImplGlfw_KeyCallback(window_, key, 0,
                                                             down ? GLFW_PRESS : GLFW_RELEASE, 0);
                              },
                              [&io](unsigned letter) { io.AddInputCharacter(letter); }});
    ImGui_ImplGlfw_NewFrame();
    arrived_->input.show_pointer(io);
    // However fast the frames of a script go, two presses are as far apart as a person's: not a double one.
    if (fast_) io.DeltaTime = script_frame_seconds;
    if (input.moved) {
        io.MousePos = {input.x, input.y};
        io.MouseDown[0] = input.left_down;
        io.MouseDown[1] = input.right_down;
        io.MouseWheel += input.wheel;
    }
    if (!input.text.empty()) io.AddInputCharactersUTF8(input.text.c_str());
    ImGui::NewFrame();
}

measure::Expected<void> Backend::end_frame(const colour::Srgb& ground, const std::string& picture_path) {
    ImGui::Render();
    ImDrawData& frame = *ImGui::GetDrawData();
    if (std::exchange(arrived_->covered, false)) stale_.forget();
    const bool changed = stale_.see(tile_prints(frame, ground));
    if (!changed && picture_path.empty()) return {};  // it is on the screen already
    painted_ += changed ? 1 : 0;
    if (fast_ && picture_path.empty() && frames_++ % frames_a_picture != 0) return {};
    const auto rects = stale_.take();
    kept_->paint(frame, ground, rects);
    measure::Expected<void> saved;
    if (!picture_path.empty()) saved = strip::save_png(kept_->image(), picture_path);
    show(rects);
    return saved;
}

void Backend::show(const std::vector<PixelRect>& painted) {
    if (!copy_piece_) {
        kept_->copy_to_window();
        glfwSwapBuffers(window_);
    } else if (!painted.empty()) {
        // The driver learns of another size at a swap only; until then a copy would reach beyond the window,
        // and the window system ends a program that asks for that.
        const PixelRect whole = pixels_of(*ImGui::GetDrawData());
        PixelRect window{0, 0, 0, 0};
        glfwGetFramebufferSize(window_, &window.right, &window.bottom);
        if (whole != copied_ || window != whole) {
            copied_ = window == whole ? whole : PixelRect{};
            glfwSwapBuffers(window_);
            return stale_.forget();
        }
        PixelRect piece = painted.front();
        for (const PixelRect& rect : painted) piece = around(piece, rect);
        copy_piece_(piece, whole.bottom);
    }
}

void Backend::renew_fonts() {
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
    stale_.forget();
}

}  // namespace battwright::window
