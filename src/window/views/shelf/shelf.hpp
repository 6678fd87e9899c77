// The shelf in the left panel: a wall of wisps, what of it is shown, a lot's card, a lot put on the shelf.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/bench/outcome.hpp"
#include "app/shelf/palette_reader.hpp"
#include "window/gl/photo.hpp"
#include "window/kit/photo_marks.hpp"
#include "window/kit/ui.hpp"
#include "window/views/photo/picks.hpp"

namespace battwright::window {

// What is being edited of a lot's words, on its card or before it is on the shelf.
struct LotFieldsState {
    std::size_t tint = 0;
    std::string search;
    bool open_kinds = false;
    std::optional<std::size_t> replaced;  // the kind that the chosen one takes the place of; else one more
};

// A photo a lot's palette is read from.
struct LotPhotoState {
    Photo photo;
    std::string path;
    PhotoMarking marking;
    std::vector<recipe::Tint> palette;  // as read
    bool reading = false;               // it is being read
    std::optional<measure::Complaint> complaint;
    std::size_t tint = 0;
};

// What is being written down about a lot.
enum class LotAction { weigh, waste, give, buy, scour, correct };
struct MovementDraft {
    LotAction action = LotAction::weigh;
    std::int64_t movement = 0;  // to correct
    bool out = false;           // that movement took fibre away
    std::string weight, note, cost;
    std::string weight_was;  // of the movement to correct
};
// What is typed in it, as one text; "" when nothing is.
std::string draft_typed(const MovementDraft& draft);

struct ShelfState {
    bool open = false;               // the left panel shows the shelf, not the batt
    std::string dragged;             // mark of the lot the pointer carries
    ImVec2 batt_low{}, batt_high{};  // where the button "This batt" is
    PicksState picks;                // a colour to look for

    std::string card;  // mark of the lot whose card is open
    bool open_card = false;
    std::string bench_weight;
    MovementDraft draft;
    std::optional<measure::Complaint> complaint;
    LotFieldsState fields;
    std::string search_kind;  // of the filter's catalogue
    bool open_filter_kinds = false;

    bool open_new = false;
    bool adding = false;  // the card of a new lot is open
    stash::Lot fresh;
    std::string fresh_weight;
    std::string let_go_asked;  // what was typed when leaving a card was last asked for
    LotPhotoState photo;
};

// The two buttons at the head of the left panel.
void view_left_head(const Ui& ui, ShelfState& state);
void view_shelf(const Ui& ui, const Outcome& outcome, ShelfState& state, ImVec2 at, ImVec2 size);
// The search field, what else is asked for, and the popups that ask for it.
void view_shelf_choice(const Ui& ui, const Outcome& outcome, ShelfState& state);
// A lot under the pointer, and the places that take it; asks for it on the bench when it is let go there.
void view_carried_lot(const Ui& ui, ShelfState& state, ImVec2 drum, ImVec2 drum_size);
// The cards over everything.
void view_lot(const Ui& ui, ShelfState& state);
void view_new_lot(const Ui& ui, ShelfState& state);

// Pieces of the cards. The lot as changed, if it was.
std::optional<stash::Lot> view_lot_fields(const Ui& ui, const stash::Lot& lot, LotFieldsState& state,
                                          std::optional<measure::Complaint>& complaint);
// Stacked: what stands above it scrolls with it.
void view_lot_actions(const Ui& ui, const stash::Shelved& shelved, ShelfState& state, bool stacked);
// A card for the photo; the palette, when it is to be kept.
std::optional<std::vector<recipe::Tint>> view_lot_photo(const Ui& ui, LotPhotoState& state);
// A photo for the lot being added, whose palette is then to be read; or the complaint is shown.
void take_lot_photo(LotPhotoState& state, measure::Expected<Photo> photo, const std::filesystem::path& path);
// What was read off it; of another photo than is on show, nothing. `more`: it is being read once more.
void take_lot_palette(LotPhotoState& state, const PaletteRead& read, bool more);
// A lot's colours as drawn: its palette, else its kinds' natural colours.
void draw_lot(const Ui& ui, ImDrawList& list, ImVec2 low, ImVec2 high, const stash::Lot& lot,
              const colour::Srgb& edge);
// One line in the colour of trouble; a blank one when there is none.
void complaint_line(const Ui& ui, const std::optional<measure::Complaint>& complaint);

// What a lot on the bench is, beside a component's name: its mark and what is left, a warning when it wants
// more than there is; pressing it opens the lot's card. Ends at `right`.
void view_lot_of_component(const Ui& ui, const Sheet& sheet, std::size_t index, ImVec2 right);
float lot_of_component_width(const Ui& ui, const recipe::Component& component);

}  // namespace battwright::window
