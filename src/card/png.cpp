#include <cmath>
#include <cstdint>

#include "card/output.hpp"
#include "card/pixels.hpp"
#include "strip/png_file.hpp"

namespace battwright::card {
namespace {

// Physical pixel size: dots per metre both ways, unit 1 = the metre.
std::string size_chunk(double dpi) {
    const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / 0.0254));
    return strip::png_chunk("pHYs", strip::png_number(per_metre) + strip::png_number(per_metre) + '\1');
}

}  // namespace

strip::Image raster(const Laid& laid, std::size_t side, double dpi) {
    if (side >= laid.sides.size()) return {};
    const double scale = dpi / 72.0;
    const int width = static_cast<int>(std::lround(laid.width_pt * scale));
    const int height = static_cast<int>(std::lround(laid.height_pt * scale));
    Pixels pixels(width, height);
    if (!pixels.ready()) return {};
    cairo_t* cr = pixels.cairo();
    cairo_scale(cr, scale, scale);
    for (const Placed& placed : laid.sides[side].placed) {
        cairo_save(cr);
        cairo_translate(cr, placed.x, placed.y);
        placed.ink(cr);
        cairo_restore(cr);
    }
    return pixels.image();
}

std::string png_of(const strip::Image& image, double dpi) {
    return strip::png_bytes(image, size_chunk(dpi));
}

}  // namespace battwright::card
