// Length against thickness, to be dragged along.
#include <GLFW/glfw3.h>
#include <imgui_internal.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "app/yarn/yarn_edits.hpp"
#include "app/yarn/yarn_plot.hpp"
#include "measure/unit_tables.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/out/yarn.hpp"

namespace battwright::window {
namespace {

struct Area {
    ImVec2 low, high;  // of the plot itself
    YarnPlot plot;

    float x(double place) const { return low.x + (high.x - low.x) * static_cast<float>(place); }
    float y(double place) const { return high.y - (high.y - low.y) * static_cast<float>(place); }
    ImVec2 at(double wpi, double metres) const {
        return {x(std::clamp(plot.x(wpi), 0.0, 1.0)), y(std::clamp(plot.y(metres), 0.0, 1.02))};
    }
    double wpi_at(float pixel) const {
        return snapped_wpi(plot, static_cast<double>((pixel - low.x) / (high.x - low.x)));
    }
};

// Bands and the names of the classes above them, each name as near to its band as the edges let it.
void draw_bands(const Ui& ui, const Area& area, const yarn::YarnForecast& forecast, float top) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    for (const PlotBand& band : bands_of(area.plot)) {
        const float from = area.x(band.from), to = area.x(band.to);
        if (band.shaded) list.AddRectFilled({from, area.low.y}, {to, area.high.y}, u32(ui.theme.raised));
        const bool planned = band.name == forecast.class_name;
        ImFont* font = planned ? ui.fonts.bold : ui.fonts.small;
        const float half = 0.5f * width_of(font, band.name);
        const float middle = std::clamp(0.5f * (from + to), area.low.x + half, area.high.x - half);
        const float row = top + (band.lower_row ? ui.px(15.0f) : 0.0f) - (planned ? ui.px(1.0f) : 0.0f);
        put_text(font, planned ? ui.theme.ink : ui.theme.quiet, {middle, row}, band.name, 0.5f);
    }
}

void draw_axes(const Ui& ui, const Area& area) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    ImFont* font = ui.fonts.small;
    const measure::YarnLengthUnit unit = yarn_length_unit(ui.settings);
    const double gap_x = static_cast<double>(ui.px(30.0f) / (area.high.x - area.low.x));
    const double gap_y = static_cast<double>(ui.px(19.0f) / (area.high.y - area.low.y));
    for (const PlotTick& tick : length_ticks(area.plot, unit, gap_y)) {
        const float y = area.y(tick.at);
        list.AddLine({area.low.x, y}, {area.high.x, y}, u32(ui.theme.line), ui.px(1.0f));
        put_text(font, ui.theme.quiet, {area.low.x - ui.px(6.0f), y - ui.px(9.0f)}, tick.label, 1.0f);
    }
    for (const PlotTick& tick : wraps_ticks(area.plot, gap_x)) {
        const float x = area.x(tick.at);
        list.AddLine({x, area.high.y}, {x, area.high.y + ui.px(4.0f)}, u32(ui.theme.edge), ui.px(1.0f));
        put_text(font, ui.theme.quiet, {x, area.high.y + ui.px(4.0f)}, tick.label, 0.5f);
    }
    list.AddLine({area.low.x, area.high.y}, area.high, u32(ui.theme.edge), ui.px(1.0f));
    list.AddLine(area.low, {area.low.x, area.high.y}, u32(ui.theme.edge), ui.px(1.0f));
    put_text(font, ui.theme.quiet, {area.high.x, area.high.y + ui.px(19.0f)},
             "wraps per inch: finer to the right", 1.0f);
    put_text(font, ui.theme.quiet, {area.low.x - ui.px(6.0f), area.low.y - ui.px(31.0f)},
             std::string(measure::row_of(measure::yarn_length_units, unit).plural), 1.0f);
}

// Beyond the finest sensible yarn the plot is hatched, with a line at the middle of its range and a wash of
// colour over the range.
void draw_limit(const Ui& ui, const Area& area, const yarn::YarnForecast& forecast) {
    const auto held = [&area](double wpi) {
        return area.x(std::clamp(area.plot.x(std::max(wpi, area.plot.from_wpi)), 0.0, 1.0));
    };
    ImGui::GetWindowDrawList()->AddRectFilled({held(forecast.finest_wpi_low), area.low.y},
                                              {held(forecast.finest_wpi_high), area.high.y},
                                              u32(ui.theme.warning, 0.1f));
    const double place = area.plot.x(std::max(forecast.finest_wpi, area.plot.from_wpi));
    if (!(place < 1.0)) return;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 low{area.x(place), area.low.y};
    list.PushClipRect(low, area.high, true);
    list.AddRectFilled(low, area.high, u32(ui.theme.ground, 0.6f));
    const float height = area.high.y - area.low.y;
    for (float x = low.x - height; x < area.high.x; x += ui.px(9.0f))
        list.AddLine({x, area.high.y}, {x + height, area.low.y}, u32(ui.theme.edge, 0.55f), ui.px(1.0f));
    list.PopClipRect();
    list.AddLine(low, {low.x, area.high.y}, u32(ui.theme.warning), ui.px(2.0f));
}

// On a plate, since the bands and the line to the axis run under it.
void words_on_limit(const Ui& ui, const Area& area, const yarn::YarnForecast& forecast) {
    const auto whole = [](double value) { return std::to_string(std::lround(value)); };
    const std::array<std::string, 3> lines{
        "finest sensible: " + print_finest(forecast),
        "a single needs " + whole(forecast.least_fibres) + " fibres across,",
        "as thin as planned it has " + whole(forecast.fibres_wanted)};
    const ImVec2 at{area.low.x + ui.px(8.0f), area.low.y + ui.px(3.0f)};
    // In a low plot three lines would lie over the curve: the first says it.
    const bool low = area.high.y - area.low.y < ui.px(150.0f);
    const float wide = low ? width_of(ui.fonts.small, lines[0])
                           : std::max({width_of(ui.fonts.bold, lines[0]), width_of(ui.fonts.small, lines[1]),
                                       width_of(ui.fonts.small, lines[2])});
    ImGui::GetWindowDrawList()->AddRectFilled({at.x - ui.px(5.0f), at.y},
                                              {at.x + wide + ui.px(5.0f), at.y + ui.px(low ? 19.0f : 54.0f)},
                                              u32(ui.theme.panel, 0.88f), ui.px(4.0f));
    put_text(low ? ui.fonts.small : ui.fonts.bold, ui.theme.warning, at, lines[0], 0.0f);
    if (low) return;
    put_text(ui.fonts.small, ui.theme.ink, {at.x, at.y + ui.px(19.0f)}, lines[1], 0.0f);
    put_text(ui.fonts.small, ui.theme.ink, {at.x, at.y + ui.px(35.0f)}, lines[2], 0.0f);
}

void draw_curve(const Ui& ui, const Area& area, const yarn::YarnForecast& forecast) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const double lower = forecast.length_m > 0.0 ? forecast.length_low_m / forecast.length_m : 1.0;
    const double upper = forecast.length_m > 0.0 ? forecast.length_high_m / forecast.length_m : 1.0;
    list.PushClipRect(area.low, area.high, true);
    const ImDrawListFlags before_fill = list.Flags;
    list.Flags &= ~ImDrawListFlags_AntiAliasedFill;  // its edges would show as seams between the slices
    const auto spot = [&area](double wpi, double metres) {
        return ImVec2{area.x(area.plot.x(wpi)), area.y(area.plot.y(metres))};
    };
    for (std::size_t i = 1; i < forecast.curve.size(); ++i) {
        const auto &a = forecast.curve[i - 1], &b = forecast.curve[i];
        if (!(a.length_m > 0.0) || !(b.length_m > 0.0)) continue;
        list.AddQuadFilled(spot(a.wpi, a.length_m * lower), spot(a.wpi, a.length_m * upper),
                           spot(b.wpi, b.length_m * upper), spot(b.wpi, b.length_m * lower),
                           u32(ui.theme.accent, 0.16f));
    }
    list.Flags = before_fill;
    for (std::size_t i = 1; i < forecast.curve.size(); ++i) {
        const auto &a = forecast.curve[i - 1], &b = forecast.curve[i];
        if (!(a.length_m > 0.0) || !(b.length_m > 0.0)) continue;
        list.AddLine(spot(a.wpi, a.length_m), spot(b.wpi, b.length_m),
                     u32(b.spinnable ? ui.theme.accent : ui.theme.quiet), ui.px(b.spinnable ? 3.0f : 1.5f));
    }
    list.PopClipRect();
}

// The range at the plan, lines to both axes, the handle, and what it stands for.
void draw_plan(const Ui& ui, const Area& area, const yarn::YarnForecast& forecast, bool strong) {
    if (!(forecast.length_m > 0.0)) return;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 handle = area.at(forecast.wpi, forecast.length_m);
    const ImVec2 least = area.at(forecast.wpi, forecast.length_low_m);
    const ImVec2 most = area.at(forecast.wpi, forecast.length_high_m);
    list.AddRectFilled({area.low.x, most.y}, {handle.x, least.y}, u32(ui.theme.accent, 0.12f));
    list.AddLine({area.low.x, handle.y}, handle, u32(ui.theme.ink, 0.45f), ui.px(1.0f));
    list.AddLine(handle, {handle.x, area.high.y}, u32(ui.theme.ink, 0.45f), ui.px(1.0f));
    list.AddLine(least, most, u32(ui.theme.ink), ui.px(2.5f));
    for (const float y : {least.y, most.y})
        list.AddLine({handle.x - ui.px(13.0f), y}, {handle.x + ui.px(13.0f), y}, u32(ui.theme.ink),
                     ui.px(2.5f));
    if (strong) list.AddCircleFilled(handle, ui.px(15.0f), u32(ui.theme.accent, 0.3f), 24);
    list.AddCircleFilled(handle, ui.px(9.5f), u32(ui.theme.ink), 24);
    list.AddCircleFilled(handle, ui.px(7.5f), u32(ui.theme.accent), 24);
    ui.probe.mark("yarn handle", {handle.x - ui.px(9.5f), handle.y - ui.px(9.5f), handle.x + ui.px(9.5f),
                                  handle.y + ui.px(9.5f)});
}

// The same plan in words on a small plate: below the curve, or above it where the curve lies low.
void words_on_plan(const Ui& ui, const Area& area, const yarn::YarnForecast& forecast) {
    if (!(forecast.length_m > 0.0)) return;
    const ImVec2 handle = area.at(forecast.wpi, forecast.length_m);
    std::string words = print_wraps(forecast.wpi) + ", " + print_metres(forecast.length_m, ui.settings);
    // The law of names is another fit than the curve's, so the handle may stand off it.
    if (forecast.planned_in == recipe::ThicknessIn::class_name) words += ", by name";
    const float half = 0.5f * width_of(ui.fonts.bold, words), high = ui.px(20.0f), space = ui.px(19.0f);
    const bool below = handle.y + space + high < area.high.y;
    const float middle =
        std::clamp(handle.x, area.low.x + half + ui.px(6.0f), area.high.x - half - ui.px(6.0f));
    const ImVec2 at{middle - half, below ? handle.y + space : handle.y - space - high};
    ImGui::GetWindowDrawList()->AddRectFilled({at.x - ui.px(5.0f), at.y - ui.px(1.0f)},
                                              {at.x + 2.0f * half + ui.px(5.0f), at.y + high},
                                              u32(ui.theme.panel, 0.92f), ui.px(4.0f));
    put_text(ui.fonts.bold, ui.theme.ink, at, words, 0.0f);
}

void plan_for(const Ui& ui, const Sheet& sheet, double wpi) {
    const auto& now = sheet.recipe.spinning.thickness;
    if (now.in == recipe::ThicknessIn::wpi && now.value == wpi) return;
    ui.ask.edit(set_wraps(sheet, wpi), "change the thickness", true);
}

// The last item is the plot: pressed, dragged, or stepped along with the arrow keys while it has the focus.
void take_hand(const Ui& ui, const Sheet& sheet, const yarn::YarnForecast& forecast, const Area& area) {
    const ImGuiIO& io = ImGui::GetIO();
    if (ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left))
        return plan_for(ui, sheet, area.wpi_at(io.MousePos.x));
    if (!ImGui::IsItemFocused() || io.WantTextInput) return;
    const bool left = ImGui::IsKeyPressed(GLFW_KEY_LEFT), right = ImGui::IsKeyPressed(GLFW_KEY_RIGHT);
    if (!left && !right) return;
    ImGui::NavMoveRequestCancel();  // else the focus would walk off to a neighbour
    plan_for(ui, sheet, stepped_wpi(forecast.wpi, left ? -1 : 1));
}

void say_what_is_here(const Ui& ui, const yarn::YarnForecast& forecast, const Area& area) {
    if (!ImGui::IsItemHovered() || ImGui::IsItemActive()) return;
    const double wpi = area.wpi_at(ImGui::GetIO().MousePos.x);
    hover(ui, thickness_in_words(forecast, wpi, ui.settings) +
                  ". Press or drag to plan for it; with the focus here, the left and right keys do too.");
}

}  // namespace

void view_yarn_plot(const Ui& ui, const Sheet& sheet, const yarn::YarnForecast& forecast, ImVec2 size) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton("yarn curve", size);
    const Area area{{at.x + ui.px(52.0f), at.y + ui.px(33.0f)},
                    {at.x + size.x - ui.px(8.0f), at.y + size.y - ui.px(37.0f)},
                    plot_for(forecast)};
    mark(ui, "yarn curve");
    ui.probe.mark("yarn curve", {area.low.x, area.low.y, area.high.x, area.high.y});
    if (!(area.plot.to_metres > 0.0)) return;
    const bool focused = ImGui::IsItemFocused();
    take_hand(ui, sheet, forecast, area);
    draw_bands(ui, area, forecast, at.y);
    draw_axes(ui, area);
    draw_limit(ui, area, forecast);
    draw_curve(ui, area, forecast);
    draw_plan(ui, area, forecast, focused || ImGui::IsItemHovered());
    words_on_limit(ui, area, forecast);
    words_on_plan(ui, area, forecast);
    if (focused)
        ImGui::GetWindowDrawList()->AddRect(area.low, area.high, u32(ui.theme.accent), 0.0f, 0, ui.px(2.0f));
    say_what_is_here(ui, forecast, area);
}

}  // namespace battwright::window
