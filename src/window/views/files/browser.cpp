#include <filesystem>
#include <utility>

#include "app/browse/browser.hpp"
#include "app/browse/file_kinds.hpp"
#include "app/browse/file_path.hpp"
#include "app/browse/words.hpp"
#include "app/settings.hpp"
#include "recipe/file_name.hpp"
#include "window/views/files/files.hpp"

namespace battwright::window {
namespace {

constexpr float places_width = 176.0f, foot_height = 118.0f;

void place(const Ui& ui, std::string_view words, const std::string& label, const std::filesystem::path& to) {
    const float width = ImGui::GetContentRegionAvail().x;
    ImGui::PushFont(ui.fonts.body);
    const std::string shown = cut_to(words, width - ui.px(26.0f));
    ImGui::PopFont();
    ImGui::PushStyleVar(ImGuiStyleVar_ButtonTextAlign, {0.0f, 0.5f});
    if (button(ui, shown + "##" + label, Tone::quiet, width, to.string())) ui.ask.act(EnterFolder{to});
    ImGui::PopStyleVar();
}

void places(const Ui& ui, const FileBrowser& files, float height) {
    begin_child("places", {ui.px(places_width), height});
    place(ui, "Home", "place home", home_folder());
    place(ui, "Whole computer", "place root", "/");
    place(ui, "Folder above", "place up", files.folder().parent_path());
    const auto& visited = ui.settings.folders;
    if (!visited.empty()) {
        gap(ui, 4.0f);
        text_in(ui, ui.fonts.bold, ui.theme.ink, "Visited");
    }
    for (std::size_t i = 0; i < visited.size(); ++i) {
        const std::string name = visited[i].has_filename() ? visited[i].filename().string() : "/";
        place(ui, name, "visited " + std::to_string(i + 1), visited[i]);
    }
    const bool recipes = files.ask().who == recipe_asks && files.ask().purpose == FilePurpose::open;
    const auto& recent = ui.settings.recent;
    if (recipes && !recent.empty()) {
        gap(ui, 4.0f);
        text_in(ui, ui.fonts.bold, ui.theme.ink, "Lately");
    }
    for (std::size_t i = 0; recipes && i < recent.size(); ++i) {
        const float width = ImGui::GetContentRegionAvail().x;
        const std::string shown = cut_to(recipe::file_stem(recent[i]), width - ui.px(26.0f));
        ImGui::PushStyleVar(ImGuiStyleVar_ButtonTextAlign, {0.0f, 0.5f});
        if (button(ui, shown + "##recent " + std::to_string(i + 1), Tone::quiet, width, recent[i].string()))
            ui.ask.act(GiveFile{recipe_asks, recent[i]});
        ImGui::PopStyleVar();
    }
    ImGui::EndChild();
}

void head_line(const Ui& ui, const FileBrowser& files) {
    const float orders = ui.px(212.0f);
    if (const auto typed =
            field(ui, "folder", files.folder().string(), ImGui::GetContentRegionAvail().x - orders))
        ui.ask.act(EnterFolder{typed_path(*typed, files.folder())});
    ImGui::SameLine();
    const auto order = choices(ui, "files order", {"by name", "newest first"},
                               files.order() == FileOrder::newest_first ? 1 : 0);
    if (order) ui.ask.act(OrderFiles{*order == 1 ? FileOrder::newest_first : FileOrder::by_name});
}

// What is wrong, or what is chosen, or what lies here.
void told(const Ui& ui, const FileBrowser& files) {
    const auto line = line_under(files);
    text_within(ui, ui.fonts.body, line.trouble ? ui.theme.spoils : ui.theme.quiet,
                line.words.empty() ? " " : line.words, ImGui::GetContentRegionAvail().x);
}

void name_line(const Ui& ui, const FileBrowser& files) {
    if (files.ask().purpose == FilePurpose::folder) return;
    const auto typed = field(ui, "file name", files.name(), ImGui::GetContentRegionAvail().x,
                             files.ask().purpose == FilePurpose::save ? "a name to save under" : "its name");
    if (!typed) return;
    ui.ask.act(NameFile{*typed});
    if (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false)) ui.ask.act(FinishFile{});
}

const char* word_to_do(FilePurpose purpose) {
    switch (purpose) {
        case FilePurpose::save:
            return "Save it##files do";
        case FilePurpose::folder:
            return "Use this folder##files do";
        case FilePurpose::open:
            break;
    }
    return "Open it##files do";
}

// True when the card is to be left.
bool buttons(const Ui& ui, const FileBrowser& files) {
    if (button(ui, word_to_do(files.ask().purpose), Tone::accent, ui.px(140.0f))) ui.ask.act(FinishFile{});
    ImGui::SameLine();
    const bool leave = button(ui, "Not now##files leave", Tone::plain, ui.px(110.0f));
    if (files.ask().purpose != FilePurpose::save) {
        ImGui::SameLine();
        if (button(ui, "Paste a path##files paste", Tone::plain, ui.px(130.0f),
                   "The file copied in your file manager, or its path; Ctrl+V does the same"))
            paste(ui);
    }
    return leave;
}

}  // namespace

void view_browser(const Ui& ui, const PanelHead& head) {
    if (!begin_card(ui, head, card_size(ui, {ui.px(900.0f), ui.px(630.0f)}, {560.0f, 400.0f}))) return;
    ui.ask.browsing = true;
    const FileBrowser& files = ui.files;
    head_line(ui, files);
    const float named =
        files.ask().purpose == FilePurpose::folder ? 0.0f : ImGui::GetFrameHeightWithSpacing();
    const float height = ImGui::GetContentRegionAvail().y - ui.px(foot_height - 38.0f) - named;
    places(ui, files, height);
    ImGui::SameLine();
    view_tiles(ui, files, {0.0f, height});
    name_line(ui, files);
    told(ui, files);
    const bool escape = escape_leaves(ui);
    if (buttons(ui, files) || escape || files.chosen_for(files.ask().who)) {
        ui.ask.act(LeaveFiles{});
        ImGui::CloseCurrentPopup();
    }
    end_card();
}

void report_browser(const FileBrowser& files, Probe& probe) {
    auto& facts = probe.state;
    facts["files folder"] = files.folder().string();
    facts["files shown"] =
        files.listing() != nullptr ? std::to_string(files.listing()->entries.size()) : "none";
    facts["files line"] = line_under(files).words;
    std::size_t pictures = 0;
    for (const auto& [path, thumbnail] : *files.thumbnails())
        pictures += thumbnail && !thumbnail->picture.rgb.empty() ? 1 : 0;
    facts["small pictures"] = std::to_string(pictures);
}

}  // namespace battwright::window
