// The open and the save panel, with folders.
#include <algorithm>
#include <system_error>

#include "app/folders.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

namespace fs = std::filesystem;

struct Entry {
    std::string name;
    bool folder = false;
};

// Folders first, then recipes, by name; hidden ones left out. An unreadable folder is an empty one.
std::vector<Entry> entries_of(const fs::path& folder) {
    std::vector<Entry> entries;
    std::error_code error;
    for (auto it = fs::directory_iterator(folder, error); !error && it != fs::directory_iterator();
         it.increment(error)) {
        const std::string name = it->path().filename().string();
        if (name.empty() || name.front() == '.') continue;
        std::error_code ignored;
        const bool is_folder = it->is_directory(ignored);
        if (is_folder || it->path().extension() == ".toml") entries.push_back({name, is_folder});
    }
    std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
        return a.folder != b.folder ? a.folder : a.name < b.name;
    });
    return entries;
}

void go(FilesState& state, const fs::path& folder) {
    std::error_code error;
    const fs::path whole = fs::weakly_canonical(folder, error);
    state.folder = error ? folder : whole;
    state.asked_to_replace = false;
}

void places(const Ui& ui, FilesState& state) {
    ImGui::BeginChild("places", {ui.px(190.0f), ImGui::GetContentRegionAvail().y - ui.px(104.0f)});
    const float width = ui.px(180.0f);
    if (button(ui, "Home##place home", Tone::quiet, width)) go(state, home_folder());
    if (button(ui, "Folder above##place up", Tone::quiet, width)) go(state, state.folder.parent_path());
    if (!state.saving && !ui.settings.recent.empty()) {
        gap(ui, 6.0f);
        text_in(ui, ui.fonts.bold, ui.theme.ink, "Lately");
        for (std::size_t i = 0; i < ui.settings.recent.size(); ++i) {
            const auto& path = ui.settings.recent[i];
            ImGui::PushID(static_cast<int>(i));
            if (button(
                    ui,
                    cut_to(path.stem().string(), width - ui.px(26.0f)) + "##recent " + std::to_string(i + 1),
                    Tone::quiet, width, path.string())) {
                ui.ask.open_path = path;
                ImGui::CloseCurrentPopup();
            }
            ImGui::PopID();
        }
    }
    ImGui::EndChild();
}

void finish(const Ui& ui, FilesState& state) {
    if (state.name.empty()) {
        state.complaint = "Type a name, or choose a file.";
        return;
    }
    fs::path path = fs::path(state.name).is_absolute() ? fs::path(state.name) : state.folder / state.name;
    std::error_code error;
    if (fs::is_directory(path, error)) {
        go(state, path);
        state.name.clear();
        return;
    }
    if (state.saving && path.extension() != ".toml") path += ".toml";
    if (state.saving && fs::exists(path, error) && !state.asked_to_replace) {
        state.asked_to_replace = true;
        state.complaint =
            path.filename().string() + " is there already. Press the button again to replace it.";
        return;
    }
    (state.saving ? ui.ask.save_path : ui.ask.open_path) = path;
    ImGui::CloseCurrentPopup();
}

void listing(const Ui& ui, FilesState& state) {
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.field));
    ImGui::BeginChild("listing", {0.0f, ImGui::GetContentRegionAvail().y - ui.px(104.0f)}, true,
                      ImGuiWindowFlags_AlwaysUseWindowPadding);
    ImGui::PopStyleColor();
    const auto entries = entries_of(state.folder);
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& entry = entries[i];
        ImGui::PushID(static_cast<int>(i));
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const bool pressed =
            ImGui::Selectable("##entry", state.name == entry.name,
                              ImGuiSelectableFlags_AllowDoubleClick | ImGuiSelectableFlags_DontClosePopups,
                              {0.0f, ui.px(28.0f)});
        mark(ui, "entry " + entry.name);
        const std::string shown = entry.folder ? entry.name + "/" : entry.name;
        ImGui::GetWindowDrawList()->AddText(entry.folder ? ui.fonts.bold : ui.fonts.body,
                                            ui.fonts.body->FontSize, {at.x + ui.px(8.0f), at.y + ui.px(4.0f)},
                                            u32(ui.theme.ink), shown.c_str());
        ImGui::PopID();
        if (!pressed) continue;
        if (entry.folder) {
            go(state, state.folder / entry.name);
            break;
        }
        state.name = entry.name;
        state.asked_to_replace = false;
        state.complaint.clear();
        if (ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left) && !state.saving) finish(ui, state);
    }
    if (entries.empty()) text_in(ui, ui.fonts.body, ui.theme.quiet, "No folders and no recipes here.");
    ImGui::EndChild();
}

}  // namespace

void view_files(const Ui& ui, FilesState& state, const std::string& suggested) {
    const char* title = state.saving ? "Save the recipe" : "Open a recipe";
    if (!begin_card(ui, "files", title, {ui.px(760.0f), ui.px(560.0f)})) return;
    if (ImGui::IsWindowAppearing() && state.saving && state.name.empty()) state.name = suggested;
    if (const auto typed = field(ui, "folder", state.folder.string(), ImGui::GetContentRegionAvail().x))
        go(state, fs::path(*typed));
    places(ui, state);
    ImGui::SameLine();
    listing(ui, state);
    if (const auto typed =
            field(ui, "file name", state.name, ImGui::GetContentRegionAvail().x, "name.toml")) {
        state.name = *typed;
        state.asked_to_replace = false;
        if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false)) finish(ui, state);
    }
    text_within(ui, ui.fonts.body, ui.theme.spoils, state.complaint.empty() ? " " : state.complaint,
                ImGui::GetContentRegionAvail().x);
    if (button(ui, state.saving ? "Save it##files do" : "Open it##files do", Tone::accent, ui.px(110.0f)))
        finish(ui, state);
    ImGui::SameLine();
    const bool escape = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false) && ui.typing.id == 0;
    if (button(ui, "Not now##files leave", Tone::plain, ui.px(110.0f)) || escape) ImGui::CloseCurrentPopup();
    end_card();
}

}  // namespace battwright::window
