// What can be made of these bits, and how to get that colour: the card over the bench that looks for blends.
#pragma once

#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/outcome.hpp"
#include "app/find/find_choice.hpp"
#include "app/find/find_worker.hpp"
#include "window/gl/page_texture.hpp"
#include "window/gl/photo.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

struct FindState {
    bool open = false;
    FindChoice choice;
    // The lots there are, and what they were made of. Null while a long shelf is being priced.
    std::shared_ptr<const shelving::Stock> stock;
    FindFrom stock_from = FindFrom::shelf;
    unsigned long stock_version = 0;
    double stock_scrap = 0.0;
    std::vector<shelving::PricedLot> priced;  // so far
    // Of the stock: the lots on show, for which words, and what a bound may be about.
    std::vector<std::size_t> rows;
    std::string rows_words;
    bool rows_scraps_only = false;
    std::vector<std::string> bound_words;
    // What the worker was asked last, and what it has answered.
    std::unique_ptr<FindWorker> worker;  // made when the card first opens
    std::optional<FindChoice> asked;
    std::shared_ptr<const shelving::Stock> asked_stock;
    unsigned long asked_number = 0;
    std::optional<measure::Complaint> complaint;  // about the choice as it stands
    bool stopped = false;                         // by hand
    FindWorker::State shown;
    std::deque<PageTexture> strips;
    std::shared_ptr<const FoundBlends> strips_of;
    bool far_end = false;  // the colour being picked is the gradient's other end
    Photo photo;
};

// What lies on the bench.
struct FindSubject {
    const Sheet& sheet;
    const Outcome& outcome;
    unsigned long version = 0;  // of the sheet
};

// Before the card opens: new on the bench or on the shelf since, it starts from what there is now.
void prepare_find(FindState& state, const FindSubject& subject, bool shelf_is_empty,
                  std::function<void()> wake);
void view_find(const Ui& ui, FindState& state, const FindSubject& subject);
// True when the thread has something to show that is not on show yet.
bool find_has_news(const FindState& state);
void report_find(const FindState& state, Probe& probe);

// Pieces of it.
void view_find_lots(const Ui& ui, FindState& state);
void view_find_goal(const Ui& ui, FindState& state, const FindSubject& subject);
void view_find_bounds(const Ui& ui, FindState& state);
void view_find_blends(const Ui& ui, FindState& state, const FindSubject& subject);
void view_find_gamut(const Ui& ui, const FindState& state);

// A label with room for what stands beside it.
void find_row(const Ui& ui, std::string_view words);
inline constexpr float find_row_width = 92.0f;  // design pixels
// A rectangle of one colour.
void swatch(const Ui& ui, const colour::Srgb& colour, ImVec2 low, ImVec2 high);

}  // namespace battwright::window
