#include "app/card/card_preview.hpp"

namespace battwright::app {

PagePreview preview_of(const PreviewRequest& request) {
    PagePreview made;
    made.version = request.version;
    const card::Page page = page_of(*request.forecast, request.choice);
    if (request.choice.kind == PageKind::label) made.text = card::text_of(page);
    // The label's own page has its notes.
    if (request.choice.kind == PageKind::tag) made.said = said_with(*request.forecast, request.choice);
    const card::Paper paper = request.choice.paper();
    const card::Laid laid = card::lay_out(page, paper);
    const double dpi = dpi_to_fit(paper, request.width, request.height);
    for (std::size_t side = 0; side < laid.sides.size(); ++side)
        made.sides.push_back(card::raster(laid, side, dpi));
    made.missing_glyphs = laid.missing_glyphs;
    made.code_left_out = laid.code_left_out;
    return made;
}

void make_preview(const PreviewRequest& request, const CardPreview::Turn& turn) {
    turn.publish(std::make_shared<const PagePreview>(preview_of(request)), jobs::Late::shown);
}

}  // namespace battwright::app
