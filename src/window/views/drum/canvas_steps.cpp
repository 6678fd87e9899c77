// The layings as steps in words, in their order: the same words as the plan's and the card's. One that is
// chosen is edited below them.
#include <GLFW/glfw3.h>

#include <algorithm>
#include <utility>

#include "app/bench/disagreement.hpp"
#include "app/bench/document.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/staple_words.hpp"
#include "forecast/forecast.hpp"
#include "window/views/drum/canvas.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

using Steps = std::vector<const carding::Step*>;

// What lays fibre, in the order it is done in.
Steps steps_of(const forecast::Forecast& forecast) {
    Steps steps;
    for (const carding::Step& step : forecast.plan.steps)
        if (step.kind == carding::StepKind::feed) steps.push_back(&step);
    return steps;
}

std::size_t first_of(const carding::Step& step) {
    return *std::ranges::min_element(step.layings);
}
std::size_t after(const carding::Step& step) {
    return *std::ranges::max_element(step.layings) + 1;
}

// To the place of another step, before or behind it as it comes from.
void move_step(OnCanvas& on, const Layings& moved, const carding::Step& to, bool dragging) {
    if (moved.empty() || to.layings.empty()) return;
    const bool down = first_of(to) > *std::ranges::min_element(moved);
    Laid laid = move_layings(on.sheet(), moved, down ? after(to) : first_of(to));
    if (dragging) on.state.dragged = laid.layings;
    on.take(std::move(laid), "change the order", dragging);
}

void step_mark(const Ui& ui, const forecast::Forecast& forecast, const carding::Step& step, ImVec2 at,
               std::size_t number) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float radius = ui.px(9.5f), high = ui.fonts.body->FontSize;
    const ImVec2 middle{at.x + radius, at.y + 0.5f * high};
    const colour::Srgb ground = step.component < forecast.components.size()
                                    ? forecast.components[step.component].srgb
                                    : ui.theme.raised;
    list.AddCircleFilled(middle, radius, u32(ground));
    list.AddCircle(middle, radius, u32(ui.theme.edge));
    const std::string words = std::to_string(number);
    const float wide = width_of(ui.fonts.small, words);
    list.AddText(ui.fonts.small, ui.fonts.small->FontSize,
                 {middle.x - 0.5f * wide, middle.y - 0.5f * ui.fonts.small->FontSize},
                 u32(readable_on(ground)), words.c_str());
}

bool is_out_of_sight(const OnCanvas& on, const carding::Step& step) {
    const auto& layings = on.sheet().recipe.carding.layings;
    return std::ranges::any_of(
        step.layings, [&](std::size_t i) { return i < layings.size() && is_hidden(on.canvas, layings[i]); });
}

// Dragged over another, or sent past it with Alt and an arrow.
void reorder_step(OnCanvas& on, const Steps& steps, std::size_t index, ImVec2 low, ImVec2 high) {
    const carding::Step& step = *steps[index];
    if (step.layings.empty()) return;
    if (ImGui::IsItemActive() && ImGui::IsMouseDragging(ImGuiMouseButton_Left, on.ui.px(6.0f)) &&
        !on.state.dragged)
        on.state.dragged = step.layings;
    const float y = ImGui::GetIO().MousePos.y;
    if (on.state.dragged && y >= low.y && y < high.y && *on.state.dragged != step.layings &&
        std::ranges::find(step.layings, on.state.dragged->front()) == step.layings.end())
        move_step(on, *on.state.dragged, step, true);
    if (!ImGui::IsItemFocused() || !ImGui::GetIO().KeyAlt) return;
    if (ImGui::IsKeyPressed(GLFW_KEY_UP) && index > 0) move_step(on, step.layings, *steps[index - 1], false);
    if (ImGui::IsKeyPressed(GLFW_KEY_DOWN) && index + 1 < steps.size())
        move_step(on, step.layings, *steps[index + 1], false);
}

void one_row(OnCanvas& on, const forecast::Forecast& forecast, const Steps& steps, std::size_t index) {
    const Ui& ui = on.ui;
    const carding::Step& step = *steps[index];
    const bool hidden = is_out_of_sight(on, step);
    std::string words = in_own_units(step.text_with_quantities, ui.settings);
    if (hidden) words += " (hidden)";
    const float wide = ImGui::GetContentRegionAvail().x, left = ui.px(26.0f), pad = ui.px(4.0f);
    const float wrap = wide - left - pad;
    const ImVec2 size = ui.fonts.body->CalcTextSizeA(ui.fonts.body->FontSize, wrap, wrap, words.c_str());
    const ImVec2 low = ImGui::GetCursorScreenPos(), high{low.x + wide, low.y + size.y + 2.0f * pad};
    ImGui::PushID(static_cast<int>(index));
    const bool pressed = ImGui::InvisibleButton("step", {wide, high.y - low.y});
    mark(ui, "laid step " + std::to_string(index + 1));
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    const bool chosen = !step.layings.empty() &&
                        std::ranges::find(on.canvas.chosen, step.layings.front()) != on.canvas.chosen.end();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (chosen || live)
        list.AddRectFilled(low, high, u32(chosen ? ui.theme.chosen : ui.theme.hover), ui.px(5.0f));
    if (chosen) list.AddRectFilled(low, {low.x + ui.px(3.0f), high.y}, u32(ui.theme.ink), ui.px(1.5f));
    step_mark(ui, forecast, step, {low.x + pad, low.y + pad}, index + 1);
    list.AddText(ui.fonts.body, ui.fonts.body->FontSize, {low.x + left, low.y + pad},
                 u32(hidden ? ui.theme.quiet : ui.theme.ink), words.c_str(), nullptr, wrap);
    if (!on.state.dragged && !ImGui::IsItemActive() && !step.layings.empty())
        hover(ui, "Press to change it. Drag, or Alt+Up and Alt+Down, to lay it sooner or later.");
    if (pressed && !on.state.dragged) {
        on.canvas.chosen = chosen ? Layings{} : step.layings;
        on.canvas.line.clear();
    }
    reorder_step(on, steps, index, low, high);
    if (chosen && on.state.in_sight != on.canvas.chosen) {
        ImGui::SetScrollHereY(0.5f);
        on.state.in_sight = on.canvas.chosen;
    }
    ImGui::PopID();
}

void list_of_steps(OnCanvas& on, const forecast::Forecast& forecast) {
    const Ui& ui = on.ui;
    const Steps steps = steps_of(forecast);
    int pass = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i]->pass != pass && forecast.plan.passes > 1)
            text_in(ui, ui.fonts.bold, ui.theme.quiet, "Pass " + std::to_string(steps[i]->pass));
        pass = steps[i]->pass;
        one_row(on, forecast, steps, i);
    }
    // What a practised hand would say of this lay.
    for (const auto& finding : forecast.findings)
        if (finding.code == "fiddly" || finding.code == "places-lost" || finding.code == "over-full") {
            gap(ui, 2.0f);
            paragraph(ui, in_own_units(finding.text_with_quantities, ui.settings), ui.theme.advice);
        }
}

bool is_fiddly(const Outcome& outcome) {
    return outcome.forecast && std::ranges::any_of(outcome.forecast->findings, [](const auto& finding) {
               return finding.code == "fiddly";
           });
}

void foot_of_list(OnCanvas& on, const Outcome& outcome) {
    const Ui& ui = on.ui;
    const bool by_list = !ui.document.sheet().recipe.carding.layings.empty();
    if (!by_list) {
        if (button(ui, "Write it out as a list", Tone::plain, 0.0f,
                   "The same batt as a list of layings, each to be changed. The first stroke does it, too."))
            ui.ask.edit(on.sheet(), "write the feed out as a list");
        return;
    }
    if (button(ui, "Mirror all", Tone::plain, 0.0f, "Left to right."))
        on.take(mirror_layings(on.sheet(), {}), "mirror the lay");
    ImGui::SameLine(0.0f, ui.px(5.0f));
    if (button(ui, "Clear", Tone::plain, 0.0f, "All strokes off: everything goes in evenly again.")) {
        on.take(clear_layings(on.sheet()), "clear the lay");
        on.canvas.chosen.clear();
    }
    ImGui::SameLine(0.0f, ui.px(5.0f));
    if (!on.canvas.hidden.empty()) {
        if (button(ui, "Show all", Tone::plain, 0.0f, "What is hidden is only out of sight."))
            on.canvas.hidden.clear();
    } else if (button(ui, "Strokes only", Tone::plain, 0.0f,
                      "Hides what no stroke has placed, for looking only: the cloth shows where nothing is "
                      "laid.")) {
        on.canvas = hidden_or_shown(on.canvas, on.sheet().recipe, rests_of(on.sheet()));
    }
    if (!is_fiddly(outcome)) return;
    ImGui::SameLine(0.0f, ui.px(5.0f));
    if (button(ui, "Join", Tone::plain, 0.0f, "Layings that are alike and follow each other as one."))
        on.take(join_layings(on.sheet()), "join layings");
}

}  // namespace

void view_laid_steps(OnCanvas& on, const Outcome& outcome, ImVec2 size) {
    const Ui& ui = on.ui;
    begin_child(
        "laid", size, false,
        ImGuiWindowFlags_NavFlattened | ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    const std::string of_batt =
        on.batts > 1 ? "Each of the " + std::to_string(on.batts) + " batts" : "In order";
    text_in(ui, ui.fonts.bold, ui.theme.ink, of_batt);
    const auto& layings = on.sheet().recipe.carding.layings;
    std::erase_if(on.canvas.chosen, [&](std::size_t i) { return i >= layings.size(); });
    const float space = ImGui::GetStyle().ItemSpacing.y;
    const float room = ImGui::GetContentRegionAvail().y - ImGui::GetFrameHeight() - space;
    const float editor = on.canvas.chosen.empty() ? 0.0f : std::min(editor_height(on), 0.62f * room);
    const float rule_high = editor > 0.0f ? ui.px(5.0f) + 2.0f * space : 0.0f;
    begin_child("laid list", {0.0f, room - editor - rule_high}, false, ImGuiWindowFlags_NavFlattened);
    if (outcome.forecast && !outcome.complaint) list_of_steps(on, *outcome.forecast);
    ImGui::EndChild();
    // The press that shuts it may just have come.
    if (editor > 0.0f && !on.canvas.chosen.empty()) view_step_editor(on, editor);
    foot_of_list(on, outcome);
    ImGui::EndChild();
}

}  // namespace battwright::window
