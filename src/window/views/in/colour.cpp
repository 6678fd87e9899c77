// A component's palette, from a photo too, or none.
#include <algorithm>

#include "app/bench/edits.hpp"
#include "colour/spaces.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {

namespace {

// Its own card takes the place of this one.
void from_photo(const Ui& ui, std::size_t index) {
    ui.ask.colour_for = index;
    ui.ask.command(Command::photo_colours);
    ImGui::CloseCurrentPopup();
}

}  // namespace

void view_colour(const Ui& ui, const Sheet& sheet, std::size_t index, InState& state) {
    if (!ImGui::BeginPopup("colour")) return;
    const auto& component = sheet.recipe.components[index];
    auto palette = component.palette;
    // Natural colours stand in until the person chooses.
    if (palette.empty()) palette = {{shown_colours(component, ui.catalogue).colours.front(), 100.0}};
    if (const auto edit = view_palette(ui, palette, state.tint))
        ui.ask.edit(set_palette(sheet, index, edit->palette), edit->what, edit->dragging);
    if (button(ui, "From a photo\u2026##from a photo", Tone::plain, ui.px(250.0f))) from_photo(ui, index);
    if (!component.palette.empty() &&
        button(ui, "Leave it undyed", Tone::plain, ui.px(250.0f), "Use the fibre's natural colour"))
        ui.ask.edit(set_palette(sheet, index, {}), "leave it undyed");
    ImGui::EndPopup();
}

}  // namespace battwright::window
