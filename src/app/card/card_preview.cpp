#include "app/card/card_preview.hpp"

#include <utility>

namespace battwright::app {

bool PreviewRequest::same_as(const PreviewRequest& other) const {
    return version == other.version && choice == other.choice && width == other.width &&
           height == other.height;
}

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

CardPreview::CardPreview(std::function<void()> ready)
    : ready_(std::move(ready)), thread_([this](const std::stop_token& stop) { work(stop); }) {}

CardPreview::~CardPreview() = default;  // the jthread asks to stop, wakes the wait and joins

void CardPreview::ask(PreviewRequest request) {
    {
        const std::lock_guard lock(mutex_);
        request_ = std::move(request);
        state_.busy = true;
    }
    changed_.notify_all();
}

CardPreview::State CardPreview::state() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

void CardPreview::work(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
        std::optional<PreviewRequest> request;
        {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, stop, [this] { return request_.has_value(); })) return;
            request = std::exchange(request_, std::nullopt);
        }
        auto made = std::make_shared<const PagePreview>(preview_of(*request));
        {
            const std::lock_guard lock(mutex_);
            state_.latest = std::move(made);
            if (!request_) state_.busy = false;
        }
        if (ready_) ready_();
    }
}

}  // namespace battwright::app
