#include <cmath>
#include <utility>

#include "app/bench/disagreement.hpp"
#include "app/bench/document.hpp"
#include "app/bench/sheet.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

void name_field(const Ui& ui, const Document& document, float width) {
    Sheet sheet = document.sheet();
    const bool edited = edit_text(ui, "batt name", sheet.recipe.name, width, "Name this batt");
    hover(ui, document.path() ? document.path()->string() : "Not saved yet");
    if (edited) ui.ask.edit(std::move(sheet), "name the batt");
}

void notes_button(const Ui& ui, const Document& document) {
    if (button(ui, document.sheet().recipe.notes.empty() ? "Notes##notes" : "Notes \u2022##notes",
               Tone::plain, 0.0f, "Whatever you want to remember about this batt"))
        ImGui::OpenPopup("notes card");
    ImGui::SetNextWindowSize({ui.px(420.0f), 0.0f});
    if (!ImGui::BeginPopup("notes card")) return;
    text_in(ui, ui.fonts.title, ui.theme.ink, "Notes");
    Sheet sheet = document.sheet();
    if (edit_text(ui, "batt notes", sheet.recipe.notes, ui.px(390.0f), "for whom, from where, what to try"))
        ui.ask.edit(std::move(sheet), "write a note");
    ImGui::EndPopup();
}

// Things side by side in as many rows as they take.
struct ButtonRow {
    const Ui& ui;
    float right;  // in window pixels

    // Room for the next, so wide, after so many design pixels.
    void next(float width, float after = 8.0f) const {
        ImGui::SameLine(0.0f, ui.px(after));
        if (ImGui::GetCursorScreenPos().x + width > right + 2.0f) ImGui::NewLine();
    }
    float wide(const char* words) const {
        return std::ceil(width_of(ui.fonts.body, words)) + 2.0f * ImGui::GetStyle().FramePadding.x;
    }
};

void command_button(const ButtonRow& row, const char* words, Command wanted, std::string_view help,
                    Tone tone = Tone::plain, float after = 8.0f) {
    row.next(row.wide(words), after);
    if (button(row.ui, words, tone, 0.0f, help)) row.ui.ask.command(wanted);
}

void undo_redo(const ButtonRow& row, const History& history) {
    ImGui::BeginDisabled(!history.can_undo());
    command_button(row, "Undo", Command::undo,
                   history.can_undo() ? "Undo: " + history.undo_name() + " (Ctrl+Z)" : "Nothing to undo",
                   Tone::plain, 14.0f);
    ImGui::EndDisabled();
    ImGui::BeginDisabled(!history.can_redo());
    command_button(
        row, "Redo", Command::redo,
        history.can_redo() ? "Redo: " + history.redo_name() + " (Ctrl+Shift+Z)" : "Nothing to redo");
    ImGui::EndDisabled();
}

// Saved, new, or what is not in any file yet.
void state_of_file(const Ui& ui, const Document& document) {
    ImGui::AlignTextToFramePadding();
    const bool unsaved = document.unsaved();
    const char* words = unsaved ? "unsaved" : document.path() ? "saved" : "new";
    ImFont* font = unsaved ? ui.fonts.bold : ui.fonts.body;
    text_in(ui, font, unsaved ? ui.theme.accent : ui.theme.quiet, words);
    if (unsaved) mark(ui, "unsaved marker");
    // As wide whatever it says, so that the buttons stay where they are.
    ImGui::SameLine(0.0f, width_of(ui.fonts.bold, "unsaved") - width_of(font, words));
    ImGui::Dummy({0.0f, ImGui::GetFrameHeight()});
}

}  // namespace

void view_top(const Ui& ui, ImVec2 at, ImVec2 size) {
    const Document& document = ui.document;
    begin_panel(ui, "top", "", at, size);
    ImGui::SetCursorScreenPos({at.x + ui.px(14.0f), at.y + ui.px(10.0f)});
    const ButtonRow row{ui, at.x + size.x - ui.px(14.0f)};
    ImGui::BeginGroup();
    name_field(ui, document, ui.px(184.0f));
    ImGui::SameLine();
    state_of_file(ui, document);
    command_button(row, "New", Command::fresh, "An empty bench (Ctrl+N)");
    command_button(row, "Open", Command::open, "Open a recipe, or drop its file here (Ctrl+O)");
    command_button(row, "Save", Command::save, "Save (Ctrl+S); Ctrl+Shift+S saves under another name",
                   document.unsaved() ? Tone::accent : Tone::plain);
    undo_redo(row, document.history());
    row.next(row.wide("Notes \u2022"), 14.0f);
    notes_button(ui, document);
    command_button(row, "Compare", Command::variants, "Keep variants and see them side by side (Ctrl+K)");
    command_button(row, "Recipe card", Command::card,
                   "Recipe card, tag and label, to look at and to print (Ctrl+P)");
    command_button(row, "Record", Command::record,
                   "Batts carded and skeins spun, what was this, reports, backup (Ctrl+R)");
    command_button(row, "Find", Command::find,
                   "What can I make of these bits, and how do I get that colour? (Ctrl+B)");
    // What is about the window itself stands at the right, where there is room for it.
    const float own = row.wide("Settings") + row.wide("Help") + row.wide("Guide") + ui.px(16.0f);
    row.next(own, 8.0f);
    const float rest = row.right - own - ImGui::GetCursorScreenPos().x;
    if (rest > 0.0f) ImGui::SetCursorScreenPos({row.right - own, ImGui::GetCursorScreenPos().y});
    if (button(ui, "Settings", Tone::plain, 0.0f, "Theme, size, units")) ui.ask.command(Command::preferences);
    command_button(row, "Help", Command::help, "Keys and trade words (F1)");
    command_button(row, "Guide", Command::guide, "A short tour of the bench");
    ImGui::EndGroup();
    end_panel();
}

}  // namespace battwright::window
