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

}  // namespace

void begin_tab_stops(TabStops& stops) {
    stops.before = std::exchange(stops.order, {});
    const std::string focused = std::exchange(stops.focused, {});
    // What was asked for in the last frame is there by now, or gone.
    stops.wanted.clear();
    stops.first_of_card = false;
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
    // Space presses what has the keys; Enter does as well, where it does not end what is typed.
    const bool plain = !ImGui::GetIO().KeyCtrl && !ImGui::GetIO().KeyAlt;
    if (plain && !is_typed_into() && key_pressed(ImGuiKey_Enter)) ImGui::ActivateItem(ImGui::GetItemID());
}

}  // namespace battwright::window
