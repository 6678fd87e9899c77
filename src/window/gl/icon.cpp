#include "window/gl/icon.hpp"

#include <GLFW/glfw3.h>
#include <stb/stb_image.h>

#include <array>
#include <cstddef>

namespace battwright::embedded {
extern const unsigned char icon_32[];
extern const std::size_t icon_32_size;
extern const unsigned char icon_128[];
extern const std::size_t icon_128_size;
}  // namespace battwright::embedded

namespace battwright::window {
namespace {

GLFWimage decoded_icon(const unsigned char* png, std::size_t size) {
    GLFWimage image{};
    int channels = 0;
    image.pixels =
        stbi_load_from_memory(png, static_cast<int>(size), &image.width, &image.height, &channels, 4);
    return image;
}

}  // namespace

void give_icon(GLFWwindow* window) {
    std::array images{decoded_icon(embedded::icon_32, embedded::icon_32_size),
                      decoded_icon(embedded::icon_128, embedded::icon_128_size)};
    if (images[0].pixels != nullptr && images[1].pixels != nullptr)
        glfwSetWindowIcon(window, static_cast<int>(images.size()), images.data());
    glfwGetError(nullptr);  // a display without icons is no error of ours
    for (const GLFWimage& image : images) stbi_image_free(image.pixels);
}

}  // namespace battwright::window
