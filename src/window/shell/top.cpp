#include "app/state.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

void name_field(const Ui& ui, const Document& document, float width) {
    const auto typed = field(ui, "batt name", document.sheet().recipe.name, width, "Name this batt");
    hover(ui, document.path() ? document.path()->string() : "Not saved yet");
    if (!typed) return;
    Sheet sheet = document.sheet();
    sheet.recipe.name = *typed;
    ui.ask.edit(std::move(sheet), "name the batt");
}

void notes_button(const Ui& ui, const Document& document) {
    if (button(ui, document.sheet().recipe.notes.empty() ? "Notes##notes" : "Notes \u2022##notes",
               Tone::plain, 0.0f, "Whatever you want to remember about this batt"))
        ImGui::OpenPopup("notes card");
    ImGui::SetNextWindowSize({ui.px(420.0f), 0.0f});
    if (!ImGui::BeginPopup("notes card")) return;
    text_in(ui, ui.fonts.title, ui.theme.ink, "Notes");
    if (const auto typed = field(ui, "batt notes", document.sheet().recipe.notes, ui.px(390.0f),
                                 "for whom, from where, what to try")) {
        Sheet sheet = document.sheet();
        sheet.recipe.notes = *typed;
        ui.ask.edit(std::move(sheet), "write a note");
    }
    ImGui::EndPopup();
}

void undo_redo(const Ui& ui, const History& history) {
    ImGui::BeginDisabled(!history.can_undo());
    if (button(ui, "Undo", Tone::plain, 0.0f,
               history.can_undo() ? "Undo: " + history.undo_name() + " (Ctrl+Z)" : "Nothing to undo"))
        ui.ask.command(Command::undo);
    ImGui::EndDisabled();
    ImGui::SameLine();
    ImGui::BeginDisabled(!history.can_redo());
    if (button(ui, "Redo", Tone::plain, 0.0f,
               history.can_redo() ? "Redo: " + history.redo_name() + " (Ctrl+Shift+Z)" : "Nothing to redo"))
        ui.ask.command(Command::redo);
    ImGui::EndDisabled();
}

}  // namespace

void view_top(const Ui& ui, ImVec2 at, ImVec2 size) {
    const Document& document = ui.app.document;
    begin_panel(ui, "top", "", at, size);
    ImGui::SetCursorScreenPos({at.x + ui.px(14.0f), at.y + 0.5f * (size.y - ImGui::GetFrameHeight())});
    name_field(ui, document, ui.px(220.0f));
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    if (document.unsaved()) {
        text_in(ui, ui.fonts.bold, ui.theme.accent, "unsaved");
        mark(ui, "unsaved marker");
    } else {
        text_in(ui, ui.fonts.body, ui.theme.quiet, document.path() ? "saved" : "new");
    }
    ImGui::SameLine(ui.px(330.0f));
    if (button(ui, "New", Tone::plain, 0.0f, "An empty bench (Ctrl+N)")) ui.ask.command(Command::fresh);
    ImGui::SameLine();
    if (button(ui, "Open", Tone::plain, 0.0f, "Open a recipe, or drop its file here (Ctrl+O)"))
        ui.ask.command(Command::open);
    ImGui::SameLine();
    if (button(ui, "Save", Tone::accent, 0.0f, "Save (Ctrl+S); Ctrl+Shift+S saves under another name"))
        ui.ask.command(Command::save);
    ImGui::SameLine(0.0f, ui.px(18.0f));
    undo_redo(ui, document.history());
    ImGui::SameLine(0.0f, ui.px(18.0f));
    notes_button(ui, document);
    ImGui::SameLine();
    if (button(ui, "Compare", Tone::plain, 0.0f, "Keep variants and see them side by side (Ctrl+K)"))
        ui.ask.command(Command::variants);
    ImGui::SameLine();
    if (button(ui, "Card", Tone::plain, 0.0f, "Recipe card, tag and label, to look at and to print (Ctrl+P)"))
        ui.ask.command(Command::card);
    ImGui::SameLine();
    if (button(ui, "Record", Tone::plain, 0.0f,
               "Batts carded and skeins spun, what was this, reports, backup (Ctrl+R)"))
        ui.ask.command(Command::record);
    ImGui::SameLine();
    if (button(ui, "Find", Tone::plain, 0.0f,
               "What can I make of these bits, and how do I get that colour? (Ctrl+B)"))
        ui.ask.command(Command::find);
    ImGui::SameLine(size.x - ui.px(236.0f));
    if (button(ui, "Appearance", Tone::plain, 0.0f, "Theme, size, units"))
        ui.ask.command(Command::preferences);
    ImGui::SameLine();
    if (button(ui, "Help", Tone::plain, 0.0f, "Keys and trade words (F1)")) ui.ask.command(Command::help);
    ImGui::SameLine();
    if (button(ui, "Guide", Tone::plain, 0.0f, "A short tour of the bench")) ui.ask.command(Command::guide);
    end_panel();
}

}  // namespace battwright::window
