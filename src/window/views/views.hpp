// The views: one file each, free functions over what is on the bench. They draw, and ask through ui.ask.
#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::fibre {
struct Kind;
}
namespace battwright::recipe {
struct Component;
}
namespace battwright::forecast {
struct Forecast;
struct StapleDiagram;
}  // namespace battwright::forecast
namespace battwright::app {
struct Carded;
struct CardedShown;
struct Outcome;
}  // namespace battwright::app

namespace battwright::window {

struct ShelfState;

// Components the pointer is on, or on a finding about: lit in every panel.
struct Pointing {
    std::set<std::size_t> now;
    std::set<std::size_t> next;  // collected for the next frame
};

// Top bar: the batt's name, the file, what to do with it.
void view_top(const Ui& ui, ImVec2 at, ImVec2 size);

// What goes in.
struct InState;
void view_in(const Ui& ui, const Sheet& sheet, const Outcome& outcome, Pointing& pointing, InState& state,
             ShelfState& shelf, ImVec2 at, ImVec2 size);
// Pieces of it.
void view_bar(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, Pointing& pointing,
              InState& state, float width);
void view_component(const Ui& ui, const Sheet& sheet, std::size_t index, const Outcome& outcome,
                    Pointing& pointing, InState& state);
void view_details(const Ui& ui, const Sheet& sheet, std::size_t index);
void view_colour(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state);
// The catalogue as a card, searched by typing; the kind chosen. `open` opens it, once.
const fibre::Kind* choose_kind(const Ui& ui, const char* id, std::string_view title, std::string& search,
                               bool& open);
// The same for the bench; asks for the added component.
void view_catalogue(const Ui& ui, const Sheet& sheet, InState& state);

// What the drum will look like.
struct DrumState {
    bool steps = false;  // what to do is shown instead of the settings
};
void view_drum(const Ui& ui, const Sheet& sheet, const Outcome& outcome, const CardedShown& shown,
               Pointing& pointing, DrumState& drum, ImVec2 at, ImVec2 size);
// Pieces of it.
void view_cross_section(const Ui& ui, const forecast::Forecast& forecast, const Carded* carded,
                        Pointing& pointing, float side);
void view_machine(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast);
void view_steps(const Ui& ui, const forecast::Forecast& forecast, Pointing& pointing);
// The drum with nothing on it.
void draw_core(const Ui& ui, ImDrawList& list, ImVec2 middle, float radius);

// What comes out.
struct YarnState;
void view_out(const Ui& ui, const Sheet& sheet, const Outcome& outcome, Pointing& pointing, YarnState& yarn,
              ImVec2 at, ImVec2 size);
void view_numbers(const Ui& ui, const forecast::Forecast& forecast, float width);
void view_staple(const Ui& ui, const forecast::Forecast& forecast, const forecast::StapleDiagram& diagram,
                 const Pointing& pointing, ImVec2 size);
void view_findings(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, Pointing& pointing);

// The preview strip; `picture` is a texture of the size strip_size() asks for, or null.
struct StripSize {
    int width = 0, height = 0;
};
StripSize strip_size(const Ui& ui, ImVec2 panel, const Look& look);
// What is on show of the yarn: how much, from where, at which scale; of what is seen whole, what it is and
// how large. Empty for the batt's edge and face.
std::string strip_caption(const Carded& carded, const StripSize& size, const Look& look,
                          const Settings& settings);
void view_strip(const Ui& ui, const Sheet& sheet, const Outcome& outcome, const CardedShown& shown,
                const Look& now, ImTextureID picture, ImVec2 at, ImVec2 size);

// The colours along all of a yarn, row under row, with the stretch between two shares of it marked.
void draw_yarn_run(const Ui& ui, const std::vector<std::vector<colour::Srgb>>& rows, double from, double to,
                   ImVec2 low, ImVec2 high);

// Up to four variants of the batt side by side.
class VariantPictures;
void view_variants(const Ui& ui, const PanelHead& head, const VariantPictures& pictures);

// Messages, which stay until they are dismissed.
void view_messages(const Ui& ui, ImVec2 corner);

// Questions that must be answered: the button pressed, counted from 0.
std::optional<std::size_t> view_question(const Ui& ui, const char* id, std::string_view title,
                                         std::string_view text, const std::vector<std::string>& answers);
void view_preferences(const Ui& ui, const PanelHead& head);
void view_help(const Ui& ui, const PanelHead& head);
// The first-run guide; `step` counts from 0.
void view_guide(const Ui& ui, const PanelHead& head, std::size_t& step);

// The user's name for it, else the names of its kinds.
std::string label_of(const recipe::Component& component, const fibre::Catalogue& catalogue);

}  // namespace battwright::window
