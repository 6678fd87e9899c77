// Files, wherever one is asked for: a field for its path, and a card that shows what lies in a folder.
#pragma once

#include <optional>
#include <string>

#include "app/browse/browser.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

struct FileField {
    FileKind kind = FileKind::photo;
    FilePurpose purpose = FilePurpose::open;
    const char* hint = "";
    std::string suggested = {};  // a name to save under
};
// A path as typed, chosen on the card, let fall on the window or pasted; if it differs from `shown`.
std::optional<std::string> file_field(const Ui& ui, const std::string& label, const std::string& shown,
                                      float width, const FileField& wanted);

// What was copied is to be taken for the path of a file.
void paste(const Ui& ui);

// The card itself, for what the browser was opened with; begun by ImGui::OpenPopup(head.id).
void view_browser(const Ui& ui, const PanelHead& head);
void report_browser(const FileBrowser& files, Probe& probe);
// What of a folder is in it: files with small pictures side by side, others one under another.
void view_tiles(const Ui& ui, const FileBrowser& files, ImVec2 size);

}  // namespace battwright::window
