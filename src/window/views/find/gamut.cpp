// Which colours these lots can reach: from above, in the plane of a and b, and from the side, L over a.
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "app/find/find_plot.hpp"
#include "app/find/find_session.hpp"
#include "colour/large.hpp"
#include "colour/spaces.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/find/find.hpp"

namespace battwright::window {
namespace {

using colour::Lab;

struct Plot {
    ImVec2 low, high;
    const PlotAxis& across;
    const PlotAxis& up;
    bool from_above = true;  // b upwards, else L

    double value(const Lab& lab) const { return from_above ? lab.b : lab.l; }
    ImVec2 at(const Lab& lab) const { return at(lab.a, value(lab)); }
    ImVec2 at(double x, double y) const {
        return {low.x + (high.x - low.x) * static_cast<float>(across.place(x)),
                high.y - (high.y - low.y) * static_cast<float>(up.place(y))};
    }
};

void put(const Ui& ui, ImVec2 at, const std::string& words, float align) {
    put_text(ui.fonts.small, ui.theme.quiet, at, words, align);
}

void grid(const Ui& ui, const Plot& plot, bool across_labels, const char* up_name) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    for (const double x : plot.across.ticks()) {
        const ImVec2 foot = plot.at(x, plot.up.from);
        list.AddLine(foot, plot.at(x, plot.up.to), u32(x == 0.0 ? ui.theme.edge : ui.theme.line));
        if (across_labels) put(ui, {foot.x, foot.y + ui.px(3.0f)}, measure::write_number(x), 0.5f);
    }
    for (const double y : plot.up.ticks()) {
        const ImVec2 left = plot.at(plot.across.from, y);
        list.AddLine(left, plot.at(plot.across.to, y), u32(y == 0.0 ? ui.theme.edge : ui.theme.line));
        put(ui, {left.x - ui.px(5.0f), left.y - ui.px(8.0f)}, measure::write_number(y), 1.0f);
    }
    put(ui, {plot.low.x, plot.low.y - ui.px(19.0f)}, up_name, 0.0f);
}

// The surface in its own colours, what is nearer to the eye over what is farther away.
void surface(const solve::Gamut& gamut, const Plot& plot) {
    std::vector<std::size_t> order(gamut.triangles.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto nearness = [&](std::size_t triangle) {
        double sum = 0.0;
        for (const auto point : gamut.triangles[triangle])
            sum += plot.from_above ? gamut.points[point].l : -gamut.points[point].b;
        return sum;
    };
    std::vector<double> near;
    near.reserve(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) near.push_back(nearness(i));
    std::sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return near[i] < near[j]; });
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto flags = list.Flags;
    list.Flags &= ~ImDrawListFlags_AntiAliasedFill;  // else the joints shine through
    for (const std::size_t i : order) {
        std::array<ImVec2, 3> corners;
        Lab mean;
        for (std::size_t k = 0; k < 3; ++k) {
            const Lab& point = gamut.points[gamut.triangles[i][k]];
            corners[k] = plot.at(point);
            mean = {mean.l + point.l / 3.0, mean.a + point.a / 3.0, mean.b + point.b / 3.0};
        }
        list.AddTriangleFilled(corners[0], corners[1], corners[2],
                               u32(colour::clipped(colour::srgb_from(mean))));
    }
    list.Flags = flags;
}

void dot(const Ui& ui, ImVec2 at, const colour::Srgb& colour, float radius) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddCircleFilled(at, ui.px(radius), u32(colour));
    list.AddCircle(at, ui.px(radius), u32(readable_on(colour)), 0, ui.px(1.5f));
}

// A dot in a ring; towards the nearest colour that can be reached, a line.
void target_mark(const Ui& ui, const Plot& plot, const Lab& target, const solve::Reach* reach, float size) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 at = plot.at(target);
    if (reach != nullptr && reach->delta_e >= colour::unseen_de00) {
        list.AddLine(at, plot.at(reach->nearest), u32(ui.theme.ink), ui.px(2.0f));
        dot(ui, plot.at(reach->nearest), colour::clipped(colour::srgb_from(reach->nearest)), 4.0f);
    }
    dot(ui, at, colour::clipped(colour::srgb_from(target)), size);
    const float arm = ui.px(1.5f * size);
    for (const ImU32 tone : {u32(ui.theme.panel), u32(ui.theme.ink)}) {
        const float width = tone == u32(ui.theme.ink) ? ui.px(1.5f) : ui.px(4.0f);
        list.AddCircle(at, arm, tone, 0, width);
    }
}

void marks(const Ui& ui, const Plot& plot, const FoundBlends& found) {
    for (const Lab& lot : found.gamut->lots)
        dot(ui, plot.at(lot), colour::clipped(colour::srgb_from(lot)), 3.0f);
    if (found.problem.targets.empty()) {
        const auto& target = found.problem.problem.goal.target;
        if (target) target_mark(ui, plot, target->lab, found.reach ? &*found.reach : nullptr, 8.0f);
    } else {
        for (const auto& target : found.problem.targets) target_mark(ui, plot, target.lab, nullptr, 4.0f);
    }
}

std::vector<Lab> all_colours(const FoundBlends& found) {
    std::vector<Lab> all = found.gamut->points;
    all.insert(all.end(), found.gamut->lots.begin(), found.gamut->lots.end());
    if (found.problem.problem.goal.target) all.push_back(found.problem.problem.goal.target->lab);
    for (const auto& target : found.problem.targets) all.push_back(target.lab);
    return all;
}

void verdict(const Ui& ui, const FoundBlends& found) {
    if (!found.reach) {
        paragraph(ui,
                  "Every colour that these lots can be blended to, whatever the weights. Dots are the lots "
                  "by themselves.",
                  ui.theme.quiet);
        return;
    }
    if (found.reach->delta_e < colour::unseen_de00)
        paragraph(ui, "The colour can be reached with these lots, if the limits allow it.", ui.theme.ink);
    else
        paragraph(ui,
                  "The colour is out of reach: the nearest these lots can come is " +
                      difference_words(found.reach->delta_e, found.reach->difference) + ", " +
                      colour::hex(colour::clipped(colour::srgb_from(found.reach->nearest))) + ".",
                  ui.theme.warning);
    mark(ui, "find reach");
}

}  // namespace

void view_find_gamut(const Ui& ui) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "What can be reached");
    hover(
        ui,
        "CIE Lab in daylight (D65): a from green to red, b from blue to yellow, L from black to white. Seen "
        "from above, and below it from the side.");
    const auto& found = ui.find.shown().latest;
    if (!found || !found->gamut || ui.find.complaint()) {
        paragraph(ui, ui.find.complaint() ? "No lots to look at." : "The colours are being worked out\u2026",
                  ui.theme.quiet);
        return;
    }
    const GamutAxes axes = axes_over(all_colours(*found));
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    const float margin = ui.px(30.0f), text_room = ui.px(96.0f), between = ui.px(34.0f), head = ui.px(22.0f);
    // In a low window it scrolls rather than shrink to nothing.
    const float side =
        std::min(room.x - margin - ui.px(14.0f),
                 std::max(ui.px(170.0f), (room.y - text_room - between - head - ui.px(36.0f)) / 1.55f));
    const Plot above{
        {at.x + margin, at.y + head}, {at.x + margin + side, at.y + head + side}, axes.a, axes.b, true};
    const float second = above.high.y + between;
    const Plot beside{{above.low.x, second}, {above.high.x, second + 0.55f * side}, axes.a, axes.l, false};
    for (const Plot* plot : {&above, &beside}) {
        grid(ui, *plot, plot == &beside,
             plot == &above ? "b* yellow up, blue down" : "L* light up, dark down");
        surface(*found->gamut, *plot);
        marks(ui, *plot, *found);
    }
    put(ui, {beside.high.x, beside.high.y + ui.px(18.0f)}, "a*: green to the left, red to the right", 1.0f);
    ui.probe.mark("find gamut", {above.low.x, above.low.y, above.high.x, beside.high.y});
    ImGui::SetCursorScreenPos({at.x, beside.high.y + ui.px(42.0f)});
    verdict(ui, *found);
}

}  // namespace battwright::window
