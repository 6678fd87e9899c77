#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STB_IMAGE_WRITE_STATIC
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#endif
#include <stb/stb_image_write.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <cmath>
#include <cstdint>
#include <memory>

#include "card/output.hpp"

namespace battwright::card {
namespace {

std::string big_endian(std::uint32_t value) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>((value >> shift) & 0xFFU);
    return bytes;
}

// ISO 3309 check sum of a PNG chunk (PNG specification, section on CRCs).
std::uint32_t check_sum(const std::string& bytes) {
    std::uint32_t sum = 0xFFFFFFFFU;
    for (const char byte : bytes) {
        sum ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit) sum = (sum >> 1) ^ ((sum & 1U) != 0 ? 0xEDB88320U : 0U);
    }
    return ~sum;
}

// Physical pixel size: dots per metre both ways, unit 1 = the metre.
std::string size_chunk(double dpi) {
    const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / 0.0254));
    const std::string body = "pHYs" + big_endian(per_metre) + big_endian(per_metre) + '\1';
    return big_endian(9) + body + big_endian(check_sum(body));
}

strip::Image image_of(cairo_surface_t* surface, int width, int height) {
    strip::Image image;
    image.width = width;
    image.height = height;
    image.rgb.resize(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const unsigned char* rows = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    std::uint8_t* to = image.rgb.data();
    for (int y = 0; y < height; ++y) {
        const auto* row =
            reinterpret_cast<const std::uint32_t*>(rows + static_cast<std::ptrdiff_t>(y) * stride);
        for (int x = 0; x < width; ++x) {
            *to++ = static_cast<std::uint8_t>(row[x] >> 16);
            *to++ = static_cast<std::uint8_t>(row[x] >> 8);
            *to++ = static_cast<std::uint8_t>(row[x]);
        }
    }
    return image;
}

}  // namespace

strip::Image raster(const Laid& laid, std::size_t side, double dpi) {
    if (side >= laid.sides.size()) return {};
    const double scale = dpi / 72.0;
    const int width = static_cast<int>(std::lround(laid.width_pt * scale));
    const int height = static_cast<int>(std::lround(laid.height_pt * scale));
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height), cairo_surface_destroy);
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return {};
    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> cr(cairo_create(surface.get()), cairo_destroy);
    cairo_set_source_rgb(cr.get(), 1.0, 1.0, 1.0);
    cairo_paint(cr.get());
    cairo_scale(cr.get(), scale, scale);
    for (const Placed& placed : laid.sides[side].placed) {
        cairo_save(cr.get());
        cairo_translate(cr.get(), placed.x, placed.y);
        placed.ink(cr.get());
        cairo_restore(cr.get());
    }
    cairo_surface_flush(surface.get());
    return image_of(surface.get(), width, height);
}

std::string png_of(const strip::Image& image, double dpi) {
    if (image.rgb.empty()) return {};
    std::string bytes;
    const auto append = [](void* to, void* data, int size) {
        static_cast<std::string*>(to)->append(static_cast<const char*>(data), static_cast<std::size_t>(size));
    };
    if (stbi_write_png_to_func(append, &bytes, image.width, image.height, 3, image.rgb.data(),
                               3 * image.width) == 0)
        return {};
    // The library does not write the resolution: it goes in after the header chunk, 8 + 25 bytes from the
    // start.
    constexpr std::size_t after_header = 33;
    bytes.insert(after_header, size_chunk(dpi));
    return bytes;
}

}  // namespace battwright::card
