// What was found: a card for each blend, or what stands in the way.
#include <algorithm>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/staple_words.hpp"
#include "app/find/find_choice.hpp"
#include "app/find/find_session.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_session.hpp"
#include "colour/large.hpp"
#include "forecast/forecast.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/find/find.hpp"

namespace battwright::window {
namespace {

constexpr float strip_height = 44.0f, swatch_width = 132.0f, swatch_height = 24.0f;  // design pixels
constexpr std::size_t most_rows = 7;  // of weights on a card; the rest under the pointer

std::string title(const Ui& ui, const FoundBlends& found, std::size_t index) {
    const auto& proposal = found.blends[index].suggestion.proposal;
    std::string words = std::to_string(index + 1) + "   " + mass(ui, proposal.total_grams);
    if (proposal.batts > 1) words += " in " + std::to_string(proposal.batts) + " equal batts";
    if (proposal.cost) words += "   cost " + print_money({*proposal.cost, ui.stash.currency()});
    if (found.problem.problem.goal.use_up)
        words += "   uses up " + measure::print_percent(100.0 * proposal.used_share);
    return words;
}

// Target and result side by side under one light, with the difference behind them.
void swatch_pair(const Ui& ui, const SeenPair& seen, const std::string& difference) {
    const auto& light = measure::row_of(colour::all_lights, seen.light);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float half = ui.px(0.5f * 84.0f), height = ui.px(swatch_height);
    // Nothing between the two: where they meet, the eye sees the least difference.
    const ImVec2 high{at.x + 2.0f * half, at.y + height};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(at, {at.x + half, high.y}, u32(colour::clipped(seen.wanted)));
    list.AddRectFilled({at.x + half, at.y}, high, u32(colour::clipped(seen.got)));
    list.AddRect(at, high, u32(ui.theme.edge));
    ImGui::Dummy({2.0f * half, height});
    hover(ui,
          "Left what is wanted, right what comes out, in " + std::string(light.phrase) + " (" +
              std::string(light.word) +
              "). Up to 5 the number is CIEDE2000, and under 1 one hardly sees it; beyond that it is another "
              "colour, and the whole number is on a scale made for large differences (CAM02-LCD).");
    ImGui::SameLine(0.0f, ui.px(6.0f));
    text_in(ui, ui.fonts.bold, ui.theme.ink, difference.empty() ? "\u0394E \u2013" : difference);
}

void colours(const Ui& ui, const FoundBlends& found, std::size_t index) {
    const FoundBlend& blend = found.blends[index];
    const auto& proposal = blend.suggestion.proposal;
    ImGui::BeginGroup();
    if (!blend.daylight || !blend.second) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        swatch(ui, proposal.srgb, at, {at.x + ui.px(84.0f), at.y + ui.px(swatch_height)});
        ImGui::Dummy({ui.px(84.0f), ui.px(swatch_height)});
        text_in(ui, ui.fonts.small, ui.theme.quiet, colour::hex(proposal.srgb));
    } else {
        text_in(ui, ui.fonts.small, ui.theme.quiet, "daylight: wanted, got");
        swatch_pair(ui, *blend.daylight,
                    proposal.delta_e ? difference_words(*proposal.delta_e, proposal.difference) : "");
        const bool near = proposal.delta_e && *proposal.delta_e <= colour::near_de00;
        text_in(ui, ui.fonts.small, ui.theme.quiet,
                text::lower(measure::row_of(colour::all_lights, blend.second->light).label));
        swatch_pair(ui, *blend.second,
                    near && proposal.delta_e_second ? difference_words(*proposal.delta_e_second, {}) : "");
    }
    ImGui::EndGroup();
}

std::string left_words(const Ui& ui, const FoundBlends& found, const solve::Proposal& proposal,
                       std::size_t lot) {
    // What a gradient leaves depends on its other batts.
    if (!found.problem.targets.empty()) return "";
    const double left = proposal.left_grams[lot];
    return left > 0.0 ? mass(ui, left) + " left" : "all of it";
}

void weights(const Ui& ui, const FoundBlends& found, std::size_t index, float width) {
    const auto& suggestion = found.blends[index].suggestion;
    const auto& proposal = suggestion.proposal;
    ImGui::BeginGroup();
    const float start = ImGui::GetCursorPosX();
    std::string rest;
    std::size_t rows = 0, more = 0, component = 0;
    for (std::size_t lot = 0; lot < proposal.grams.size(); ++lot) {
        if (!(proposal.grams[lot] > 0.0)) continue;
        const std::string& name = suggestion.forecast.components[component++].label;
        const std::string weight = mass(ui, proposal.grams[lot]);
        if (++rows > most_rows) {
            rest.append(weight).append("  ").append(name).append("\n");
            ++more;
            continue;
        }
        text_in(ui, ui.fonts.bold, ui.theme.ink, weight);
        ImGui::SameLine(start + ui.px(64.0f));
        text_within(ui, ui.fonts.body, ui.theme.ink, name, width - ui.px(150.0f));
        ImGui::SameLine(start + width - ui.px(80.0f));
        text_in(ui, ui.fonts.body, ui.theme.quiet, left_words(ui, found, proposal, lot));
    }
    if (more > 0) {
        text_in(ui, ui.fonts.body, ui.theme.quiet, "and " + std::to_string(more) + " more lots");
        hover(ui, rest);
    }
    ImGui::EndGroup();
}

void findings(const Ui& ui, const forecast::Forecast& forecast, float width) {
    const auto* worst = shelving::worst_of(forecast);
    if (worst == nullptr) {
        text_in(ui, ui.fonts.body, ui.theme.quiet, "No findings");
        return;
    }
    const std::size_t count = forecast.findings.size();
    std::string all;
    for (const auto& finding : forecast.findings)
        all += (all.empty() ? "" : "\n\n") + in_own_units(finding.text_with_quantities, ui.settings);
    text_within(ui, ui.fonts.body, colour_of(ui.theme, worst->severity),
                std::to_string(count) + (count == 1 ? " finding: " : " findings: ") + worst->text, width);
    hover(ui, all);
}

void strip_of(const Ui& ui, const FindState& state, std::size_t index, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 high{at.x + width, at.y + ui.px(strip_height)};
    const bool drawn = state.strips.key() && *state.strips.key() && index < state.strips.value().size() &&
                       !state.strips.key().value()->blends[index].strip.rgb.empty();
    if (drawn)
        ImGui::GetWindowDrawList()->AddImageRounded(state.strips.value()[index].id(), at, high, {0, 0},
                                                    {1, 1}, IM_COL32_WHITE, ui.px(5.0f));
    else
        ImGui::GetWindowDrawList()->AddRectFilled(
            at, high, u32(ui.find.shown().latest->blends[index].suggestion.proposal.srgb), ui.px(5.0f));
    ImGui::Dummy({width, ui.px(strip_height)});
}

float card_height(const Ui& ui, const FoundBlends& found, std::size_t index) {
    const auto& grams = found.blends[index].suggestion.proposal.grams;
    const auto used = static_cast<std::size_t>(
        std::count_if(grams.begin(), grams.end(), [](double weight) { return weight > 0.0; }));
    const float line = ImGui::GetTextLineHeightWithSpacing();
    const float rows = static_cast<float>(std::min(used, most_rows + 1)) * line;
    const float swatches = target_of(found, index) != nullptr ? ui.px(104.0f) : ui.px(54.0f);
    return ui.px(strip_height + 34.0f) + ImGui::GetFrameHeight() + 1.2f * line + std::max(rows, swatches);
}

void card(const Ui& ui, FindState& state, const FindSubject& subject, const FoundBlends& found,
          std::size_t index) {
    ImGui::PushID(static_cast<int>(index));
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.raised));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {ui.px(10.0f), ui.px(8.0f)});
    begin_child("blend", {0.0f, card_height(ui, found, index)}, true,
                ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse |
                    ImGuiWindowFlags_AlwaysUseWindowPadding);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor();
    const float width = ImGui::GetContentRegionAvail().x, take = ui.px(146.0f);
    const float top = ImGui::GetCursorPosY();
    ImGui::AlignTextToFramePadding();
    text_within(ui, ui.fonts.bold, ui.theme.ink, title(ui, found, index), width - take - ui.px(8.0f));
    ImGui::SetCursorPos({ImGui::GetWindowWidth() - take - ui.px(10.0f), top});
    const std::string label = "take blend " + std::to_string(index + 1);
    if (button(ui, "Take to the bench##" + label, Tone::accent, take,
               "These fibres become the batt on the bench; undo brings the old ones back")) {
        ui.ask.edit(take_to_bench(subject.sheet, found.blends[index].suggestion.recipe()),
                    "take a found blend");
        ImGui::CloseCurrentPopup();
    }
    strip_of(ui, state, index, width);
    const float room = width - ui.px(swatch_width + 22.0f);
    const float line = ImGui::GetCursorPosY();
    weights(ui, found, index, room);
    ImGui::SetCursorPos({ImGui::GetWindowWidth() - ui.px(swatch_width + 16.0f), line});
    colours(ui, found, index);
    ImGui::SetCursorPosY(ImGui::GetWindowHeight() - ImGui::GetTextLineHeightWithSpacing() - ui.px(6.0f));
    findings(ui, found.blends[index].suggestion.forecast, width);
    ImGui::EndChild();
    mark(ui, "blend " + std::to_string(index + 1));
    ImGui::PopID();
}

void conflict(const Ui& ui, FindState& state, const FoundBlends& found) {
    std::string words = text::capitalised(found.conflict->words);
    if (!found.problem.targets.empty())
        words = "Batt " + std::to_string(found.conflict_at + 1) + " of the gradient cannot be made. " + words;
    paragraph(ui, words + ".", ui.theme.warning);
    mark(ui, "find conflict");
    const auto& changes = found.conflict->least_change;
    if (changes.empty()) return;
    gap(ui, 4.0f);
    if (button(ui, "Make the least change##least change", Tone::accent, 0.0f, changes.front().words))
        state.choice = with_changes(state.choice, found.problem, changes, ui.settings.mass);
    gap(ui, 8.0f);
}

std::string found_words(const Ui& ui) {
    if (!ui.find.shown().latest) return "";
    const std::size_t count = ui.find.shown().latest->blends.size();
    if (count == 0) return "No blend is like that";
    if (!ui.find.shown().latest->problem.targets.empty())
        return std::to_string(count) + " batts, from the one colour to the other";
    return count == 1 ? "One blend" : std::to_string(count) + " blends, the best first";
}

// What is going on, on one line of its own.
void status(const Ui& ui) {
    const float width = ImGui::GetContentRegionAvail().x;
    if (ui.find.shown().busy && !ui.find.complaint()) {
        const float stop = ui.px(72.0f);
        ImGui::PushStyleColor(ImGuiCol_PlotHistogram, vec4(ui.theme.accent));
        ImGui::ProgressBar(static_cast<float>(ui.find.shown().done), {ui.px(150.0f), ImGui::GetFrameHeight()},
                           "");
        ImGui::PopStyleColor();
        mark(ui, "find progress");
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.body, ui.theme.quiet,
                    ui.find.shown().doing.empty() ? "looking\u2026" : ui.find.shown().doing + "\u2026",
                    width - stop - ui.px(180.0f));
        ImGui::SameLine(width - stop);
        if (button(ui, "Stop##find stop", Tone::plain, stop)) {
            ui.ask.act(StopFind{});
            ui.ask.another_frame = true;
        }
        return;
    }
    ImGui::AlignTextToFramePadding();
    if (ui.find.complaint()) {
        text_within(ui, ui.fonts.body, ui.theme.quiet, "Nothing is looked for until this is mended:", width);
        paragraph(ui, text::capitalised(ui.find.complaint()->what) + "; " + ui.find.complaint()->mend,
                  ui.theme.ink);
        mark_words(ui, "find complaint");
    } else if (ui.find.stopped()) {
        text_in(ui, ui.fonts.body, ui.theme.quiet, "Stopped.");
        ImGui::SameLine();
        if (button(ui, "Look again##find again")) ui.ask.act(FindAgain{});
    } else {
        text_in(ui, ui.fonts.body, ui.theme.quiet, found_words(ui));
    }
}

}  // namespace

std::string difference_words(double de00, std::optional<double> large) {
    const auto told = colour::told(de00, large);
    return told.near ? "\u0394E " + told.figure : told.figure + " away";
}

void view_find_blends(const Ui& ui, FindState& state, const FindSubject& subject) {
    status(ui);
    begin_child("find blends", {0.0f, 0.0f});
    if (const auto found = ui.find.shown().latest; found && !ui.find.complaint()) {
        if (found->complaint) paragraph(ui, measure::to_line(*found->complaint), ui.theme.warning);
        if (found->conflict) conflict(ui, state, *found);
        for (std::size_t i = 0; i < found->blends.size(); ++i) card(ui, state, subject, *found, i);
    } else if (ui.find.complaint()) {
        paragraph(ui, "Choose what to blend on the left, and what to aim for; what can be made shows here.",
                  ui.theme.quiet);
    }
    ImGui::EndChild();
}

}  // namespace battwright::window
