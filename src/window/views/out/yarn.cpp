#include "window/views/out/yarn.hpp"

#include <algorithm>

#include "app/bench/disagreement.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "app/yarn/yarn_edits.hpp"
#include "recipe/thickness.hpp"
#include "text/words.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

void headline(const Ui& ui, const YarnHead& head, bool spinnable) {
    const float width = ImGui::GetContentRegionAvail().x;
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {ui.px(8.0f), ui.px(2.0f)});
    text_in(ui, ui.fonts.title, ui.theme.ink, head.range);
    mark(ui, "yarn range");
    if (!head.middle.empty()) {
        ImGui::SameLine(0.0f, ui.px(10.0f));
        // On the base line of the larger words.
        ImGui::SetCursorPosY(ImGui::GetCursorPosY() + ui.px(3.0f));
        text_within(ui, ui.fonts.body, ui.theme.ink, head.middle, ImGui::GetContentRegionAvail().x);
    }
    const auto& colour = spinnable ? ui.theme.ink : ui.theme.warning;
    text_within(ui, ui.fonts.body, colour, head.kind, width);
    mark(ui, "yarn kind");
    text_within(ui, ui.fonts.small, ui.theme.quiet, head.rests_on, width);
    ImGui::PopStyleVar();
    gap(ui, 0.0f);
}

void pages(const Ui& ui, YarnState& state) {
    const float width = (ImGui::GetContentRegionAvail().x - 2.0f * ui.px(3.0f)) / 3.0f;
    choose(ui, "yarn page", {"How to spin it", "In figures", "Enough for"}, state.page, width);
}

void nothing_yet(const Ui& ui, const Sheet& sheet) {
    paragraph(
        ui,
        "How long a skein the batt makes, and at which thickness, appears here as soon as there is fibre "
        "on the bench. The plan can be made already.",
        ui.theme.ink);
    gap(ui, 4.0f);
    view_yarn_plan(ui, sheet, nullptr, {});
}

}  // namespace

// As findings about the batt are shown: a bar in the colour of how grave it is, what, and how to mend it.
void view_yarn_finding(const Ui& ui, const Sheet& sheet, const YarnFinding& finding) {
    const bool thread = finding.about == YarnFinding::About::thread;
    const ImVec2 low = ImGui::GetCursorScreenPos();
    ImGui::Indent(ui.px(12.0f));
    paragraph(ui, "Warning: " + finding.text, ui.theme.warning);
    mark(ui, thread ? "finding on the thread" : "finding on the thickness");
    paragraph(ui, text::capitalised(finding.remedy), ui.theme.ink);
    if (finding.wpi && button(ui, "Do that##yarn remedy", Tone::plain, ui.px(110.0f)))
        ui.ask.edit(set_wraps(sheet, *finding.wpi), "take the advice");
    ImGui::Unindent(ui.px(12.0f));
    const ImVec2 high = ImGui::GetCursorScreenPos();
    ImGui::GetWindowDrawList()->AddRectFilled(low, {low.x + ui.px(4.0f), high.y - ui.px(4.0f)},
                                              u32(ui.theme.warning), ui.px(2.0f));
}

void follow_yarn(YarnState& state, const Outcome& outcome, const Settings& settings) {
    state.derived.of({outcome.forecast, state.filter, settings}, [](const YarnInputs& of, YarnWords& words) {
        words = of.forecast ? yarn_words(*of.forecast, of.filter, of.settings) : YarnWords{};
    });
}

void view_yarn(const Ui& ui, const Sheet& sheet, const Outcome& outcome, YarnState& state) {
    if (!outcome.forecast) return nothing_yet(ui, sheet);
    const auto& forecast = outcome.forecast->yarn;
    const YarnWords& words = state.words();
    headline(ui, words.head, forecast.spinnable);
    const float high = std::clamp(0.44f * ImGui::GetContentRegionAvail().y, ui.px(184.0f), ui.px(330.0f));
    view_yarn_plot(ui, sheet, forecast, {ImGui::GetContentRegionAvail().x, high});
    pages(ui, state);
    begin_child("yarn page", {0.0f, 0.0f});
    // The plan shows them beside the fields they are about.
    if (state.page != YarnPage::plan) {
        for (const auto& finding : words.findings) view_yarn_finding(ui, sheet, finding);
    }
    if (state.page == YarnPage::plan) view_yarn_plan(ui, sheet, &forecast, words.findings);
    if (state.page == YarnPage::figures) {
        view_yarn_weighed(ui, *outcome.forecast);
        view_yarn_figures(ui, forecast, words.figures);
    }
    if (state.page == YarnPage::enough) view_yarn_enough(ui, sheet, state);
    ImGui::EndChild();
}

void report_yarn(const YarnState& state, const Sheet& sheet, const Outcome& outcome, Probe& probe) {
    probe.state["comes out"] = state.shown ? "yarn" : "batt";
    const auto& spinning = sheet.recipe.spinning;
    probe.state["thickness"] = recipe::write_thickness(spinning.thickness);
    probe.state["plying"] = recipe::file_word(spinning.plying);
    probe.state["plies"] = std::to_string(spinning.plies);
    probe.state["wheel"] = spinning.wheel_ratio ? measure::write_number(*spinning.wheel_ratio) : "";
    if (!outcome.forecast) return;
    const auto& yarn = outcome.forecast->yarn;
    probe.state["yarn grams"] = measure::write_number(yarn.yarn_grams);
    probe.state["yarn metres"] = measure::write_number(yarn.length_m);
    probe.state["treadles"] = measure::write_number(yarn.treadles_per_m);
    probe.state["yarn findings"] = std::to_string(state.words().findings.size());
}

}  // namespace battwright::window
