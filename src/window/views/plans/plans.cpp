#include "window/views/plans/plans.hpp"

#include <algorithm>

#include "app/bench/bench_actions.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/staple_words.hpp"
#include "app/plans/plans_session.hpp"
#include "recipe/file.hpp"
#include "window/views/plans/series.hpp"

namespace battwright::window {
namespace {

const ImVec2 least_plans{520.0f, 400.0f};
const char* const empty_plans = "Nothing lies on the bench yet. Add fibre, and what to try first shows here.";

void sample_weights(const Ui& ui, const app::PlansMade& made) {
    const float weight = ui.px(110.0f);
    for (std::size_t c = 0; c < made.sample->component_grams.size(); ++c) {
        const auto& line = made.forecast->components[c];
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float side = 0.8f * ui.fonts.body->FontSize;
        ImGui::GetWindowDrawList()->AddRectFilled(at, {at.x + side, at.y + side}, u32(line.srgb),
                                                  ui.px(3.0f));
        ImGui::SetCursorScreenPos({at.x + ui.px(24.0f), at.y});
        text_in(ui, ui.fonts.bold, ui.theme.ink, mass(ui, made.sample->component_grams[c]));
        ImGui::SameLine(weight);
        text_within(ui, ui.fonts.body, ui.theme.ink, line.label, ImGui::GetContentRegionAvail().x);
    }
}

void sample_steps(const Ui& ui, const app::PlansMade& made) {
    text_in(ui, ui.fonts.bold, ui.theme.ink, "At the carder");
    for (const auto& step : made.sample->steps)
        paragraph(ui,
                  std::to_string(step.order) + ". " + in_own_units(step.text_with_quantities, ui.settings),
                  ui.theme.ink);
    gap(ui, 4.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Foretold after each pass");
    hover(ui, "From its mean colour, in CIEDE2000: about 1 is just seen.");
    for (const std::string& line : sample_passes(made)) paragraph(ui, line, ui.theme.ink);
}

void sample_page(const Ui& ui, const app::PlansMade& made) {
    if (!made.sample) return paragraph(ui, measure::to_line(*made.no_sample), ui.theme.spoils);
    paragraph(ui, sample_heading(made, ui.settings), ui.theme.ink);
    gap(ui, 2.0f);
    sample_weights(ui, made);
    gap(ui, 2.0f);
    paragraph(ui, sample_limits(made, ui.settings), ui.theme.quiet);
    gap(ui, 4.0f);
    sample_steps(ui, made);
}

void sample_buttons(const Ui& ui, const app::PlansMade& made) {
    if (!made.sample) return;
    ImGui::SameLine();
    if (button(ui, "Take the sample to the bench##sample bench", Tone::accent, 0.0f,
               "As a recipe of its own: its card has lines to write on. The batt is asked about if it is not "
               "saved.")) {
        ui.ask.act(OpenCard{{}, recipe::write_text(made.sample->recipe)});
        ImGui::CloseCurrentPopup();
    }
    ImGui::SameLine();
    if (button(ui, "Copy its card##sample copy", Tone::plain, 0.0f,
               "As text, with lines to write down what came of it"))
        ImGui::SetClipboardText(sample_text(made, ui.settings).c_str());
}

}  // namespace

void view_plans(const Ui& ui, const PanelHead& head, PlansState& state, const Sheet& sheet) {
    if (!begin_card(ui, head, card_size(ui, {ui.px(860.0f), ui.px(640.0f)}, least_plans))) return;
    choose(ui, "plans page", {"A sample first", "A series in steps"}, state.page);
    gap(ui, 2.0f);
    const auto& made = ui.plans.made();
    begin_child("plans page", {0.0f, -(ImGui::GetFrameHeight() + ui.px(10.0f))}, false,
                ImGuiWindowFlags_NavFlattened);
    if (!made || sheet.recipe.components.empty())
        paragraph(ui, empty_plans, ui.theme.quiet);
    else if (state.page == PlansPage::sample)
        sample_page(ui, *made);
    else
        view_series(ui, *made, sheet);
    ImGui::EndChild();
    leave_button(ui, "Back to the bench##plans done", escape_leaves(ui));
    if (made && state.page == PlansPage::sample) sample_buttons(ui, *made);
    if (made && state.page == PlansPage::series) view_series_buttons(ui, *made, sheet);
    end_card();
}

void report_plans(const PlansState& state, const app::PlansSession& plans, bool open, Probe& probe) {
    auto& facts = probe.state;
    const auto& made = plans.made();
    facts["plans page"] = state.page == PlansPage::sample ? "sample" : "series";
    facts["plans settled"] = open && plans.settled() ? "yes" : "no";
    facts["sample grams"] = made && made->sample ? measure::write_number(made->sample->grams) : "";
    facts["series batts"] = made && made->series ? std::to_string(made->series->batts.size()) : "none";
}

}  // namespace battwright::window
