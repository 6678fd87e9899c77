#include <cairo-pdf.h>

#include <memory>
#include <utility>

#include "card/output.hpp"
#include "measure/replace.hpp"

namespace battwright::card {
namespace {

cairo_status_t append(void* to, const unsigned char* data, unsigned int size) {
    const Pdf::Sink& sink = *static_cast<Pdf::Sink*>(to);
    return sink({reinterpret_cast<const char*>(data), size}) ? CAIRO_STATUS_SUCCESS
                                                             : CAIRO_STATUS_WRITE_ERROR;
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

Pdf::Pdf(const std::string& title, Sink sink)
    : sink_(std::make_unique<Sink>(std::move(sink))),
      surface_(cairo_pdf_surface_create_for_stream(append, sink_.get(), 1.0, 1.0)) {
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATOR,
                                   std::string(measure::maker_mark).c_str());
}

void Pdf::add(const Laid& laid) {
    empty_ = empty_ && laid.sides.empty();
    draw(surface_.get(), laid);
}

bool Pdf::finish() {
    cairo_surface_finish(surface_.get());
    return !empty_ && cairo_surface_status(surface_.get()) == CAIRO_STATUS_SUCCESS;
}

std::string pdf_of(std::span<const Laid> laid, const std::string& title) {
    std::string bytes;
    Pdf pdf(title, [&bytes](std::string_view more) {
        bytes += more;
        return true;
    });
    for (const Laid& one : laid) pdf.add(one);
    return pdf.finish() ? bytes : std::string();
}

}  // namespace battwright::card
