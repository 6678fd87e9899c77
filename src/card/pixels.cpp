#include "card/pixels.hpp"

#include <cstddef>
#include <cstdint>

namespace battwright::card {

CairoSurface surface_of(const strip::Image& image) {
    CairoSurface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, image.width, image.height),
                         cairo_surface_destroy);
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return surface;
    unsigned char* rows = cairo_image_surface_get_data(surface.get());
    const int stride = cairo_image_surface_get_stride(surface.get());
    const std::uint8_t* rgb = image.rgb.data();
    for (int y = 0; y < image.height; ++y) {
        auto* row = reinterpret_cast<std::uint32_t*>(rows + static_cast<std::ptrdiff_t>(y) * stride);
        for (int x = 0; x < image.width; ++x, rgb += 3)
            row[x] = (std::uint32_t{rgb[0]} << 16) | (std::uint32_t{rgb[1]} << 8) | rgb[2];
    }
    cairo_surface_mark_dirty(surface.get());
    return surface;
}

Pixels::Pixels(int width, int height)
    : width_(width),
      height_(height),
      surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height), cairo_surface_destroy) {
    if (cairo_surface_status(surface_.get()) != CAIRO_STATUS_SUCCESS) return;
    cairo_.reset(cairo_create(surface_.get()), cairo_destroy);
    cairo_set_source_rgb(cairo_.get(), 1.0, 1.0, 1.0);
    cairo_paint(cairo_.get());
}

void Pixels::put(const strip::Image& image, double x, double y) {
    const CairoSurface surface = surface_of(image);
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return;
    // On whole pixels, so that nothing is smoothed.
    cairo_set_source_surface(cairo_.get(), surface.get(), static_cast<int>(x), static_cast<int>(y));
    cairo_paint(cairo_.get());
}

strip::Image Pixels::image() const {
    cairo_surface_flush(surface_.get());
    strip::Image image;
    image.width = width_;
    image.height = height_;
    image.rgb.resize(3 * static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_));
    const unsigned char* rows = cairo_image_surface_get_data(surface_.get());
    const int stride = cairo_image_surface_get_stride(surface_.get());
    std::uint8_t* to = image.rgb.data();
    for (int y = 0; y < height_; ++y) {
        const auto* row =
            reinterpret_cast<const std::uint32_t*>(rows + static_cast<std::ptrdiff_t>(y) * stride);
        for (int x = 0; x < width_; ++x) {
            *to++ = static_cast<std::uint8_t>(row[x] >> 16);
            *to++ = static_cast<std::uint8_t>(row[x] >> 8);
            *to++ = static_cast<std::uint8_t>(row[x]);
        }
    }
    return image;
}

}  // namespace battwright::card
