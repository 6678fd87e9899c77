#include <cairo-pdf.h>

#include <algorithm>
#include <deque>
#include <memory>

#include "card/output.hpp"
#include "measure/replace.hpp"

namespace battwright::card {
namespace {

// In pieces, since one string that grows is copied and held twice.
using Pieces = std::deque<std::string>;
constexpr std::size_t piece_bytes = 1u << 20;

cairo_status_t append(void* to, const unsigned char* data, unsigned int size) {
    Pieces& pieces = *static_cast<Pieces*>(to);
    if (pieces.empty() || pieces.back().size() + size > pieces.back().capacity())
        pieces.emplace_back().reserve(std::max<std::size_t>(piece_bytes, size));
    pieces.back().append(reinterpret_cast<const char*>(data), size);
    return CAIRO_STATUS_SUCCESS;
}

std::string joined(Pieces& pieces) {
    std::size_t size = 0;
    for (const std::string& piece : pieces) size += piece.size();
    std::string bytes;
    bytes.reserve(size);
    for (; !pieces.empty(); pieces.pop_front()) bytes += pieces.front();
    return bytes;
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

Pdf::Pdf(const std::string& title)
    : bytes_(std::make_unique<Pieces>()),
      surface_(cairo_pdf_surface_create_for_stream(append, bytes_.get(), 1.0, 1.0)) {
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATOR,
                                   std::string(measure::maker_mark).c_str());
}

void Pdf::add(const Laid& laid) {
    empty_ = empty_ && laid.sides.empty();
    draw(surface_.get(), laid);
}

std::string Pdf::finish() {
    cairo_surface_finish(surface_.get());
    const bool good = !empty_ && cairo_surface_status(surface_.get()) == CAIRO_STATUS_SUCCESS;
    return good ? joined(*bytes_) : std::string();
}

std::string pdf_of(std::span<const Laid> laid, const std::string& title) {
    Pdf pdf(title);
    for (const Laid& one : laid) pdf.add(one);
    return pdf.finish();
}

}  // namespace battwright::card
