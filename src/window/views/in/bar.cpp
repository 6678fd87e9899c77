// The composition bar: each component a length of colour, the borders between them to be dragged.
#include <algorithm>
#include <cmath>

#include "app/bench/disagreement.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/shown_colours.hpp"
#include "forecast/forecast.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/in/in.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

void draw_piece(const Ui& ui, const Sheet& sheet, std::size_t i, const forecast::Forecast& forecast,
                const Pointing& pointing, ImVec2 low, ImVec2 high) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto shown = shown_colours(sheet.recipe.components[i], ui.catalogue);
    // Several colours lie one above the other in the piece, by share.
    float top = low.y;
    double all = 0.0;
    for (const double share : shown.shares) all += share;
    for (std::size_t k = 0; k < shown.colours.size(); ++k) {
        const float bottom = top + (high.y - low.y) * static_cast<float>(shown.shares[k] / all);
        list.AddRectFilled({low.x, top}, {high.x, bottom}, u32(shown.colours[k]));
        top = bottom;
    }
    if (pointing.now.count(i) > 0)
        list.AddRect({low.x + 1, low.y + 1}, {high.x - 1, high.y - 1}, u32(ui.theme.accent), 0.0f, 0,
                     ui.px(3.0f));
    const std::string share = std::to_string(std::lround(forecast.components[i].mass_pct)) + " %";
    const ImVec2 size = ImGui::CalcTextSize(share.c_str());
    if (size.x + ui.px(8.0f) > high.x - low.x) return;
    const ImVec2 at{0.5f * (low.x + high.x - size.x), 0.5f * (low.y + high.y - size.y)};
    // A small plate under the number: it must read on any fibre colour.
    list.AddRectFilled({at.x - ui.px(4.0f), at.y - ui.px(1.0f)},
                       {at.x + size.x + ui.px(4.0f), at.y + size.y + ui.px(1.0f)}, u32(ui.theme.panel),
                       ui.px(4.0f));
    list.AddText(at, u32(ui.theme.ink), share.c_str());
}

void drag_border(const Ui& ui, const Sheet& sheet, std::size_t i, double grams_per_pixel, InState& state) {
    if (ImGui::IsItemActivated()) {
        state.border = i;
        state.border_from = ImGui::GetIO().MousePos.x;
        state.border_start = sheet;
    }
    if (!ImGui::IsItemActive() || state.border != i) return;
    const float moved = ImGui::GetIO().MousePos.x - state.border_from;
    if (std::abs(moved) < 0.5f && sheet == state.border_start) return;
    // Whole tenths of a gram: nobody's scale shows more.
    const double grams = std::round(static_cast<double>(moved) * grams_per_pixel * 10.0) / 10.0;
    ui.ask.edit(move_border(state.border_start, i, grams), "move a border", true);
}

// With the keys on it: by a gram, or with Shift by a tenth of one.
void step_border(const Ui& ui, const Sheet& sheet, std::size_t i) {
    const ImGuiIO& io = ImGui::GetIO();
    if (!ImGui::IsItemFocused() || io.WantTextInput || io.KeyCtrl || io.KeyAlt) return;
    const int step = along_by_keys();
    if (step == 0) return;
    ui.ask.edit(move_border(sheet, i, step * (io.KeyShift ? 0.1 : 1.0)), "move a border", true);
}

}  // namespace

void view_bar(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, Pointing& pointing,
              InState& state, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float height = ui.px(40.0f);
    const std::size_t n = sheet.recipe.components.size();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    std::vector<float> borders{at.x};
    double sum = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        sum += forecast.components[i].mass_pct;
        borders.push_back(at.x + width * static_cast<float>(std::min(sum, 100.0) / 100.0));
    }
    for (std::size_t i = 0; i < n; ++i)
        draw_piece(ui, sheet, i, forecast, pointing, {borders[i], at.y}, {borders[i + 1], at.y + height});
    list.AddRect(at, {at.x + width, at.y + height}, u32(ui.theme.edge), ui.px(4.0f), 0, ui.px(1.0f));
    const double grams_per_pixel = forecast.total_grams / static_cast<double>(width);
    for (std::size_t i = 0; i + 1 < n; ++i) {
        const float x = borders[i + 1];
        const float grip = ui.px(8.0f);
        ImGui::SetCursorScreenPos({x - grip, at.y - ui.px(2.0f)});
        ImGui::PushID(static_cast<int>(sheet.marks[i].uid));
        ImGui::InvisibleButton("border", {2.0f * grip, height + ui.px(4.0f)});
        mark(ui, "border " + std::to_string(i + 1));
        const bool live = ImGui::IsItemHovered() || ImGui::IsItemActive();
        if (live) ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
        list.AddRectFilled({x - ui.px(2.0f), at.y - ui.px(3.0f)},
                           {x + ui.px(2.0f), at.y + height + ui.px(3.0f)},
                           u32(live ? ui.theme.accent : ui.theme.panel), ui.px(2.0f));
        list.AddRect({x - ui.px(2.0f), at.y - ui.px(3.0f)}, {x + ui.px(2.0f), at.y + height + ui.px(3.0f)},
                     u32(ui.theme.edge), ui.px(2.0f));
        if (!ImGui::IsItemActive())
            hover(ui, "Drag, or press Left and Right, to move weight from one neighbour to the other.");
        drag_border(ui, sheet, i, grams_per_pixel, state);
        step_border(ui, sheet, i);
        ImGui::PopID();
    }
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    if (ImGui::IsWindowHovered() && mouse.y >= at.y && mouse.y < at.y + height) {
        for (std::size_t i = 0; i < n; ++i) {
            if (mouse.x >= borders[i] && mouse.x < borders[i + 1]) pointing.next.insert(i);
        }
    }
    ImGui::SetCursorScreenPos({at.x, at.y + height});
    gap(ui, 4.0f);
}

}  // namespace battwright::window
