#include "window/kit/tab_stops.hpp"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <utility>

#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

// Whether the keys may go to the last item: it can be pressed, and no card lies over it.
bool may_have_keys() {
    const ImGuiContext& context = *ImGui::GetCurrentContext();
    const ImGuiLastItemData& item = context.LastItemData;
    if (item.ID == 0 || (item.InFlags & ImGuiItemFlags_Disabled) != 0) return false;
    const auto& open = context.OpenPopupStack;
    return open.empty() || context.CurrentWindow->RootWindow == open.back().Window;
}

bool is_typed_into() {
    return (ImGui::GetCurrentContext()->LastItemData.InFlags & ImGuiItemFlags_Inputable) != 0;
}

// Letters on their way to a field that only has the keys yet: held back until it is open, a frame or two.
void hold_letters(TabStops& stops) {
    ImGuiIO& io = ImGui::GetIO();
    for (const ImWchar letter : io.InputQueueCharacters) stops.letters.push_back(letter);
    io.InputQueueCharacters.resize(0);
}

void hand_over_letters(TabStops& stops) {
    if (stops.opening == 0) return;
    const ImGuiContext& context = *ImGui::GetCurrentContext();
    hold_letters(stops);
    const bool open = context.ActiveId == stops.opening;
    if (open && context.ActiveIdIsJustActivated) return;
    if (!open && ++stops.waited < 6) return;
    if (open)
        for (const unsigned letter : stops.letters) ImGui::GetIO().AddInputCharacter(letter);
    stops.letters.clear();
    stops.opening = 0;
}

// The last item is a field that has the keys: a letter opens it, with all of it chosen.
void open_by_typing(TabStops& stops) {
    const ImGuiIO& io = ImGui::GetIO();
    const auto& typed = io.InputQueueCharacters;
    if (stops.opening != 0 || ImGui::IsItemActive() || io.KeyCtrl || io.KeyAlt) return;
    if (std::none_of(typed.begin(), typed.end(), [](ImWchar letter) { return letter > ' '; })) return;
    stops.opening = ImGui::GetItemID();
    stops.waited = 0;
    hold_letters(stops);
    ImGui::SetKeyboardFocusHere(-1);
}

}  // namespace

int along_by_keys() {
    const int step = int{key_pressed(ImGuiKey_RightArrow, true)} - int{key_pressed(ImGuiKey_LeftArrow, true)};
    if (step != 0) ImGui::NavMoveRequestCancel();
    return step;
}

void begin_tab_stops(TabStops& stops) {
    stops.before = std::exchange(stops.order, {});
    const std::string focused = std::exchange(stops.focused, {});
    // What was asked for in the last frame is there by now, or gone.
    stops.wanted.clear();
    stops.first_of_card = false;
    stops.on_field = false;
    hand_over_letters(stops);
    const ImGuiIO& io = ImGui::GetIO();
    if (stops.before.empty() || io.KeyCtrl || io.KeyAlt || !key_pressed(ImGuiKey_Tab, true)) return;
    // ImGui would go on to the next field of the same panel.
    ImGui::NavMoveRequestCancel();
    const auto& order = stops.before;
    const auto at = std::find(order.begin(), order.end(), focused);
    const auto count = order.size(), here = static_cast<std::size_t>(at - order.begin());
    if (at == order.end())
        stops.wanted = io.KeyShift ? order.back() : order.front();
    else
        stops.wanted = order[(here + (io.KeyShift ? count - 1 : 1)) % count];
}

void tab_stop(TabStops& stops, const std::string& label) {
    if (!may_have_keys()) return;
    stops.order.push_back(label);
    if (stops.wanted == label) {
        stops.wanted.clear();
        ImGui::SetKeyboardFocusHere(-1);
    }
    if (!ImGui::IsItemFocused()) return;
    stops.focused = label;
    // Around what is drawn by hand, too.
    const ImGuiLastItemData& item = ImGui::GetCurrentContext()->LastItemData;
    ImGui::RenderNavHighlight(item.NavRect, item.ID);
    stops.on_field = is_typed_into();
    if (stops.on_field) open_by_typing(stops);
    // Space presses what has the keys; Enter does as well, where it does not end what is typed.
    const bool plain = !ImGui::GetIO().KeyCtrl && !ImGui::GetIO().KeyAlt;
    if (plain && !is_typed_into() && key_pressed(ImGuiKey_Enter)) ImGui::ActivateItem(ImGui::GetItemID());
}

}  // namespace battwright::window
