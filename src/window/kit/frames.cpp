// Panels of the bench, and the cards that lie over it.
#include <imgui_internal.h>

#include <algorithm>

#include "window/kit/widgets.hpp"

namespace battwright::window {

bool begin_child(const char* id, ImVec2 size, bool border, int flags) {
    ImGui::BeginChild(id, size, border, flags);
    // ImGui leaves out what is in a child that is scrolled away; then no key would come to it.
    ImGuiWindow& child = *ImGui::GetCurrentWindow();
    if (!child.Collapsed) child.SkipItems = false;
    return !child.Hidden;
}

bool begin_panel(const Ui& ui, const char* id, std::string_view title, ImVec2 at, ImVec2 size, bool scrolls) {
    ImGui::SetCursorScreenPos(at);
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.panel));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {ui.px(14.0f), ui.px(12.0f)});
    ImGui::PushStyleVar(ImGuiStyleVar_ChildRounding, ui.px(10.0f));
    ImGuiWindowFlags flags = ImGuiWindowFlags_AlwaysUseWindowPadding;
    if (!scrolls) flags |= ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
    const bool visible = begin_child(id, size, true, flags);
    ImGui::PopStyleVar(2);
    ImGui::PopStyleColor();
    if (!title.empty()) text_in(ui, ui.fonts.title, ui.theme.ink, title);
    return visible;
}

void end_panel() {
    ImGui::EndChild();
}

ImVec2 card_size(const Ui& ui, ImVec2 wanted, ImVec2 least) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    return {std::max(ui.px(least.x), std::min(wanted.x, whole.x - ui.px(24.0f))),
            std::max(ui.px(least.y), std::min(wanted.y, whole.y - ui.px(24.0f)))};
}

bool begin_card(const Ui& ui, const char* id, std::string_view title, ImVec2 size) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    // What is on it finds room in the window's width; where the card is higher than the window, it scrolls.
    const ImVec2 fitted{std::min(size.x, whole.x - ui.px(24.0f)), std::min(size.y, whole.y - ui.px(24.0f))};
    const bool fits = fitted.y >= size.y;
    const float wide = fits ? fitted.x : fitted.x - ImGui::GetStyle().ScrollbarSize;
    ImGui::SetNextWindowPos({0.5f * whole.x, 0.5f * whole.y}, ImGuiCond_Always, {0.5f, 0.5f});
    ImGui::SetNextWindowSize(fitted, ImGuiCond_Always);
    ImGuiWindowFlags flags =
        ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove;
    if (fits) flags |= ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0.0f, 0.0f});
    const bool open = ImGui::BeginPopupModal(id, nullptr, flags);
    ImGui::PopStyleVar();
    if (!open) return false;
    if (ImGui::IsWindowAppearing()) ui.tabs.first_of_card = true;
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {ui.px(22.0f), ui.px(18.0f)});
    begin_child("whole card", {wide, size.y}, false,
                ImGuiWindowFlags_AlwaysUseWindowPadding | ImGuiWindowFlags_NoScrollbar |
                    ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NavFlattened);
    ImGui::PopStyleVar();
    if (!title.empty()) {
        text_in(ui, ui.fonts.title, ui.theme.ink, title);
        gap(ui, 4.0f);
    }
    return true;
}

bool has_room(const Ui& ui, float design_pixels) {
    return ImGui::GetContentRegionAvail().x >= ui.px(design_pixels);
}

void begin_column(const char* id, ImVec2 size, bool stacked, int flags) {
    if (!stacked) {
        begin_child(id, size, false, flags);
        return;
    }
    ImGui::PushID(id);
    ImGui::BeginGroup();
}

void end_column(bool stacked) {
    if (!stacked) return ImGui::EndChild();
    ImGui::EndGroup();
    ImGui::PopID();
}

void next_column(const Ui& ui, float between, bool stacked) {
    if (stacked)
        gap(ui, 6.0f);
    else
        ImGui::SameLine(0.0f, between);
}

void end_card() {
    ImGui::EndChild();
    ImGui::EndPopup();
}

bool leave_button(const Ui& ui, const std::string& label, bool escape, Tone tone, float width) {
    const bool leave = button(ui, label, tone, width) || escape;
    if (leave) ImGui::CloseCurrentPopup();
    return leave;
}

bool key_pressed(ImGuiKey key, bool repeat) {
    return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), repeat);
}

bool escape_pressed(const Ui& ui) {
    return key_pressed(ImGuiKey_Escape) && ui.typing.id == 0;
}

bool escape_leaves(const Ui& ui) {
    // By the time it is looked for, the popup or the field may be gone already by this very key.
    ImGuiStorage& kept = *ImGui::GetStateStorage();
    const ImGuiID busy_before = ImGui::GetID("busy before");
    const bool was_busy = kept.GetBool(busy_before);
    const bool busy = ui.typing.id != 0 || ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId);
    kept.SetBool(busy_before, busy);
    return !busy && !was_busy && key_pressed(ImGuiKey_Escape);
}

}  // namespace battwright::window
