// The window's own widgets: drawing, hit-testing and hover text of each in one function.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/spectrum.hpp"
#include "window/kit/ui.hpp"

namespace battwright::staple {
enum class Severity;
}

namespace battwright::window {

ImVec4 vec4(const colour::Srgb& colour, float alpha = 1.0f);
ImU32 u32(const colour::Srgb& colour, float alpha = 1.0f);

// Notes where the last item was drawn under a label for tests and scripts.
void mark(const Ui& ui, const std::string& label);
// The same of words, which Tab passes by.
void mark_words(const Ui& ui, const std::string& label);

void text(const Ui& ui, std::string_view words);
void text_in(const Ui& ui, ImFont* font, const colour::Srgb& colour, std::string_view words);
// Wrapped to `width` design-independent pixels (0: what the panel leaves).
void paragraph(const Ui& ui, std::string_view words, const colour::Srgb& colour, float width = 0.0f);
// One line, cut with an ellipsis when it is wider than `width` pixels; the whole shows on hover.
void text_within(const Ui& ui, ImFont* font, const colour::Srgb& colour, std::string_view words, float width);
// `words` cut to `width` pixels in the current font.
std::string cut_to(std::string_view words, float width);

// accent: the thing to do; on: what is chosen of several.
enum class Tone { plain, accent, quiet, on };
// A button at least 32 design pixels high; `label` is also its name for tests.
bool button(const Ui& ui, const std::string& label, Tone tone = Tone::plain, float width = 0.0f,
            std::string_view hover = {});
// One of several choices side by side; the index of the one pressed.
std::optional<std::size_t> choices(const Ui& ui, const std::string& name,
                                   const std::vector<std::string>& labels, std::size_t chosen,
                                   float width = 0.0f);
// A minus, a number, a plus; the new number when changed.
std::optional<int> stepper(const Ui& ui, const std::string& name, int value, int low, int high);
// A box to tick; the new state when it was pressed.
std::optional<bool> tick(const Ui& ui, const std::string& label, const std::string& words, bool on);
// A field of `width` pixels that folds out a list when pressed: true while it is open; EndCombo() is the
// caller's.
bool folds_out(const Ui& ui, const std::string& name, const std::string& shown, float width);
// A list that folds out; the index of the one chosen. Entries may be any text.
std::optional<std::size_t> drop_down(const Ui& ui, const std::string& name,
                                     const std::vector<std::string>& words, std::size_t chosen, float width);
// A padlock; true when pressed.
bool padlock(const Ui& ui, const std::string& label, bool locked, std::string_view hover);
// Three dots; true when pressed.
bool dots(const Ui& ui, const std::string& label, std::string_view hover);

// A one-line text field showing `shown` until it is typed into; what was typed, once it is done (Enter, Tab
// or a click elsewhere), if it differs. `hint` stands in an empty field.
std::optional<std::string> field(const Ui& ui, const std::string& label, const std::string& shown,
                                 float width, const char* hint = "", bool strong = false);

// What was just typed cannot be taken: its field says so.
void refuse(const Ui& ui, const measure::Complaint& complaint);

// What is wrong with what the last item holds: round it, and in words on a line of its own below.
void trouble(const Ui& ui, const std::string& why);

// A text field of several lines: Enter is done, Ctrl+Enter begins a new line.
std::optional<std::string> text_box(const Ui& ui, const std::string& label, const std::string& shown,
                                    ImVec2 size);

// The same over values: what was chosen, typed, ticked or counted goes into them. True when one was changed.
// `value` of choose() counts the choices from 0: an enum, a bool, an int.
template <class Value>
bool choose(const Ui& ui, const std::string& name, const std::vector<std::string>& labels, Value& value,
            float width = 0.0f) {
    const auto pressed = choices(ui, name, labels, static_cast<std::size_t>(value), width);
    if (pressed) value = static_cast<Value>(*pressed);
    return pressed.has_value();
}
bool edit_text(const Ui& ui, const std::string& label, std::string& text, float width, const char* hint = "");
bool edit_tick(const Ui& ui, const std::string& label, const std::string& words, bool& on);
bool edit_count(const Ui& ui, const std::string& name, int& count, int low, int high);
// Of what may be left out: an empty field forgets it. What `parse` cannot read goes to `complain`, or is
// refused.
template <class T, class Parse, class Complain>
bool edit_optional(const Ui& ui, const std::string& label, std::optional<T>& value, const std::string& shown,
                   float width, const char* hint, const Parse& parse, const Complain& complain) {
    const auto typed = field(ui, label, shown, width, hint);
    if (!typed) return false;
    if (typed->empty()) {
        value.reset();
        return true;
    }
    const auto read = parse(*typed);
    if (read)
        value = *read;
    else
        complain(read.error());
    return read.has_value();
}
template <class T, class Parse>
bool edit_optional(const Ui& ui, const std::string& label, std::optional<T>& value, const std::string& shown,
                   float width, const char* hint, const Parse& parse) {
    return edit_optional(ui, label, value, shown, width, hint, parse,
                         [&ui](const measure::Complaint& trouble) { refuse(ui, trouble); });
}

// Quiet words on the line of a control.
void beside(const Ui& ui, std::string_view words);
// The next thing in the same line, after so many design pixels, when there is room for its width; else below.
void beside_or_below(const Ui& ui, float after, float width);
// A label with room for what stands beside it, `column` design pixels from the left.
void row_label(const Ui& ui, std::string_view words, float column);
// A weight in the user's unit.
std::string mass(const Ui& ui, double grams);
// How wide the words are in pixels.
float width_of(ImFont* font, std::string_view words);
// Words drawn into the window: `at` is their upper left corner, with `align` 0.5 the middle, with 1 the
// right.
void put_text(ImFont* font, const colour::Srgb& colour, ImVec2 at, std::string_view words,
              float align = 0.0f);
// In which a finding is shown.
const colour::Srgb& colour_of(const Theme& theme, staple::Severity severity);

// Hover text on the last item, wrapped.
void hover(const Ui& ui, std::string_view words);
// Hover text that explains a trade term and names its source (see terms.hpp).
void hover_term(const Ui& ui, std::string_view term);

// As ImGui's, but what is in it is there for the keys while it is scrolled out of sight. False: it is.
bool begin_child(const char* id, ImVec2 size, bool border = false, int flags = 0);
// A rounded panel with a title; everything until end_panel() is inside.
bool begin_panel(const Ui& ui, const char* id, std::string_view title, ImVec2 at, ImVec2 size,
                 bool scrolls = false);
void end_panel();
// A card's size: as wanted where the window has room for it, but not below `least`, in design pixels.
ImVec2 card_size(const Ui& ui, ImVec2 wanted, ImVec2 least);
// A card over everything, centred, no wider than the window; false when it is not open.
bool begin_card(const Ui& ui, const char* id, std::string_view title, ImVec2 size);
// What a panel over the bench goes by: the id of its popup, and what stands above it.
struct PanelHead {
    const char* id = "";
    const char* title = "";
};
inline bool begin_card(const Ui& ui, const PanelHead& head, ImVec2 size) {
    return begin_card(ui, head.id, head.title, size);
}
void end_card();
// Whether what is to be drawn has so much room across, in design pixels.
bool has_room(const Ui& ui, float design_pixels);
// Columns of a card: side by side, each scrolling by itself, or stacked one below the other, each as high as
// what is in it, where there is no room for that. `between` in pixels.
void begin_column(const char* id, ImVec2 size, bool stacked, int flags = 0);
void next_column(const Ui& ui, float between, bool stacked);
void end_column(bool stacked);
// The button that leaves a card; it or `escape` shuts the card.
bool leave_button(const Ui& ui, const std::string& label, bool escape, Tone tone = Tone::plain,
                  float width = 0.0f);
// The key went down in this frame; Escape, and not to end typing.
bool key_pressed(ImGuiKey key, bool repeat = false);
bool escape_pressed(const Ui& ui);
// True when Escape is meant for the card itself: not for a popup on it, nor for a field being typed into.
// Once a frame, at the card's foot.
bool escape_leaves(const Ui& ui);
void gap(const Ui& ui, float design_pixels);
void rule(const Ui& ui);

// "19.5 \u00b5m", to a tenth.
std::string print_diameter(double micrometres);
// "40 min", from an hour and a half on "1.5 h", to the half hour.
std::string print_minutes(double minutes);

// A lock of fibre in the palette's colours within the rectangle. `twist` makes each its own.
void draw_wisp(ImDrawList& list, ImVec2 low, ImVec2 high, const std::vector<colour::Srgb>& colours,
               const std::vector<double>& shares, unsigned twist, const colour::Srgb& edge);

}  // namespace battwright::window
