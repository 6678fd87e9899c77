// The lower half of the card panel: one file of this batt, or one of every recipe in a folder.
#include <algorithm>
#include <array>
#include <filesystem>

#include "app/browse/file_kinds.hpp"
#include "app/card/card_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/card/card.hpp"
#include "window/views/files/files.hpp"

namespace battwright::window {
namespace {

namespace fs = std::filesystem;

const FileField a_folder{.kind = FileKind::folder, .purpose = FilePurpose::folder};
constexpr std::array<const char*, 4> endings{".pdf", ".png", ".txt", ".md"};

void where_to(const Ui& ui, CardState& state, const CardSubject& subject) {
    card_row(ui, "Folder");
    const float width = ImGui::GetContentRegionAvail().x;
    if (const auto typed = file_field(ui, "card folder", state.draft.folder.string(), width, a_folder)) {
        state.draft.folder = *typed;
    }
    card_row(ui, "File name");
    const std::string name = file_name(state.draft, subject.stem);
    if (const auto typed = field(ui, "card file", name, width)) {
        state.draft.name = typed->empty() ? std::nullopt : typed;
        const std::string ending = fs::path(*typed).extension().string();
        if (std::find(endings.begin(), endings.end(), ending) != endings.end()) state.draft.ending = ending;
    }
    card_row(ui, "As");
    const auto now = std::find(endings.begin(), endings.end(), state.draft.ending);
    const auto chosen = choices(ui, "card as", {"PDF", "PNG", "text", "Markdown"},
                                static_cast<std::size_t>(now - endings.begin()));
    if (!chosen) return;
    state.draft.ending = endings[*chosen];
    if (state.draft.name) state.draft.name = with_ending(*state.draft.name, state.draft.ending);
}

std::string count_of(const BatchResult& result) {
    return std::to_string(result.written) + " of " + std::to_string(result.of);
}

void outcome(const Ui& ui) {
    const Writing& writing = ui.card.writing();
    if (!ui.card.complaint().empty()) paragraph(ui, ui.card.complaint(), ui.theme.spoils);
    if (writing.busy) {
        const std::string far = writing.batch && writing.result.of > 0 ? count_of(writing.result) : "";
        text_in(ui, ui.fonts.body, ui.theme.quiet, "Writing\u2026 " + far);
        return;
    }
    if (!ui.card.has_result()) return;
    if (ui.card.complaint().empty() && writing.batch)
        paragraph(ui, count_of(writing.result) + " written to " + writing.folder.string() + ".",
                  ui.theme.ink);
    for (const fs::path& file : writing.files)
        if (ui.card.complaint().empty()) paragraph(ui, "Written: " + file.string(), ui.theme.ink);
    for (const auto& failed : writing.result.failed) paragraph(ui, measure::to_line(failed), ui.theme.spoils);
}

}  // namespace

void view_card_files(const Ui& ui, CardState& state, const CardSubject& subject) {
    where_to(ui, state, subject);
    card_row(ui, "");
    ImGui::BeginDisabled(ui.card.writing().busy || !subject.forecast);
    if (button(ui, "Write it##card write", Tone::accent, ui.px(120.0f))) ui.ask.act(WriteCard{});
    ImGui::EndDisabled();
    outcome(ui);
    gap(ui, 4.0f);
    rule(ui);
    card_row(ui, "Recipes in");
    if (const auto typed = file_field(ui, "card recipes", state.draft.batch_from.string(),
                                      ImGui::GetContentRegionAvail().x, a_folder)) {
        state.draft.batch_from = *typed;
    }
    card_row(ui, "");
    ImGui::BeginDisabled(ui.card.writing().busy);
    if (button(ui, "Write one for every recipe there##card write all", Tone::plain, 0.0f,
               "Into the folder above, each named after its recipe file"))
        ui.ask.act(WriteAllCards{});
    ImGui::EndDisabled();
    card_row(ui, "");
    if (const auto on =
            tick(ui, "card sheets", "several on a sheet of A4, to be cut apart", state.draft.sheets))
        state.draft.sheets = *on;
}

}  // namespace battwright::window
