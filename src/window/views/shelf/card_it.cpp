#include "window/views/shelf/card_it.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "app/bench/outcome.hpp"
#include "app/half_typed.hpp"
#include "app/shelf/shelf_weigh_out.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "forecast/forecast.hpp"
#include "recipe/file_name.hpp"
#include "stash/date.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

constexpr int most_batts = 1000;

// Why nothing can be taken now; empty when it can.
std::string why_not(const Ui& ui, const Outcome& outcome) {
    if (ui.stash.path().empty()) return "There is no stash in this window.";
    if (!outcome.forecast) return "Nothing is on the bench yet.";
    if (outcome.complaint) return "The batt has no forecast as it stands: " + outcome.complaint->what + ".";
    return why_not_from_shelf(weigh_lines(*outcome.forecast, ui.stash.shelf()));
}

void cell(const Ui& ui, ImFont* font, const colour::Srgb& colour, std::string_view words) {
    ImGui::TableNextColumn();
    text_within(ui, font, colour, words, ImGui::GetContentRegionAvail().x);
}

float line_height(const Ui& ui) {
    return ui.px(26.0f);
}

void line_of(const Ui& ui, const WeighLine& line) {
    ImGui::TableNextRow(0, line_height(ui));
    cell(ui, ui.fonts.bold, ui.theme.ink, mass(ui, line.grams));
    cell(ui, ui.fonts.body, ui.theme.ink, line.component);
    cell(ui, ui.fonts.body, ui.theme.quiet, line.mark.empty() ? "no lot" : line.mark + "  " + line.lot);
    if (!line.on_shelf) {
        cell(ui, ui.fonts.body, ui.theme.quiet, "");
        cell(ui, ui.fonts.body, ui.theme.warning, line.mark.empty() ? "" : "not on the shelf");
        return;
    }
    cell(ui, ui.fonts.body, ui.theme.ink,
         mass(ui, std::max(0.0, line.on_hand_grams)) + (line.raw ? " scoured" : ""));
    // Below what a scale can tell it is none.
    const bool is_short = line.left_grams < -0.005;
    cell(ui, is_short ? ui.fonts.bold : ui.fonts.body, is_short ? ui.theme.spoils : ui.theme.ink,
         is_short ? "short by " + mass(ui, -line.left_grams) : mass(ui, std::max(0.0, line.left_grams)));
}

void table(const Ui& ui, const std::vector<WeighLine>& lines) {
    const float height = std::min(line_height(ui) * static_cast<float>(lines.size() + 1) + ui.px(8.0f),
                                  ImGui::GetContentRegionAvail().y - ui.px(236.0f));
    if (!ImGui::BeginTable("weigh-out", 5, ImGuiTableFlags_ScrollY | ImGuiTableFlags_RowBg, {0.0f, height}))
        return;
    const float weight = ui.px(104.0f);
    ImGui::TableSetupColumn("weigh out", ImGuiTableColumnFlags_WidthFixed, weight);
    ImGui::TableSetupColumn("component", ImGuiTableColumnFlags_WidthStretch, 1.0f);
    ImGui::TableSetupColumn("lot", ImGuiTableColumnFlags_WidthStretch, 1.2f);
    ImGui::TableSetupColumn("on the shelf", ImGuiTableColumnFlags_WidthFixed, weight);
    ImGui::TableSetupColumn("left after", ImGuiTableColumnFlags_WidthFixed, weight + ui.px(24.0f));
    ImGui::TableSetupScrollFreeze(0, 1);
    ImGui::TableNextRow();
    for (const char* head : {"weigh out", "component", "lot", "on the shelf", "left after"})
        cell(ui, ui.fonts.small, ui.theme.quiet, head);
    for (const WeighLine& line : lines) line_of(ui, line);
    ImGui::EndTable();
    mark(ui, "weigh-out");
}

void words(const Ui& ui, CardItState& state) {
    record_row(ui, "Batts");
    edit_count(ui, "card it batts", state.words.batts, 1, most_batts);
    ImGui::SameLine(0.0f, ui.px(20.0f));
    text_in(ui, ui.fonts.body, ui.theme.quiet, "carded on");
    ImGui::SameLine();
    edit_text(ui, "card it date", state.words.date, ui.px(130.0f), "year-month-day");
    record_row(ui, "Note");
    edit_text(ui, "card it note", state.words.note, ImGui::GetContentRegionAvail().x,
              "how it went, what you would do another time");
}

void refusal(const Ui& ui, const CardItState& state) {
    if (state.short_lines.empty()) {
        if (!state.complaint.empty()) paragraph(ui, state.complaint, ui.theme.spoils);
        return;
    }
    text_in(ui, ui.fonts.bold, ui.theme.spoils, "Nothing was taken. These lots fall short:");
    for (const auto& line : state.short_lines)
        text_within(ui, ui.fonts.body, ui.theme.spoils,
                    line.mark + "  " + line.name + ": " + mass(ui, line.on_hand_grams) + " on the shelf of " +
                        mass(ui, line.wanted_grams) + " wanted",
                    ImGui::GetContentRegionAvail().x);
}

void outcome_of_it(const Ui& ui, CardItState& state) {
    begin_child("card it outcome", {0.0f, -(ImGui::GetFrameHeight() + ui.px(12.0f))});
    refusal(ui, state);
    if (!state.said.empty()) text_in(ui, ui.fonts.body, ui.theme.ink, state.said);
    if (state.taken) {
        const float beside = ui.px(120.0f);
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.bold, ui.theme.ink, state.taken->words,
                    ImGui::GetContentRegionAvail().x - beside);
        ImGui::SameLine(ImGui::GetContentRegionAvail().x - beside + ui.px(10.0f));
        if (button(ui, "Take back##card it back", Tone::plain, 0.0f,
                   "Puts the fibre back on the shelf, as if it had not been carded"))
            ui.ask.of_stash(TakeBack{state.taken->batt, {}}, Requester::take_back);
        text_in(ui, ui.fonts.body, ui.theme.quiet,
                "When it is off the drum, weigh it and write that down under Record.");
    }
    ImGui::EndChild();
}

void take_it(const Ui& ui, CardItState& state, const forecast::Forecast& forecast,
             const std::vector<WeighLine>& lines) {
    double grams = 0.0;
    std::set<std::string> lots;
    for (const WeighLine& line : lines) {
        grams += line.grams;
        lots.insert(line.mark);
    }
    const std::string title = recipe::title_of(forecast.recipe);
    const std::string name = title.empty() ? "this batt" : "\u201c" + title + "\u201d";
    state.asked =
        CardItState::Taken{0, mass(ui, grams) + " for " + name + " taken from " +
                                  std::to_string(lots.size()) + (lots.size() == 1 ? " lot." : " lots.")};
    state.asked_lines = lines;
    ui.ask.act(TakeFromShelf{state.words, static_cast<std::uint64_t>(Requester::card_it)});
}

void take_button(const Ui& ui, CardItState& state, const Outcome& outcome,
                 const std::vector<WeighLine>& lines) {
    const std::string reason = why_not(ui, outcome);
    ImGui::BeginDisabled(!reason.empty());
    if (button(ui, "Take from the shelf##card it take", Tone::accent, ui.px(200.0f),
               reason.empty() ? "All lines at once, or none of them" : reason))
        take_it(ui, state, *outcome.forecast, lines);
    ImGui::EndDisabled();
}

// What was begun is let go at the second press only.
bool may_leave_it(CardItState& state) {
    if (may_let_go(state.let_go_asked, typed_in({state.words.note}))) return true;
    state.complaint =
        "Nothing is taken from the shelf yet, and the note is in no record; press again to let it go.";
    return false;
}

void take_answers(const Ui& ui, CardItState& state) {
    if (const auto* answer = ui.answer_to(Requester::card_it)) {
        state.complaint = answer->complaint ? measure::to_line(*answer->complaint) : "";
        state.short_lines = answer->short_lines;
        state.said.clear();
        if (!answer->complaint && state.asked) {
            state.taken = std::exchange(state.asked, std::nullopt);
            state.taken->batt = answer->id;
            state.taken_lines = std::move(state.asked_lines);
        }
    }
    if (const auto* answer = ui.answer_to(Requester::take_back)) {
        state.short_lines.clear();
        state.complaint = answer->complaint ? measure::to_line(*answer->complaint) : "";
        if (!answer->complaint) {
            state.taken.reset();
            state.taken_lines.clear();
            state.said = "Taken back: the fibre is on the shelf again.";
        }
    }
}

}  // namespace

void view_card_it_button(const Ui& ui, const Outcome& outcome, ImVec2 corner) {
    const ImVec2 before = ImGui::GetCursorScreenPos();
    const float width = ui.px(160.0f);
    ImGui::SetCursorScreenPos({corner.x - width - ui.px(14.0f), corner.y + ui.px(8.0f)});
    const std::string reason = why_not(ui, outcome);
    ImGui::BeginDisabled(!reason.empty());
    if (button(
            ui, "Card from the shelf", reason.empty() ? Tone::accent : Tone::plain, width,
            reason.empty() ? "Take the weigh-out from the shelf and write the batt into the record" : reason))
        ui.ask.command(Command::card_it);
    ImGui::EndDisabled();
    ImGui::SetCursorScreenPos(before);
}

void prepare_card_it(CardItState& state, const Outcome& outcome) {
    state.words = {};
    state.let_go_asked.clear();
    state.words.date = stash::today();
    if (outcome.forecast) state.words.batts = static_cast<int>(outcome.forecast->weigh_out.batts);
    state.complaint.clear();
    state.short_lines.clear();
    state.taken_lines.clear();
    state.said.clear();
}

void view_card_it(const Ui& ui, const PanelHead& head, CardItState& state, const Outcome& outcome) {
    take_answers(ui, state);
    std::vector<WeighLine> lines = state.taken_lines;
    const bool done = !lines.empty();
    if (!done && outcome.forecast) lines = weigh_lines(*outcome.forecast, ui.stash.shelf());
    if (!begin_card(ui, head,
                    {ui.px(860.0f), ui.px(360.0f) + line_height(ui) * static_cast<float>(lines.size())}))
        return;
    const bool escape = record_escape(ui);
    table(ui, lines);
    gap(ui, 2.0f);
    words(ui, state);
    gap(ui, 2.0f);
    outcome_of_it(ui, state);
    if (!done) {
        take_button(ui, state, outcome, lines);
        ImGui::SameLine();
    }
    const bool back = button(ui, "Back to the bench##card it done", done ? Tone::accent : Tone::plain);
    if ((back || escape) && (done || may_leave_it(state))) ImGui::CloseCurrentPopup();
    end_card();
}

void report_card_it(const CardItState& state, Probe& probe) {
    auto& facts = probe.state;
    facts["card it complaint"] = state.complaint;
    std::string lines;
    for (const auto& line : state.short_lines) lines += line.mark + " " + line.name + "\n";
    facts["card it short"] = lines;
    facts["card it taken"] = state.taken ? state.taken->words : "";
    facts["card it said"] = state.said;
}

}  // namespace battwright::window
