// The lower half of the card panel: one file of this batt, or one of every recipe in a folder.
#include <algorithm>
#include <array>
#include <system_error>
#include <utility>

#include "window/kit/widgets.hpp"
#include "window/views/card/card.hpp"

namespace battwright::window {
namespace {

namespace fs = std::filesystem;

constexpr std::array<const char*, 4> endings{".pdf", ".png", ".txt", ".md"};

std::string file_name(const CardState& state, const CardSubject& subject) {
    return state.name.value_or(subject.stem + "-" + word_for(state.choice.kind) + state.ending);
}

// Anything that makes an earlier "press again to replace" stale.
void start_afresh(CardState& state) {
    state.complaint.clear();
    state.told = state.writing.stage;
    state.replace_asked = state.replace_all_asked = false;
}

// True when the folder is there; else says so.
bool folder_stands(CardState& state, const fs::path& folder) {
    std::error_code error;
    if (fs::is_directory(folder, error)) return true;
    state.complaint = folder.string() + " is no folder. Type one that is there.";
    return false;
}

void write_this(const Ui& ui, CardState& state, const CardSubject& subject) {
    const fs::path path = state.folder / file_name(state, subject);
    if (!folder_stands(state, path.parent_path())) return;
    std::error_code error;
    if (fs::exists(path, error) && !std::exchange(state.replace_asked, true)) {
        state.complaint =
            path.filename().string() + " is there already. Press the button again to replace it.";
        return;
    }
    start_afresh(state);
    state.writer->write(subject.forecast, state.choice, path);
    ui.ask.another_frame = true;
}

void write_folder(const Ui& ui, CardState& state, const CardSubject& subject) {
    if (!folder_stands(state, state.batch_from) || !folder_stands(state, state.folder)) return;
    const Batch batch{state.batch_from, state.folder, state.ending, state.choice, subject.bench};
    if (recipes_in(batch.from).empty()) {
        state.complaint = "There are no recipes in " + batch.from.string() + ".";
        return;
    }
    const std::size_t there = already_there(batch);
    if (there > 0 && !std::exchange(state.replace_all_asked, true)) {
        state.complaint =
            std::to_string(there) + " of the files are there already. Press again to replace them.";
        return;
    }
    start_afresh(state);
    state.writer->write_all(batch);
    ui.ask.another_frame = true;
}

void where_to(const Ui& ui, CardState& state, const CardSubject& subject) {
    card_row(ui, "Folder");
    const float width = ImGui::GetContentRegionAvail().x;
    if (const auto typed = field(ui, "card folder", state.folder.string(), width)) {
        start_afresh(state);
        state.folder = *typed;
    }
    card_row(ui, "File name");
    const std::string name = file_name(state, subject);
    if (const auto typed = field(ui, "card file", name, width)) {
        start_afresh(state);
        state.name = typed->empty() ? std::nullopt : typed;
        const std::string ending = fs::path(*typed).extension().string();
        if (std::find(endings.begin(), endings.end(), ending) != endings.end()) state.ending = ending;
    }
    card_row(ui, "As");
    const auto now = std::find(endings.begin(), endings.end(), state.ending);
    const auto chosen = choices(ui, "card as", {"PDF", "PNG", "text", "Markdown"},
                                static_cast<std::size_t>(now - endings.begin()));
    if (!chosen) return;
    start_afresh(state);
    state.ending = endings[*chosen];
    if (state.name) state.name = with_ending(*state.name, state.ending);
}

std::string count_of(const BatchResult& result) {
    return std::to_string(result.written) + " of " + std::to_string(result.of);
}

void outcome(const Ui& ui, const CardState& state) {
    const Writing& writing = state.writing;
    if (!state.complaint.empty()) paragraph(ui, state.complaint, ui.theme.spoils);
    if (writing.busy) {
        const std::string far = writing.batch && writing.result.of > 0 ? count_of(writing.result) : "";
        text_in(ui, ui.fonts.body, ui.theme.quiet, "Writing\u2026 " + far);
        return;
    }
    if (writing.stage <= state.told) return;
    if (state.complaint.empty() && writing.batch)
        paragraph(ui, count_of(writing.result) + " written to " + writing.folder.string() + ".",
                  ui.theme.ink);
    for (const fs::path& file : writing.files)
        if (state.complaint.empty()) paragraph(ui, "Written: " + file.string(), ui.theme.ink);
    for (const auto& failed : writing.result.failed) paragraph(ui, measure::to_line(failed), ui.theme.spoils);
}

}  // namespace

void view_card_files(const Ui& ui, CardState& state, const CardSubject& subject) {
    state.writing = state.writer->state();
    where_to(ui, state, subject);
    card_row(ui, "");
    ImGui::BeginDisabled(state.writing.busy || !subject.forecast);
    if (button(ui, "Write it##card write", Tone::accent, ui.px(120.0f))) write_this(ui, state, subject);
    ImGui::EndDisabled();
    gap(ui, 4.0f);
    rule(ui);
    card_row(ui, "Recipes in");
    if (const auto typed =
            field(ui, "card recipes", state.batch_from.string(), ImGui::GetContentRegionAvail().x)) {
        start_afresh(state);
        state.batch_from = *typed;
    }
    card_row(ui, "");
    ImGui::BeginDisabled(state.writing.busy);
    if (button(ui, "Write one for every recipe there##card write all", Tone::plain, 0.0f,
               "Into the folder above, each named after its recipe file"))
        write_folder(ui, state, subject);
    ImGui::EndDisabled();
    gap(ui, 4.0f);
    ImGui::BeginChild("card outcome", {0.0f, 0.0f});
    outcome(ui, state);
    ImGui::EndChild();
}

}  // namespace battwright::window
