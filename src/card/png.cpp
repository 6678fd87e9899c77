#include <cmath>
#include <cstdint>
#include <memory>

#include "card/output.hpp"
#include "strip/png_file.hpp"

namespace battwright::card {
namespace {

// Physical pixel size: dots per metre both ways, unit 1 = the metre.
std::string size_chunk(double dpi) {
    const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / 0.0254));
    return strip::png_chunk("pHYs", strip::png_number(per_metre) + strip::png_number(per_metre) + '\1');
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
    return strip::png_bytes(image, size_chunk(dpi));
}

}  // namespace battwright::card
