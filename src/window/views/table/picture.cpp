// The picture on the table, and what lies over it.
#include <algorithm>
#include <cmath>

#include "app/settings.hpp"
#include "app/table/table_session.hpp"
#include "window/views/table/table.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

// How the table is moved about in one frame: by the wheel, and by a drag.
void move_by_hand(const Ui& ui, TableChoice& choice, const TableMade& made, ImVec2 low) {
    const ImGuiIO& io = ImGui::GetIO();
    const strip::TableFrame frame = ui.table.frame();
    strip::TableSettings ask = ui.table.asked();
    ask.zoom = choice.zoom;
    ask.middle_x = choice.middle_x;
    ask.middle_y = choice.middle_y;
    if (ImGui::IsItemHovered() && io.MouseWheel != 0.0f)
        ask = strip::zoomed(ask, made.picture.size, frame, std::pow(1.2, double{io.MouseWheel}),
                            double{io.MousePos.x - low.x}, double{io.MousePos.y - low.y});
    if (ImGui::IsItemActive() && (io.MouseDelta.x != 0.0f || io.MouseDelta.y != 0.0f))
        ask = strip::moved(ask, made.picture.size, frame, double{io.MouseDelta.x}, double{io.MouseDelta.y});
    choice.zoom = ask.zoom;
    choice.middle_x = ask.middle_x;
    choice.middle_y = ask.middle_y;
}

// The last picture where it belongs on the table as it is looked at now.
void draw_made(const TableState& state, const TableMade& made, const strip::TableFrame& now, ImVec2 low,
               ImVec2 high) {
    const strip::TableFrame& then = made.picture.frame;
    const auto px = static_cast<float>(now.pixels_per_mm);
    const float times = px / static_cast<float>(then.pixels_per_mm);
    const ImVec2 at{low.x + static_cast<float>(then.left_mm - now.left_mm) * px,
                    low.y + static_cast<float>(then.top_mm - now.top_mm) * px};
    const ImVec2 end{at.x + times * static_cast<float>(then.width),
                     at.y + times * static_cast<float>(then.height)};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.PushClipRect(low, high, true);
    list.AddImage(state.page.id(), at, end);
    list.PopClipRect();
}

void words_chip(const Ui& ui, ImFont* font, const std::string& words, ImVec2 at) {
    const float wide = width_of(font, words), tall = font->FontSize;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled({at.x - ui.px(5.0f), at.y - ui.px(2.0f)},
                       {at.x + wide + ui.px(5.0f), at.y + tall + ui.px(2.0f)}, u32(ui.theme.panel),
                       ui.px(4.0f));
    list.AddText(font, font->FontSize, at, u32(ui.theme.ink), words.c_str());
}

void draw_labels(const Ui& ui, const TableMade& made, const strip::TableFrame& now, ImVec2 low, ImVec2 high) {
    ImGui::GetWindowDrawList()->PushClipRect(low, high, true);
    for (const auto& label : made.picture.labels) {
        const float x = low.x + static_cast<float>((label.x_mm - now.left_mm) * now.pixels_per_mm);
        const float y = low.y + static_cast<float>((label.y_mm - now.top_mm) * now.pixels_per_mm);
        words_chip(ui, ui.fonts.bold, label.words,
                   {std::max(x, low.x) + ui.px(6.0f),
                    std::max(y - ui.fonts.bold->FontSize - ui.px(5.0f), low.y + ui.px(4.0f))});
    }
    ImGui::GetWindowDrawList()->PopClipRect();
}

void draw_scale(const Ui& ui, double pixels_per_mm, ImVec2 low, ImVec2 high) {
    const auto bar = strip::scale_bar(pixels_per_mm, 0.25 * double{high.x - low.x}, ui.settings.length);
    const auto wide = static_cast<float>(bar.px);
    const float tall = ui.px(10.0f), thick = ui.px(2.0f);
    const ImVec2 at{low.x + ui.px(14.0f), high.y - ui.px(26.0f)};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float words = width_of(ui.fonts.body, bar.words);
    list.AddRectFilled({at.x - ui.px(6.0f), at.y - ui.px(6.0f)},
                       {at.x + wide + words + ui.px(16.0f), at.y + ui.px(18.0f)}, u32(ui.theme.panel),
                       ui.px(4.0f));
    const ImU32 ink = u32(ui.theme.ink);
    list.AddRectFilled({at.x, at.y + 0.5f * (tall - thick)}, {at.x + wide, at.y + 0.5f * (tall + thick)},
                       ink);
    for (const float x : {at.x, at.x + wide - thick})
        list.AddRectFilled({x, at.y}, {x + thick, at.y + tall}, ink);
    list.AddText(ui.fonts.body, ui.fonts.body->FontSize,
                 {at.x + wide + ui.px(8.0f), at.y + 0.5f * (tall - ui.fonts.body->FontSize)}, ink,
                 bar.words.c_str());
}

// A press on the run of the yarn goes there, enlarged when all was seen.
void go_along(const Ui& ui, TableChoice& choice, const TableMade& made, ImVec2 low, ImVec2 high) {
    ImGui::SetCursorScreenPos(low);
    ImGui::InvisibleButton("table along", {high.x - low.x, high.y - low.y + ui.px(4.0f)});
    mark(ui, "table along");
    hover(ui,
          "The colours of all the yarn, from the first metre to the last; marked is what is seen below. "
          "Press or drag, or Left and Right, to see it there.");
    if (made.request.ask.view == StripView::skein) return;
    const bool upwards = made.request.ask.view == StripView::swatch;
    const int keyed = ImGui::IsItemFocused() ? along_by_keys() : 0;
    const bool pressed = ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left);
    if (keyed == 0 && !pressed) return;
    const double now = upwards ? 1.0 - choice.middle_y : choice.middle_y;
    const double wanted =
        pressed ? double{ImGui::GetIO().MousePos.x - low.x} / double{high.x - low.x} : now + 0.05 * keyed;
    const double share = std::clamp(wanted, 0.0, 1.0);
    // Rows of winding run downwards, those of knitting upwards.
    choice.middle_y = upwards ? 1.0 - share : share;
    choice.zoom = std::max(choice.zoom, 4.0);
}

}  // namespace

void view_table_picture(const Ui& ui, TableState& state, ImVec2 low, ImVec2 high) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(low, high, u32(ui.theme.ground));
    ImGui::SetCursorScreenPos(low);
    ImGui::InvisibleButton("table picture", {std::max(1.0f, high.x - low.x), std::max(1.0f, high.y - low.y)});
    mark(ui, "table picture");
    const auto& latest = ui.table.shown().latest;
    if (latest && latest->picture.remark.empty() && !state.page.empty()) {
        move_by_hand(ui, state.choice, *latest, low);
        const strip::TableFrame now = ui.table.frame();
        draw_made(state, *latest, now, low, high);
        draw_labels(ui, *latest, now, low, high);
        draw_scale(ui, now.pixels_per_mm, low, high);
        const auto& run = latest->picture.run;
        if (!run.rows.empty()) {
            const ImVec2 top{low.x, low.y - ui.px(42.0f)}, bottom{high.x, low.y - ui.px(8.0f)};
            go_along(ui, state.choice, *latest, top, bottom);
            draw_yarn_run(ui, run.rows, run.from, run.to, top, bottom);
        }
    }
    list.AddRect(low, high, u32(ui.theme.edge));
}

}  // namespace battwright::window
