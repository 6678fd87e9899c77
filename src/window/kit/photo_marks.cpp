#include "window/kit/photo_marks.hpp"

#include <algorithm>

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
bool drag(PhotoMarking& marking, const colour::Point& here, const Photo& photo) {
    const auto area = app::patch_between(*marking.drag_from, here, photo.width(), photo.height());
    const bool large_enough = area.width >= 3.0 && area.height >= 3.0;
    if (large_enough) marking.marks.fibre = area;
    if (ImGui::IsMouseDown(ImGuiMouseButton_Left)) return false;
    marking.drag_from.reset();
    return large_enough;
}

}  // namespace

bool view_photo_marks(const Ui& ui, const char* label, const Photo& photo, PhotoMarking& marking,
                      ImVec2 room) {
    const float scale =
        std::min(room.x / static_cast<float>(photo.width()), room.y / static_cast<float>(photo.height()));
    const ImVec2 size{std::max(1.0f, scale * static_cast<float>(photo.width())),
                      std::max(1.0f, scale * static_cast<float>(photo.height()))};
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton(label, size);
    mark(ui, label);
    ImGui::GetWindowDrawList()->AddImage(photo.id(), at, {at.x + size.x, at.y + size.y});
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const colour::Point here{static_cast<double>((mouse.x - at.x) / scale),
                             static_cast<double>((mouse.y - at.y) / scale)};
    if (ImGui::IsItemHovered()) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    bool done = false;
    if (ImGui::IsItemActivated() && marking.tool == MarkTool::white) {
        marking.marks.white = here;
        marking.tool = MarkTool::fibre;
        done = true;
    } else if (ImGui::IsItemActivated()) {
        marking.drag_from = here;
    }
    if (marking.drag_from && drag(marking, here, photo)) done = true;
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
            : "Drag a frame over the fibre and nothing but the fibre. Without one the whole photo counts.",
        ui.theme.quiet);
}

}  // namespace battwright::window
