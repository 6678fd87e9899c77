// Picking a colour off a photo.
#include <algorithm>
#include <optional>

#include "colour/spaces.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

// The photo fitted into what the card leaves; the colour under a press.
std::optional<colour::Srgb> pick_from(const Ui& ui, const Photo& photo, float foot) {
    const ImVec2 room{ImGui::GetContentRegionAvail().x, ImGui::GetContentRegionAvail().y - foot};
    const float scale =
        std::min(room.x / static_cast<float>(photo.width()), room.y / static_cast<float>(photo.height()));
    const ImVec2 size{scale * static_cast<float>(photo.width()), scale * static_cast<float>(photo.height())};
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool pressed = ImGui::InvisibleButton("photo", {std::max(size.x, 1.0f), std::max(size.y, 1.0f)});
    mark(ui, "photo");
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddImage(photo.id(), at, {at.x + size.x, at.y + size.y});
    if (!ImGui::IsItemHovered()) return std::nullopt;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const auto colour =
        photo.around(static_cast<int>((mouse.x - at.x) / scale), static_cast<int>((mouse.y - at.y) / scale));
    list.AddCircleFilled({mouse.x + ui.px(26.0f), mouse.y - ui.px(26.0f)}, ui.px(18.0f), u32(colour));
    list.AddCircle({mouse.x + ui.px(26.0f), mouse.y - ui.px(26.0f)}, ui.px(18.0f), u32(readable_on(colour)),
                   0, ui.px(2.0f));
    if (pressed) return colour;
    return std::nullopt;
}

}  // namespace

std::optional<colour::Srgb> view_photo(const Ui& ui, const Photo& photo, PhotoOf of) {
    std::optional<colour::Srgb> picked;
    if (!begin_card(ui, "photo card", "A colour from a photo", {ui.px(820.0f), ui.px(640.0f)})) return picked;
    const auto typed = field(ui, "photo file", "", ImGui::GetContentRegionAvail().x,
                             "the picture's file, or let the picture fall on this window");
    if (typed && !typed->empty()) ui.ask.photos.push_back({of, *typed});
    const float foot = ImGui::GetFrameHeight() + ui.px(26.0f);
    if (photo.empty())
        paragraph(ui,
                  "Press where the colour is; the mean of a few pixels is taken. A photo's colours are only "
                  "as true "
                  "as its light and its camera.",
                  ui.theme.ink);
    else
        picked = pick_from(ui, photo, foot);
    ImGui::SetCursorPosY(ImGui::GetWindowHeight() - ImGui::GetFrameHeight() - ui.px(18.0f));
    const bool escape = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false) && ui.typing.id == 0;
    if (button(ui, "Not now##photo leave", Tone::plain, ui.px(110.0f)) || escape || picked)
        ImGui::CloseCurrentPopup();
    end_card();
    return picked;
}

}  // namespace battwright::window
