// The cloth unrolled to scale, with the fibre that lies on it: round from left to right, across from top to
// bottom. A stroke is dragged, or moved with the arrow keys and laid with Enter.
#include <GLFW/glfw3.h>

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/lay/canvas.hpp"
#include "app/lay/place_words.hpp"
#include "app/settings.hpp"
#include "app/state.hpp"
#include "measure/unit_tables.hpp"
#include "window/views/drum/canvas.hpp"

namespace battwright::window {
namespace {

constexpr float left_margin = 56.0f, ruler_foot = 20.0f;  // design pixels, for the rulers
constexpr float a_press = 4.0f;                           // pixels a hand moves without drawing

// The surface on the screen.
struct Cloth {
    ImVec2 low, high;
    const Surface& surface;

    float scale() const { return (high.x - low.x) / static_cast<float>(surface.along_mm); }
    ImVec2 at(double across_mm, double along_mm) const {
        return {low.x + static_cast<float>(along_mm) * scale(),
                low.y + static_cast<float>(across_mm) * scale()};
    }
    double across_of(float y) const { return static_cast<double>((y - low.y) / scale()); }
    double along_of(float x) const { return static_cast<double>((x - low.x) / scale()); }
};

Cloth cloth_in(const OnCanvas& on, ImVec2 at, float width, float height) {
    const Ui& ui = on.ui;
    const float wide = width - ui.px(left_margin), high = height - ui.px(ruler_foot);
    const float scale = std::min(wide / static_cast<float>(on.surface.along_mm),
                                 high / static_cast<float>(on.surface.across_mm));
    const ImVec2 low{at.x + ui.px(left_margin), at.y};
    return {low,
            {low.x + std::floor(scale * static_cast<float>(on.surface.along_mm)),
             low.y + std::floor(scale * static_cast<float>(on.surface.across_mm))},
            on.surface};
}

// Where little or nothing lies, the cloth shows through.
void draw_bare(const Ui& ui, const Cloth& cloth, const LaidPicture& picture) {
    const bool turns = cloth.surface.turns;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto columns = static_cast<int>(picture.columns), rows = static_cast<int>(picture.rows);
    if (columns == 0 || rows == 0) return;
    // At the corners of cells: the mean of those that meet there.
    const auto bare_at = [&](int x, int y) {
        float sum = 0.0f, count = 0.0f;
        for (int j = y - 1; j <= y; ++j)
            for (int i = x - 1; i <= x; ++i) {
                if (j < 0 || j >= rows) continue;
                const int round = turns ? (i + columns) % columns : std::clamp(i, 0, columns - 1);
                sum += picture.bare[static_cast<std::size_t>(j) * static_cast<std::size_t>(columns) +
                                    static_cast<std::size_t>(round)];
                count += 1.0f;
            }
        return sum / count;
    };
    const float wide = (cloth.high.x - cloth.low.x) / static_cast<float>(columns);
    const float tall = (cloth.high.y - cloth.low.y) / static_cast<float>(rows);
    const auto colour = [&](int x, int y) { return u32(ui.theme.raised, bare_at(x, y)); };
    for (int y = 0; y < rows; ++y)
        for (int x = 0; x < columns; ++x) {
            if (picture.bare[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) +
                             static_cast<std::size_t>(x)] < 0.004f)
                continue;
            const ImVec2 low{cloth.low.x + wide * static_cast<float>(x),
                             cloth.low.y + tall * static_cast<float>(y)};
            list.AddRectFilledMultiColor(low, {low.x + wide, low.y + tall}, colour(x, y), colour(x + 1, y),
                                         colour(x + 1, y + 1), colour(x, y + 1));
        }
}

void draw_borders(const OnCanvas& on, const Cloth& cloth) {
    if (on.canvas.brush.snap == Snap::none) return;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const int parts = on.canvas.brush.snap == Snap::quarters ? 4 : 3;
    for (int k = 1; k < parts; ++k) {
        const double part = static_cast<double>(k) / parts;
        const ImVec2 top = cloth.at(0.0, part * on.surface.along_mm);
        const ImVec2 left = cloth.at(part * on.surface.across_mm, 0.0);
        for (const float shift : {1.0f, 0.0f}) {
            const ImU32 ink = shift > 0.0f ? u32(on.ui.theme.panel, 0.7f) : u32(on.ui.theme.ink, 0.7f);
            list.AddLine({top.x + shift, cloth.low.y}, {top.x + shift, cloth.high.y}, ink);
            list.AddLine({cloth.low.x, left.y + shift}, {cloth.high.x, left.y + shift}, ink);
        }
    }
}

void ruler_words(const Ui& ui, ImVec2 at, const std::string& words, float leaning) {
    const float wide = width_of(ui.fonts.small, words);
    ImGui::GetWindowDrawList()->AddText(ui.fonts.small, ui.fonts.small->FontSize,
                                        {at.x - leaning * wide, at.y}, u32(ui.theme.quiet), words.c_str());
}

void draw_rulers(const OnCanvas& on, const Cloth& cloth) {
    const Ui& ui = on.ui;
    const auto& row = measure::row_of(measure::length_units, ui.settings.length);
    const double unit = row.size, step = row.ruler_step * unit;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float small = ui.fonts.small->FontSize;
    for (double along = step; along < on.surface.along_mm - 0.8 * step; along += step) {
        const ImVec2 at = cloth.at(on.surface.across_mm, along);
        list.AddLine(at, {at.x, at.y + ui.px(4.0f)}, u32(ui.theme.edge));
        ruler_words(ui, {at.x, at.y + ui.px(4.0f)}, measure::write_number(std::round(along / unit)), 0.5f);
    }
    const float under = cloth.high.y + ui.px(4.0f);
    ruler_words(ui, {cloth.low.x, under}, std::string(on.surface.begins), 0.0f);
    ruler_words(
        ui, {cloth.high.x, under},
        measure::print_length(on.surface.along_mm, ui.settings.length) + ", " + std::string(on.surface.ends),
        1.0f);
    const float beside = cloth.low.x - ui.px(6.0f);
    ruler_words(ui, {beside, cloth.low.y}, "left", 1.0f);
    ruler_words(ui, {beside, cloth.high.y - 2.0f * small}, "right", 1.0f);
    ruler_words(ui, {beside, cloth.high.y - small},
                measure::print_length(on.surface.across_mm, ui.settings.length), 1.0f);
    for (double across = step; across < on.surface.across_mm - 0.4 * step; across += step) {
        const ImVec2 at = cloth.at(across, 0.0);
        list.AddLine({at.x - ui.px(4.0f), at.y}, at, u32(ui.theme.edge));
        ruler_words(ui, {beside, at.y - 0.5f * small}, measure::write_number(std::round(across / unit)),
                    1.0f);
    }
}

// Light and dark, so that it is seen on any fibre.
void outline(const Ui& ui, const Cloth& cloth, const Region& region, const colour::Srgb& ink, float thick) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 low = cloth.at(region.across_from, region.along_from);
    const ImVec2 high = cloth.at(region.across_to, region.along_to);
    list.AddRect(low, high, u32(ui.theme.panel), 0.0f, 0, ui.px(thick + 2.0f));
    list.AddRect(low, high, u32(ink), 0.0f, 0, ui.px(thick));
}

void draw_strokes(const OnCanvas& on, const Cloth& cloth, bool focused) {
    const auto& layings = on.sheet().recipe.carding.layings;
    for (const std::size_t i : on.canvas.chosen) {
        if (i >= layings.size()) continue;
        const recipe::Laying& laying = layings[i];
        outline(on.ui, cloth, region_of(laying.across, laying.round, recipe::way_of(laying), on.surface),
                on.ui.theme.ink, 1.0f);
    }
    outline(on.ui, cloth, region_of(on.canvas.brush, on.surface), on.ui.theme.accent, focused ? 2.0f : 1.0f);
}

std::optional<double> thickness_at(const Cloth& cloth, const LaidPicture& picture) {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const double across = cloth.across_of(mouse.y) / cloth.surface.across_mm;
    const double along = cloth.along_of(mouse.x) / cloth.surface.along_mm;
    if (picture.g_cm2.empty() || across < 0.0 || across >= 1.0 || along < 0.0 || along >= 1.0)
        return std::nullopt;
    const auto row = static_cast<std::size_t>(across * static_cast<double>(picture.rows));
    const auto column = static_cast<std::size_t>(along * static_cast<double>(picture.columns));
    return static_cast<double>(picture.g_cm2[row * picture.columns + column]);
}

Region within(Region region, const Surface& surface) {
    region.across_from = std::clamp(region.across_from, 0.0, surface.across_mm);
    region.across_to = std::clamp(region.across_to, 0.0, surface.across_mm);
    region.along_from = std::clamp(region.along_from, 0.0, surface.along_mm);
    region.along_to = std::clamp(region.along_to, 0.0, surface.along_mm);
    return region;
}

// The stroke as far as it has been drawn, over the sheet as it was before it.
void draw_stroke(OnCanvas& on, const Region& region) {
    const Brush brush = placed(on.canvas.brush, region, on.surface);
    Laid laid = lay_stroke(on.state.start, brush, on.batts);
    on.canvas.brush = placed(on.canvas.brush, within(region, on.surface), on.surface);
    if (laid.sheet == on.state.start) {
        on.canvas.line = std::move(laid.line);
        return;
    }
    const std::string line = laid.line;
    const double grams = laid.grams;
    on.take(std::move(laid), "lay a stroke", true);
    on.canvas.line = line.empty()
                         ? mass(on.ui, grams) + " laid, " +
                               across_in_words(on.canvas.brush.across, on.ui.settings.length) + " across."
                         : line;
}

// The last item is the surface.
void take_pointer(OnCanvas& on, const Cloth& cloth) {
    CanvasState& state = on.state;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    if (ImGui::IsItemActivated() && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
        state.drawing = true;
        state.moved = false;
        state.across_mm = cloth.across_of(mouse.y);
        state.along_mm = cloth.along_of(mouse.x);
        state.start = on.sheet();
    }
    if (!state.drawing) return;
    if (ImGui::IsMouseDragging(ImGuiMouseButton_Left, a_press)) state.moved = true;
    const double across = cloth.across_of(mouse.y), along = cloth.along_of(mouse.x);
    if (state.moved && ImGui::IsItemActive())
        draw_stroke(on, {std::min(state.across_mm, across), std::max(state.across_mm, across),
                         std::min(state.along_mm, along), std::max(state.along_mm, along)});
    if (ImGui::IsMouseDown(ImGuiMouseButton_Left)) return;
    state.drawing = false;
    if (state.moved) return;
    // Only pressed: one of them, there.
    const double half = 0.5 * dab_mm(on.canvas.brush);
    draw_stroke(
        on, {state.across_mm - half, state.across_mm + half, state.along_mm - half, state.along_mm + half});
}

void take_keys(OnCanvas& on, bool pressed) {
    const ImGuiIO& io = ImGui::GetIO();
    if (pressed && !ImGui::IsMouseReleased(ImGuiMouseButton_Left)) {
        on.take(lay_stroke(on.sheet(), on.canvas.brush, on.batts), "lay a stroke");
        return;
    }
    if (!ImGui::IsItemFocused() || io.WantTextInput || io.KeyCtrl || io.KeyAlt) return;
    const int along = int{ImGui::IsKeyPressed(GLFW_KEY_RIGHT)} - int{ImGui::IsKeyPressed(GLFW_KEY_LEFT)};
    const int across = int{ImGui::IsKeyPressed(GLFW_KEY_DOWN)} - int{ImGui::IsKeyPressed(GLFW_KEY_UP)};
    if (along == 0 && across == 0) return;
    ImGui::NavMoveRequestCancel();  // else the focus would walk off to a neighbour
    on.canvas.line.clear();
    on.canvas.brush = io.KeyShift ? grown(on.canvas.brush, across, along, on.surface)
                                  : moved(on.canvas.brush, across, along, on.surface);
}

}  // namespace

ImVec2 surface_margins(const Ui& ui) {
    return {ui.px(left_margin), ui.px(ruler_foot)};
}

void view_surface(OnCanvas& on, float width, float height) {
    const Ui& ui = on.ui;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const Cloth cloth = cloth_in(on, at, width, height);
    const ImVec2 size{cloth.high.x - cloth.low.x, cloth.high.y - cloth.low.y};
    on.state.pictures.surface_wanted = {static_cast<int>(size.x), static_cast<int>(size.y)};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(cloth.low, cloth.high, u32(ui.theme.raised));
    if (ImTextureID picture = on.state.pictures.surface()) {
        list.AddImage(picture, cloth.low, cloth.high);
        draw_bare(ui, cloth, ui.app.laid.value());
    }
    ImGui::SetCursorScreenPos(cloth.low);
    const bool pressed = ImGui::InvisibleButton("surface", size);
    mark(ui, "surface");
    const bool focused = ImGui::IsItemFocused();
    if (ImGui::IsItemHovered() && !ImGui::IsItemActive()) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    if (ImGui::IsItemHovered()) on.here_g_cm2 = thickness_at(cloth, ui.app.laid.value());
    take_pointer(on, cloth);
    take_keys(on, pressed);
    draw_borders(on, cloth);
    list.AddRect(cloth.low, cloth.high, u32(focused ? ui.theme.accent : ui.theme.edge), 0.0f, 0,
                 ui.px(focused ? 2.0f : 1.0f));
    list.PushClipRect(cloth.low, cloth.high, true);
    draw_strokes(on, cloth, focused);
    list.PopClipRect();
    draw_rulers(on, cloth);
    ImGui::SetCursorScreenPos({at.x, cloth.high.y + ui.px(ruler_foot)});
}

}  // namespace battwright::window
