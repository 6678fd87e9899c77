// The open and the save panel, with folders.
#include "app/folders.hpp"
#include "app/state.hpp"
#include "recipe/file_name.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

void places(const Ui& ui, const FileChoice& files) {
    ImGui::BeginChild("places", {ui.px(190.0f), ImGui::GetContentRegionAvail().y - ui.px(104.0f)});
    const float width = ui.px(180.0f);
    if (button(ui, "Home##place home", Tone::quiet, width)) ui.ask.act(EnterFolder{home_folder()});
    if (button(ui, "Folder above##place up", Tone::quiet, width))
        ui.ask.act(EnterFolder{files.folder().parent_path()});
    if (!files.saving() && !ui.settings.recent.empty()) {
        gap(ui, 6.0f);
        text_in(ui, ui.fonts.bold, ui.theme.ink, "Lately");
        for (std::size_t i = 0; i < ui.settings.recent.size(); ++i) {
            const auto& path = ui.settings.recent[i];
            ImGui::PushID(static_cast<int>(i));
            if (button(ui,
                       cut_to(recipe::file_stem(path), width - ui.px(26.0f)) + "##recent " +
                           std::to_string(i + 1),
                       Tone::quiet, width, path.string())) {
                ui.ask.act(OpenRecipe{path});
                ImGui::CloseCurrentPopup();
            }
            ImGui::PopID();
        }
    }
    ImGui::EndChild();
}

void listing(const Ui& ui, const FileChoice& files) {
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.field));
    ImGui::BeginChild("listing", {0.0f, ImGui::GetContentRegionAvail().y - ui.px(104.0f)}, true,
                      ImGuiWindowFlags_AlwaysUseWindowPadding);
    ImGui::PopStyleColor();
    const auto& entries = files.entries();
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const FolderEntry& entry = entries[i];
        ImGui::PushID(static_cast<int>(i));
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const bool pressed =
            ImGui::Selectable("##entry", files.name() == entry.name,
                              ImGuiSelectableFlags_AllowDoubleClick | ImGuiSelectableFlags_DontClosePopups,
                              {0.0f, ui.px(32.0f)});
        mark(ui, "entry " + entry.name);
        const std::string shown = entry.is_folder ? entry.name + "/" : entry.name;
        ImGui::GetWindowDrawList()->AddText(entry.is_folder ? ui.fonts.bold : ui.fonts.body,
                                            ui.fonts.body->FontSize, {at.x + ui.px(8.0f), at.y + ui.px(6.0f)},
                                            u32(ui.theme.ink), shown.c_str());
        ImGui::PopID();
        if (!pressed) continue;
        if (entry.is_folder) {
            ui.ask.act(EnterFolder{files.folder() / entry.name});
            break;
        }
        ui.ask.act(NameFile{entry.name});
        if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left) && !files.saving()) ui.ask.act(FinishFile{});
    }
    if (entries.empty()) text_in(ui, ui.fonts.body, ui.theme.quiet, "No folders and no recipes here.");
    ImGui::EndChild();
}

}  // namespace

void view_files(const Ui& ui, const PanelHead& head, FilesState& state) {
    if (!begin_card(ui, head, {ui.px(760.0f), ui.px(560.0f)})) return;
    const FileChoice& files = ui.app.files;
    if (const auto typed = field(ui, "folder", files.folder().string(), ImGui::GetContentRegionAvail().x))
        ui.ask.act(EnterFolder{*typed});
    places(ui, files);
    ImGui::SameLine();
    listing(ui, files);
    if (const auto typed =
            field(ui, "file name", files.name(), ImGui::GetContentRegionAvail().x, "name.batt.toml")) {
        ui.ask.act(NameFile{*typed});
        if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false)) ui.ask.act(FinishFile{});
    }
    text_within(ui, ui.fonts.body, ui.theme.spoils, files.complaint().empty() ? " " : files.complaint(),
                ImGui::GetContentRegionAvail().x);
    if (button(ui, files.saving() ? "Save it##files do" : "Open it##files do", Tone::accent, ui.px(110.0f)))
        ui.ask.act(FinishFile{});
    ImGui::SameLine();
    const bool escape = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false) && ui.typing.id == 0;
    if (button(ui, "Not now##files leave", Tone::plain, ui.px(110.0f)) || escape || state.done)
        ImGui::CloseCurrentPopup();
    end_card();
}

}  // namespace battwright::window
