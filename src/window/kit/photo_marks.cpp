#include "window/kit/photo_marks.hpp"

#include <imgui_internal.h>

#include <algorithm>
#include <utility>

#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

void draw_marks(const Ui& ui, const app::PhotoMarks& marks, ImVec2 at, float scale) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto on_screen = [&](double x, double y) {
        return ImVec2{at.x + scale * static_cast<float>(x), at.y + scale * static_cast<float>(y)};
    };
    const ImU32 ink = u32(ui.theme.accent), rim = u32({1.0, 1.0, 1.0});
    if (const auto& area = marks.fibre) {
        const ImVec2 low = on_screen(area->x, area->y);
        const ImVec2 high = on_screen(area->x + area->width, area->y + area->height);
        list.AddRect(low, high, rim, 0.0f, 0, ui.px(4.0f));
        list.AddRect(low, high, ink, 0.0f, 0, ui.px(2.0f));
    }
    if (const auto& white = marks.white) {
        const ImVec2 c = on_screen(white->x, white->y);
        list.AddCircle(c, ui.px(9.0f), u32({0.0, 0.0, 0.0}), 24, ui.px(4.0f));
        list.AddCircle(c, ui.px(9.0f), rim, 24, ui.px(2.0f));
    }
}

// True when the frame was let go and is large enough to hold something.
bool drag(PhotoMarking& marking, const colour::Point& here, const Photo& photo, bool lasts) {
    const auto area = app::patch_between(*marking.drag_from, here, photo.width(), photo.height());
    const bool large_enough = area.width >= 3.0 && area.height >= 3.0;
    if (large_enough) marking.marks.fibre = area;
    if (lasts) return false;
    marking.drag_from.reset();
    return large_enough;
}

// Enter at one corner and at the other, or on what is white.
bool mark_by_keys(PhotoMarking& marking, const std::optional<colour::Point>& pressed, const Photo& photo) {
    if (pressed && marking.tool == MarkTool::white) {
        marking.marks.white = pressed;
        marking.tool = MarkTool::fibre;
        return true;
    }
    if (pressed && !marking.drag_from) {
        marking.drag_from = pressed;
        marking.by_keys = true;
        return false;
    }
    return marking.drag_from && marking.by_keys && drag(marking, *marking.cursor, photo, !pressed);
}

}  // namespace

bool keys_point() {
    const ImGuiContext& context = *ImGui::GetCurrentContext();
    return ImGui::IsItemFocused() && context.NavDisableMouseHover && !context.NavDisableHighlight;
}

std::optional<colour::Point> pressed_by_keys(const Ui& ui, bool pressed, const Photo& photo, ImVec2 at,
                                             float scale, std::optional<colour::Point>& cursor) {
    if (!keys_point()) return std::nullopt;
    const double wide = photo.width(), high = photo.height();
    if (!cursor) cursor = colour::Point{0.5 * wide, 0.5 * high};
    const int along = along_by_keys();
    const int down = int{key_pressed(ImGuiKey_DownArrow, true)} - int{key_pressed(ImGuiKey_UpArrow, true)};
    if (along != 0 || down != 0) {
        ImGui::NavMoveRequestCancel();  // else the focus would walk off to a neighbour
        const bool fine = ImGui::GetIO().KeyShift;
        const auto step = [fine](double whole) { return fine ? 1.0 : std::max(1.0, whole / 40.0); };
        cursor->x = std::clamp(cursor->x + along * step(wide), 0.5, wide - 0.5);
        cursor->y = std::clamp(cursor->y + down * step(high), 0.5, high - 0.5);
        ui.ask.another_frame = true;
    }
    const ImVec2 c{at.x + scale * static_cast<float>(cursor->x),
                   at.y + scale * static_cast<float>(cursor->y)};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    for (const auto& [tone, width] : {std::pair{0.0, 4.0f}, {1.0, 2.0f}})
        for (const ImVec2 arm : {ImVec2{ui.px(12.0f), 0.0f}, {0.0f, ui.px(12.0f)}})
            list.AddLine({c.x - arm.x, c.y - arm.y}, {c.x + arm.x, c.y + arm.y}, u32({tone, tone, tone}),
                         ui.px(width));
    return pressed && !ImGui::IsMouseReleased(ImGuiMouseButton_Left) ? cursor : std::nullopt;
}

bool view_photo_marks(const Ui& ui, const char* label, const Photo& photo, PhotoMarking& marking,
                      ImVec2 room) {
    const float scale =
        std::min(room.x / static_cast<float>(photo.width()), room.y / static_cast<float>(photo.height()));
    const ImVec2 size{std::max(1.0f, scale * static_cast<float>(photo.width())),
                      std::max(1.0f, scale * static_cast<float>(photo.height()))};
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool pressed = ImGui::InvisibleButton(label, size);
    mark(ui, label);
    ImGui::GetWindowDrawList()->AddImage(photo.id(), at, {at.x + size.x, at.y + size.y});
    const auto keyed = pressed_by_keys(ui, pressed, photo, at, scale, marking.cursor);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const colour::Point here{static_cast<double>((mouse.x - at.x) / scale),
                             static_cast<double>((mouse.y - at.y) / scale)};
    if (ImGui::IsItemHovered()) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    bool done = mark_by_keys(marking, keyed, photo);
    const bool by_mouse = ImGui::IsItemActivated() && ImGui::IsMouseClicked(ImGuiMouseButton_Left);
    if (by_mouse && marking.tool == MarkTool::white) {
        marking.marks.white = here;
        marking.tool = MarkTool::fibre;
        done = true;
    } else if (by_mouse) {
        marking.drag_from = here;
        marking.by_keys = false;
    }
    const bool held = ImGui::IsMouseDown(ImGuiMouseButton_Left);
    if (marking.drag_from && !marking.by_keys && drag(marking, here, photo, held)) done = true;
    draw_marks(ui, marking.marks, at, scale);
    return done;
}

void view_mark_tools(const Ui& ui, const char* name, PhotoMarking& marking) {
    const auto chosen =
        choices(ui, name, {"mark the fibre", "point at white"}, marking.tool == MarkTool::white ? 1 : 0);
    if (chosen) marking.tool = *chosen == 1 ? MarkTool::white : MarkTool::fibre;
    paragraph(
        ui,
        marking.tool == MarkTool::white
            ? "Press on something that is white in truth: a sheet of paper beside the fibre. The photo's "
              "light is then taken out."
            : "Drag a frame over the fibre and nothing but the fibre, or press Enter at two corners of it. "
              "Without one the whole photo counts.",
        ui.theme.quiet);
}

}  // namespace battwright::window
