// The staple diagram: how many fibres of each length, the mixture and each component under it.
#include <algorithm>
#include <cmath>

#include "app/bench/staple_words.hpp"
#include "app/settings.hpp"
#include "forecast/forecast.hpp"
#include "forecast/staple_diagram.hpp"
#include "measure/unit_tables.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

struct Frame {
    ImVec2 low, high;  // of the plot itself
    double longest_mm = 0.0, highest = 0.0;

    ImVec2 at(double mm, double percent) const {
        return {low.x + (high.x - low.x) * static_cast<float>(mm / longest_mm),
                high.y - (high.y - low.y) * static_cast<float>(percent / highest)};
    }
};

void label(const Ui& ui, ImVec2 at, const std::string& words, float align) {
    put_text(ui.fonts.small, ui.theme.quiet, at, words, align);
}

void draw_axes(const Ui& ui, const Frame& frame) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto& unit = measure::row_of(measure::length_units, ui.settings.length);
    const double per_unit = unit.size;
    const double end = frame.longest_mm / per_unit;
    double step = unit.axis_step;
    while (end / step > 7.0) step *= 2.0;
    for (double tick = 0.0; tick <= end + 1e-6; tick += step) {
        const ImVec2 foot = frame.at(tick * per_unit, 0.0);
        list.AddLine({foot.x, frame.low.y}, foot, u32(ui.theme.line), ui.px(1.0f));
        label(ui, {foot.x, frame.high.y + ui.px(3.0f)}, measure::write_number(tick),
              tick == 0.0 ? 0.0f : 0.5f);
    }
    list.AddLine({frame.low.x, frame.high.y}, frame.high, u32(ui.theme.edge), ui.px(1.0f));
    label(ui, {frame.high.x, frame.high.y + ui.px(18.0f)}, "fibre length, " + std::string(unit.axis), 1.0f);
    label(ui, {frame.low.x, frame.low.y - ui.px(17.0f)}, "share of the fibres, by number", 0.0f);
}

void draw_component(const Ui& ui, const Frame& frame, const std::vector<float>& shares, double class_mm,
                    const colour::Srgb& colour, bool pointed) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    std::vector<ImVec2> line;
    // Smoothed edges would show as seams between the slices.
    const ImDrawListFlags before_fill = list.Flags;
    list.Flags &= ~ImDrawListFlags_AntiAliasedFill;
    for (std::size_t k = 0; k < shares.size(); ++k) {
        const ImVec2 top = frame.at((static_cast<double>(k) + 0.5) * class_mm, double{shares[k]});
        line.push_back(top);
        if (k == 0) continue;
        const ImVec2 before = line[k - 1];
        list.AddQuadFilled({before.x, frame.high.y}, before, top, {top.x, frame.high.y},
                           u32(colour, pointed ? 0.75f : 0.35f));
    }
    list.Flags = before_fill;
    // A dark or light rim under the colour, so that a cream fibre shows on cream paper.
    list.AddPolyline(line.data(), static_cast<int>(line.size()), u32(ui.theme.edge), 0,
                     ui.px(pointed ? 5.0f : 3.5f));
    list.AddPolyline(line.data(), static_cast<int>(line.size()), u32(colour), 0,
                     ui.px(pointed ? 3.5f : 2.0f));
}

void draw_mixture(const Ui& ui, const Frame& frame, const forecast::StapleDiagram& diagram) {
    std::vector<ImVec2> line;
    for (std::size_t k = 0; k < diagram.mixture.size(); ++k)
        line.push_back(
            frame.at((static_cast<double>(k) + 0.5) * diagram.class_mm, double{diagram.mixture[k]}));
    ImGui::GetWindowDrawList()->AddPolyline(line.data(), static_cast<int>(line.size()), u32(ui.theme.ink), 0,
                                            ui.px(2.0f));
}

void draw_mean(const Ui& ui, const Frame& frame, const forecast::Forecast& forecast) {
    const ImVec2 foot = frame.at(forecast.length.number_mean_mm, 0.0);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    for (float y = frame.low.y; y < frame.high.y; y += ui.px(8.0f))
        list.AddLine({foot.x, y}, {foot.x, std::min(y + ui.px(4.0f), frame.high.y)}, u32(ui.theme.quiet),
                     ui.px(1.0f));
    const std::string words =
        "mean " + measure::print_length(forecast.length.number_mean_mm, ui.settings.length);
    const ImVec2 at{foot.x + ui.px(5.0f), frame.low.y - ui.px(1.0f)};
    // The curve runs under it.
    list.AddRectFilled(at, {at.x + width_of(ui.fonts.small, words), at.y + ui.fonts.small->FontSize},
                       u32(ui.theme.panel));
    label(ui, at, words, 0.0f);
}

}  // namespace

void view_staple(const Ui& ui, const forecast::Forecast& forecast, const forecast::StapleDiagram& diagram,
                 const Pointing& pointing, ImVec2 size) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton("staple diagram", size);
    mark(ui, "staple diagram");
    if (diagram.mixture.empty() || diagram.highest <= 0.0) return;
    const Frame frame{{at.x + ui.px(2.0f), at.y + ui.px(20.0f)},
                      {at.x + size.x - ui.px(10.0f), at.y + size.y - ui.px(36.0f)},
                      diagram.longest_mm,
                      1.08 * diagram.highest};
    draw_axes(ui, frame);
    const std::size_t n = std::min(diagram.components.size(), forecast.components.size());
    for (std::size_t i = 0; i < n; ++i)
        draw_component(ui, frame, diagram.components[i], diagram.class_mm, forecast.components[i].srgb,
                       pointing.now.count(i) > 0);
    draw_mixture(ui, frame, diagram);
    draw_mean(ui, frame, forecast);
    if (!ImGui::IsItemHovered()) return;
    const float x = ImGui::GetIO().MousePos.x;
    const double mm =
        diagram.longest_mm * static_cast<double>((x - frame.low.x) / (frame.high.x - frame.low.x));
    if (mm >= 0.0 && mm <= diagram.longest_mm) hover(ui, words_at(mm, forecast, diagram, ui.settings));
}

}  // namespace battwright::window
