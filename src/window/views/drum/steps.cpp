// What to do at the carder, step by step, for one batt.
#include <cmath>

#include "app/bench/staple_words.hpp"
#include "forecast/forecast.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

void cautions(const Ui& ui, const carding::Plan& plan) {
    for (const auto& caution : plan.cautions) {
        const ImVec2 low = ImGui::GetCursorScreenPos();
        ImGui::Indent(ui.px(12.0f));
        paragraph(ui, in_own_units(caution.text_with_quantities, ui.settings), ui.theme.ink);
        ImGui::Unindent(ui.px(12.0f));
        const float high = ImGui::GetCursorScreenPos().y - ImGui::GetStyle().ItemSpacing.y;
        ImGui::GetWindowDrawList()->AddRectFilled(low, {low.x + ui.px(4.0f), high}, u32(ui.theme.warning),
                                                  ui.px(2.0f));
    }
}

void one_step(const Ui& ui, const forecast::Forecast& forecast, const carding::Step& step,
              Pointing& pointing) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float right = at.x + ImGui::GetContentRegionAvail().x;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float left = ui.px(26.0f), high = ui.fonts.body->FontSize;
    const std::string number = std::to_string(step.order);
    const bool fed = step.kind == carding::StepKind::feed && step.component < forecast.components.size();
    if (fed) {
        const ImVec2 middle{at.x + 0.5f * ui.px(20.0f), at.y + 0.5f * high};
        list.AddCircleFilled(middle, 0.5f * ui.px(19.0f), u32(forecast.components[step.component].srgb));
        list.AddCircle(middle, 0.5f * ui.px(19.0f), u32(ui.theme.edge));
    }
    const auto ink = fed ? readable_on(forecast.components[step.component].srgb) : ui.theme.quiet;
    ImGui::PushFont(ui.fonts.small);
    const ImVec2 wide = ImGui::CalcTextSize(number.c_str());
    ImGui::PopFont();
    put_text(ui.fonts.small, ink, {at.x + 0.5f * (ui.px(20.0f) - wide.x), at.y + 0.5f * (high - wide.y)},
             number);
    ImGui::Indent(left);
    paragraph(ui, in_own_units(step.text_with_quantities, ui.settings), ui.theme.ink);
    ImGui::Unindent(left);
    if (fed && ImGui::IsWindowHovered() &&
        ImGui::IsMouseHoveringRect(at, {right, ImGui::GetCursorScreenPos().y}))
        pointing.next.insert(step.component);
}

}  // namespace

void view_steps(const Ui& ui, const forecast::Forecast& forecast, Pointing& pointing) {
    const auto& plan = forecast.plan;
    begin_child("steps", {0.0f, 0.0f});
    const auto& tool = recipe::words_of(forecast.carder);
    const std::string each = plan.batts > 1
                                 ? "Each of the " + std::to_string(plan.batts) + ' ' + std::string(tool.loads)
                                 : "The " + std::string(tool.load);
    text_in(ui, ui.fonts.bold, ui.theme.ink, each + ": about " + print_minutes(plan.minutes_per_batt));
    hover(ui, "Times and thicknesses are common practice, without a source.");
    int pass = 0;
    for (const auto& step : plan.steps) {
        if (step.pass != pass && plan.passes > 1)
            text_in(ui, ui.fonts.bold, ui.theme.quiet,
                    text::capitalised(std::string(tool.pass)) + ' ' + std::to_string(step.pass));
        pass = step.pass;
        one_step(ui, forecast, step, pointing);
    }
    if (!plan.cautions.empty()) text_in(ui, ui.fonts.bold, ui.theme.ink, "Take care");
    cautions(ui, plan);
    ImGui::EndChild();
    mark(ui, "steps list");
}

}  // namespace battwright::window
