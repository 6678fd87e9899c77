// The views: one file each, free functions over what is on the bench. They draw, and ask through ui.ask.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "app/bench/carding_worker.hpp"
#include "app/bench/document.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/recovery.hpp"
#include "window/gl/photo.hpp"
#include "window/kit/ui.hpp"
#include "window/views/shelf/shelf.hpp"

namespace battwright::window {

// How things are looked at; none of it is part of the recipe.
struct LookState {
    colour::Light light = colour::Light::d65;
    std::optional<int> passes;  // strip shown after this many; else the recipe's own
    int distance = 0;           // 0 in the hand, 1 at arm's length, 2 across the room
    StripView view = StripView::edge;
    carding::Pull pull = carding::Pull::torn_lengthwise;  // yarn: how the batt is taken to the wheel,
    double from = 0.0;                                    // 0..1, where along the yarn the picture begins,
    double zoom = 1.0;                                    // and how fine the screen is
    bool steps = false;                  // the drum panel shows what to do instead of the settings
    std::set<std::size_t> pointed;       // components the pointer is on, or on a finding about
    std::set<std::size_t> pointed_next;  // collected for the next frame
};

// Top bar: the batt's name, the file, what to do with it.
void view_top(const Ui& ui, const Document& document, ImVec2 at, ImVec2 size);

// What goes in.
struct InState {
    std::optional<std::uint64_t> dragged;  // component being reordered
    std::optional<std::size_t> border;     // border of the composition bar being dragged
    float border_from = 0.0f;
    Sheet border_start;
    std::string hex_complaint;
    std::size_t tint = 0;  // which tint of the palette is being edited
    Photo photo;
    std::string search;
    bool open_search = false;
};
void view_in(const Ui& ui, const Sheet& sheet, const Outcome& outcome, LookState& look, InState& state,
             ShelfState& shelf, ImVec2 at, ImVec2 size);
// Pieces of it.
void view_bar(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, LookState& look,
              InState& state, float width);
void view_component(const Ui& ui, const Sheet& sheet, std::size_t index, const Outcome& outcome,
                    LookState& look, InState& state);
void view_details(const Ui& ui, const Sheet& sheet, std::size_t index);
void view_colour(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state);
// A card with a photo; the colour that was pressed on it.
std::optional<colour::Srgb> view_photo(const Ui& ui, Photo& photo);
// The catalogue as a card, searched by typing; the kind chosen. `open` opens it, once.
const fibre::Kind* choose_kind(const Ui& ui, const char* id, std::string_view title, std::string& search,
                               bool& open);
// The same for the bench; asks for the added component.
void view_catalogue(const Ui& ui, const Sheet& sheet, InState& state);

// The carded batt as far as the worker has got. `carded` may be of an older sheet, or null.
struct CardedShown {
    std::shared_ptr<const Carded> carded;
    bool settled = true;  // false: a better or a newer one is being made
};

// What the drum will look like.
void view_drum(const Ui& ui, const Sheet& sheet, const Outcome& outcome, const CardedShown& shown,
               LookState& look, ImVec2 at, ImVec2 size);
// Pieces of it.
void view_cross_section(const Ui& ui, const forecast::Forecast& forecast, const Carded* carded,
                        LookState& look, float side);
void view_machine(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast);
void view_steps(const Ui& ui, const forecast::Forecast& forecast, LookState& look);
// The drum with nothing on it.
void draw_core(const Ui& ui, ImDrawList& list, ImVec2 middle, float radius);

// What comes out.
struct YarnState;
void view_out(const Ui& ui, const Sheet& sheet, const Outcome& outcome, LookState& look, YarnState& yarn,
              ImVec2 at, ImVec2 size);
void view_numbers(const Ui& ui, const forecast::Forecast& forecast, float width);
void view_staple(const Ui& ui, const forecast::Forecast& forecast, const Diagram& diagram,
                 const LookState& look, ImVec2 size);
void view_findings(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, LookState& look);

// The preview strip; `picture` is a texture of the size strip_size() asks for, or null.
struct StripSize {
    int width = 0, height = 0;
};
// The pass on show: what was chosen, else the recipe's own, as far as the strip can show it.
int pass_shown(const recipe::Recipe& recipe, const LookState& look);
StripSize strip_size(const Ui& ui, ImVec2 panel, const LookState& look);
// What is on show of the yarn: how much, from where, at which scale. Empty for the batt's own views.
std::string strip_caption(const Carded& carded, const StripSize& size, const LookState& look);
void view_strip(const Ui& ui, const Sheet& sheet, const Outcome& outcome, const CardedShown& shown,
                LookState& look, ImTextureID picture, ImVec2 at, ImVec2 size);

// Up to four variants of the batt side by side.
struct Variant {
    std::string name;
    Sheet sheet;
    Outcome outcome;
    ImTextureID picture = nullptr;
};
inline constexpr std::size_t most_variants = 4;
void view_variants(const Ui& ui, const std::vector<Variant>& variants);

// Opening and saving.
struct FilesState {
    bool saving = false;
    std::filesystem::path folder;
    std::string name;
    std::string path_text;
    bool asked_to_replace = false;
    std::string complaint;
};
void view_files(const Ui& ui, FilesState& state, const std::string& suggested);

// Messages, which stay until they are dismissed.
void view_messages(const Ui& ui, std::vector<measure::Complaint>& messages, ImVec2 corner);

// Questions that must be answered: the button pressed, counted from 0.
std::optional<std::size_t> view_question(const Ui& ui, const char* id, std::string_view title,
                                         std::string_view text, const std::vector<std::string>& answers);
void view_preferences(const Ui& ui);
void view_help(const Ui& ui);
// The first-run guide; `step` counts from 0.
void view_guide(const Ui& ui, std::size_t& step);

// The colours a component shows, with their shares: its palette or its kinds' natural colours.
struct Shown {
    std::vector<colour::Srgb> colours;
    std::vector<double> shares;
};
Shown shown_colours(const recipe::Component& component, const fibre::Catalogue& catalogue);
// The user's name for it, else the names of its kinds.
std::string label_of(const recipe::Component& component, const fibre::Catalogue& catalogue);

}  // namespace battwright::window
