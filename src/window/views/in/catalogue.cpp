// Adding a fibre by typing what one knows of it.
#include "fibre/catalogue.hpp"
#include "app/bench/disagreement.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/shown_colours.hpp"
#include "app/bench/staple_words.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/in/in.hpp"
#include "window/views/views.hpp"

#include <imgui_stdlib.h>

namespace battwright::window {
namespace {

// Family, staple and thickness with what is published of them; a guess in an ink of its own. On hover, the
// sources.
void figures(const Ui& ui, const fibre::Kind& kind, ImVec2 at) {
    const auto put = [&](const std::string& words, const colour::Srgb& colour) {
        put_text(ui.fonts.small, colour, at, words);
        at.x += width_of(ui.fonts.small, words);
    };
    std::string sources;
    const auto put_figure = [&](const KindFigure& figure, const char* noun) {
        put(" \u00b7 ", ui.theme.quiet);
        put(noun + (" " + figure.words), figure.guess ? ui.theme.warning : ui.theme.quiet);
        sources += (sources.empty() ? "" : "\n") + std::string(noun) + ": " +
                   (figure.source.empty() ? "no source" : figure.source);
    };
    put(std::string(fibre::word_for(kind.family)), ui.theme.quiet);
    put_figure(staple_figure(kind, ui.settings), "lock");
    if (kind.form == fibre::Form::fibre) put_figure(diameter_figure(kind), "thick");
    if (const std::string guesses = other_guesses(kind); !guesses.empty()) sources += "\n" + guesses;
    hover(ui, sources);
}

// True when it was pressed.
bool kind_row(const Ui& ui, const fibre::Kind& kind) {
    const float height = ui.px(44.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const bool pressed =
        ImGui::Selectable("##kind", false, ImGuiSelectableFlags_DontClosePopups, {width, height});
    mark(ui, "kind " + kind.id);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    recipe::Component bare;
    bare.content = {{kind.id, 100.0}};
    const auto shown = shown_colours(bare, ui.catalogue);
    const float side = ui.px(34.0f);
    const ImVec2 chip{at.x + ui.px(4.0f), at.y + ui.px(5.0f)};
    draw_wisp(list, chip, {chip.x + side, chip.y + side}, shown.colours, shown.shares,
              static_cast<unsigned>(kind.id.size()), ui.theme.edge);
    const float left = at.x + ui.px(48.0f);
    put_text(ui.fonts.bold, ui.theme.ink, {left, at.y + ui.px(2.0f)}, kind.name);
    figures(ui, kind, {left, at.y + ui.px(23.0f)});
    return pressed;
}

}  // namespace

const fibre::Kind* choose_kind(const Ui& ui, const char* id, std::string_view title, std::string& search,
                               bool& open) {
    if (open) ImGui::OpenPopup(id);
    if (!begin_card(ui, id, title, card_size(ui, {ui.px(520.0f), ui.px(600.0f)}, {0.0f, 400.0f})))
        return nullptr;
    if (open) ImGui::SetKeyboardFocusHere();
    open = false;
    const fibre::Kind* chosen = nullptr;
    ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x);
    const bool entered =
        ImGui::InputTextWithHint("##search", "a name, a breed, or a word such as silk, hair, fine", &search,
                                 ImGuiInputTextFlags_EnterReturnsTrue);
    mark(ui, "search the catalogue");
    const auto found = ui.catalogue.search(search);
    const float foot = ImGui::GetFrameHeight() + ui.px(24.0f);
    begin_child("found", {0.0f, ImGui::GetContentRegionAvail().y - foot});
    for (const fibre::Kind* kind : found) {
        ImGui::PushID(kind->id.c_str());
        if (kind_row(ui, *kind)) chosen = kind;
        ImGui::PopID();
    }
    if (found.empty())
        paragraph(ui,
                  "Nothing in the catalogue goes by that. Try a shorter word, or \u201cunknown\u201d for a "
                  "bag without a tag.",
                  ui.theme.ink);
    ImGui::EndChild();
    if (entered && !found.empty()) chosen = found.front();
    gap(ui, 2.0f);
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.small, ui.theme.quiet, "Enter takes the first");
    ImGui::SameLine(ImGui::GetContentRegionMax().x - ui.px(110.0f));
    const bool escape = key_pressed(ImGuiKey_Escape);
    const bool leave = button(ui, "Not now##leave catalogue", Tone::plain, ui.px(110.0f)) || escape;
    if (chosen != nullptr) search.clear();
    if (leave || chosen != nullptr) ImGui::CloseCurrentPopup();
    end_card();
    return chosen;
}

void view_catalogue(const Ui& ui, const Sheet& sheet, InState& state) {
    if (const auto* kind = choose_kind(ui, "catalogue", "Which fibre?", state.search, state.open_search))
        ui.ask.edit(add(sheet, *kind), "add a fibre");
}

}  // namespace battwright::window
