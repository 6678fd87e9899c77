#include <cairo-pdf.h>

#include <memory>

#include "card/output.hpp"
#include "measure/replace.hpp"

namespace battwright::card {
namespace {

cairo_status_t append(void* to, const unsigned char* data, unsigned int size) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
    return CAIRO_STATUS_SUCCESS;
}

void draw(cairo_surface_t* surface, const Laid& laid) {
    for (const Side& side : laid.sides) {
        cairo_pdf_surface_set_size(surface, laid.width_pt, laid.height_pt);
        const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> cr(cairo_create(surface), cairo_destroy);
        for (const Placed& placed : side.placed) {
            cairo_save(cr.get());
            cairo_translate(cr.get(), placed.x, placed.y);
            placed.ink(cr.get());
            cairo_restore(cr.get());
        }
        cairo_show_page(cr.get());
    }
}

}  // namespace

std::string pdf_of(std::span<const Laid> laid, const std::string& title) {
    std::string bytes;
    if (laid.empty()) return bytes;
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_pdf_surface_create_for_stream(append, &bytes, laid.front().width_pt, laid.front().height_pt),
        cairo_surface_destroy);
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR,
                                   std::string(measure::maker_mark).c_str());
    for (const Laid& one : laid) draw(surface.get(), one);
    cairo_surface_finish(surface.get());
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return {};
    return bytes;
}

}  // namespace battwright::card
