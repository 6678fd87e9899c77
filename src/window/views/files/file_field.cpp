#include "app/browse/browser.hpp"
#include "app/browse/file_kinds.hpp"
#include "app/browse/file_path.hpp"
#include "window/views/files/files.hpp"

namespace battwright::window {
namespace {

std::string title_for(const FileField& wanted) {
    if (wanted.purpose == FilePurpose::folder) return "Choose a folder";
    const std::string one(app::row_for(wanted.kind).one);
    return wanted.purpose == FilePurpose::save ? "Save " + one : "Choose " + one;
}

}  // namespace

void paste(const Ui& ui) {
    const char* copied = ImGui::GetClipboardText();
    ui.ask.pasted = copied != nullptr ? copied : "";
}

std::optional<std::string> file_field(const Ui& ui, const std::string& label, const std::string& shown,
                                      float width, const FileField& wanted) {
    const float between = ui.px(6.0f), button_width = ui.px(92.0f);
    ImGui::PushID(label.c_str());
    auto path = field(ui, label, shown, width - between - button_width, wanted.hint);
    if (path && !path->empty()) path = typed_path(*path, {}).string();
    ImGui::SameLine(0.0f, between);
    if (button(ui, "Browse\u2026##browse " + label, Tone::plain, button_width)) {
        ui.ask.act(
            BrowseFiles{{label, wanted.kind, wanted.purpose, typed_path(shown, {}), wanted.suggested}});
        ImGui::OpenPopup("browse");
    }
    const std::string title = title_for(wanted);
    view_browser(ui, {"browse", title.c_str()});
    ImGui::PopID();
    if (wanted.purpose != FilePurpose::save) ui.ask.takers.push_back({label, wanted.kind});
    if (const auto chosen = ui.files.chosen_for(label); chosen && chosen->string() != shown)
        path = chosen->string();
    return path;
}

}  // namespace battwright::window
