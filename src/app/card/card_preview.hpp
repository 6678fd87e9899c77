// The page as pixels, made beside the window so that no frame waits for it.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/card/card_choice.hpp"
#include "jobs/latest.hpp"

namespace battwright::app {

struct PreviewRequest {
    std::shared_ptr<const forecast::Forecast> forecast;
    unsigned long version = 0;  // of the forecast
    CardChoice choice;
    int width = 0, height = 0;  // pixels a side of the page may take
    bool operator==(const PreviewRequest&) const = default;
};

struct PagePreview {
    unsigned long version = 0;
    std::vector<strip::Image> sides;  // none for a content label
    std::string text;                 // of a content label
    std::vector<std::string> said;    // beside a tag: what was refused of its content, and notes
    int missing_glyphs = 0;           // see card::Laid
    bool code_left_out = false;
};

// The answer to a request, made here and now.
PagePreview preview_of(const PreviewRequest& request);

// A thread that makes it, no OpenGL on it. The last answer stays until there is a newer one.
using CardPreview = jobs::Latest<PreviewRequest, PagePreview>;
void make_preview(const PreviewRequest& request, const CardPreview::Turn& turn);

}  // namespace battwright::app
