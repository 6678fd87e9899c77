// Small cards: messages, questions, appearance, help and the guide.
#include <algorithm>
#include <array>
#include <cmath>

#include "app/bench/bench_actions.hpp"
#include "app/settings.hpp"
#include "app/state.hpp"
#include "measure/unit_tables.hpp"
#include "window/kit/terms.hpp"
#include "window/kit/widgets.hpp"
#include "window/shell/commands.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr std::array<std::array<const char*, 2>, 9> steps{{
    {"What goes in",
     "On the left is the fibre. Add a fibre by typing what you know of it, then say how much: 25 g, "
     "3 1/2 oz, 40 % or 2 parts. What you typed last holds, what has a padlock is never touched, the rest "
     "gives way."},
    {"Its colours",
     "Press a wisp to change its colours: by name, by eye, from a photo. A braid of several colours is one "
     "fibre with several colours."},
    {"On the drum",
     "The middle shows the layers as you feed them, the first at the teeth. Below it: how much the drum "
     "holds, which carder, how many passes, and the steps to follow at the carder. Lay by hand opens the "
     "drum flat, to lay fibre where you want it."},
    {"What comes out",
     "On the right: the blended colour, the fibre lengths, and what a practised spinner would say. "
     "Hover over a word to see what it means and who says so."},
    {"As carded",
     "The strip along the bottom shows the fibre itself. Change the light, the passes and how far away you "
     "stand. When you like it, save it: the file is plain text."},
    {"Your shelf",
     "Press The shelf at the top of the left panel. Write down each bag once: what it is, how much, its "
     "colours. Then drag a bag onto the drum, or press Ctrl+Enter on it, to put some of it in the batt."},
    {"Card from the shelf",
     "When a batt is made of bags from the shelf, Card from the shelf takes the weights off them and "
     "writes the batt into the record."},
    {"The record",
     "Record keeps the batts you carded and the skeins you spun of them. Each measured skein teaches the "
     "forecast what your hands do, so that the next one is nearer."},
    {"Find a blend",
     "Find tells what can be made of the bits you have, or which of them come nearest to a colour. Take "
     "an answer to the bench and go on from there."},
}};

}  // namespace

void view_messages(const Ui& ui, ImVec2 corner) {
    const auto& messages = ui.app.messages;
    if (messages.empty()) return;
    ImGui::SetNextWindowPos(corner, ImGuiCond_Always, {1.0f, 1.0f});
    ImGui::SetNextWindowSize({ui.px(460.0f), 0.0f});
    ImGui::SetNextWindowSizeConstraints({0.0f, 0.0f}, {ui.px(460.0f), ui.px(320.0f)});
    ImGui::PushStyleColor(ImGuiCol_Border, vec4(ui.theme.spoils));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {ui.px(16.0f), ui.px(12.0f)});
    ImGui::Begin("messages", nullptr,
                 ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoFocusOnAppearing);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor();
    for (std::size_t i = 0; i < messages.size(); ++i) {
        ImGui::PushID(static_cast<int>(i));
        const std::string line = measure::to_line(messages[i]);
        paragraph(ui, line, ui.theme.ink);
        if (button(ui, "Understood##dismiss " + std::to_string(i + 1), Tone::plain, ui.px(110.0f)))
            ui.ask.act(Dismiss{i});
        ImGui::SameLine();
        if (button(ui, "Copy", Tone::plain, ui.px(80.0f))) ImGui::SetClipboardText(line.c_str());
        ImGui::PopID();
    }
    ImGui::End();
}

namespace {

// In rows no wider than `width` pixels: for each answer, whether it begins one.
std::vector<bool> begins_row(const Ui& ui, const std::vector<std::string>& answers, float width) {
    const ImGuiStyle& style = ImGui::GetStyle();
    std::vector<bool> begins;
    float used = 0.0f;
    for (const auto& answer : answers) {
        const float own = width_of(ui.fonts.body, answer) + 2.0f * style.FramePadding.x;
        begins.push_back(begins.empty() || used + style.ItemSpacing.x + own > width);
        used = begins.back() ? own : used + style.ItemSpacing.x + own;
    }
    return begins;
}

}  // namespace

std::optional<std::size_t> view_question(const Ui& ui, const char* id, std::string_view title,
                                         std::string_view words, const std::vector<std::string>& answers) {
    std::optional<std::size_t> answer;
    ImGui::OpenPopup(id);
    const auto begins = begins_row(ui, answers, ui.px(520.0f));
    const auto rows = static_cast<float>(std::count(begins.begin(), begins.end(), true));
    const float row = ImGui::GetFrameHeightWithSpacing();
    if (!begin_card(ui, id, title, {ui.px(560.0f), ui.px(210.0f) + (rows - 1.0f) * row})) return answer;
    paragraph(ui, words, ui.theme.ink);
    ImGui::SetCursorPosY(ImGui::GetWindowHeight() - rows * row - ui.px(12.0f));
    for (std::size_t i = 0; i < answers.size(); ++i) {
        if (!begins[i]) ImGui::SameLine();
        if (button(ui, answers[i], i == 0 ? Tone::accent : Tone::plain)) answer = i;
    }
    if (key_pressed(ImGuiKey_Escape)) answer = answers.size() - 1;
    if (answer) ImGui::CloseCurrentPopup();
    end_card();
    return answer;
}

// One of the units that have a label.
template <class Row, std::size_t n>
void choose_unit(const Ui& ui, const std::string& name, const std::array<Row, n>& rows,
                 decltype(Row::value)& unit) {
    std::vector<std::string> labels;
    std::vector<decltype(Row::value)> offered;
    std::size_t chosen = 0;
    for (const Row& row : rows) {
        if (row.label.empty()) continue;
        if (row.value == unit) chosen = offered.size();
        labels.emplace_back(row.label);
        offered.push_back(row.value);
    }
    if (const auto pressed = choices(ui, name, labels, chosen)) unit = offered[*pressed];
}

void view_preferences(const Ui& ui, const PanelHead& head) {
    if (!begin_card(ui, head, {ui.px(480.0f), ui.px(360.0f)})) return;
    Settings settings = ui.settings;
    const auto row = [&](std::string_view words) { row_label(ui, words, 130.0f); };
    row("Theme");
    choose(ui, "theme", {"Light", "Dark"}, settings.shade);
    row("Size");
    static constexpr std::array<double, 5> sizes{0.85, 1.0, 1.15, 1.3, 1.6};
    const auto away = [&](double one) { return std::abs(one - settings.scale); };
    const auto nearest = static_cast<std::size_t>(std::ranges::min_element(sizes, {}, away) - sizes.begin());
    const auto size = choices(ui, "size", {"85 %", "100 %", "115 %", "130 %", "160 %"}, nearest);
    if (size) settings.scale = sizes[*size];
    row("Weights in");
    choose_unit(ui, "weights", measure::mass_units, settings.mass);
    row("Lengths in");
    choose_unit(ui, "lengths", measure::length_units, settings.length);
    row("Money in");
    edit_text(ui, "currency", settings.currency, ui.px(110.0f), "EUR, kr, ...");
    hover(ui, "Your own word for your money. New costs on the shelf are in it.");
    paragraph(ui, "Recipes keep the units they were written in; this is only how they are shown.",
              ui.theme.quiet);
    if (settings != ui.settings) ui.ask.act(ChangeSettings{settings});
    gap(ui, 6.0f);
    leave_button(ui, "Done##preferences done", escape_pressed(ui), Tone::accent, ui.px(110.0f));
    end_card();
}

void view_help(const Ui& ui, const PanelHead& head) {
    if (!begin_card(ui, head, card_size(ui, {ui.px(820.0f), ui.px(640.0f)}, {0.0f, 400.0f}))) return;
    const float foot = ImGui::GetFrameHeight() + ui.px(14.0f);
    begin_child("pages", {0.0f, ImGui::GetContentRegionAvail().y - foot});
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Keys");
    for (const Shortcut& shortcut : shortcuts_shown()) {
        text_in(ui, ui.fonts.bold, ui.theme.accent, shortcut.keys);
        ImGui::SameLine(ui.px(220.0f));
        paragraph(ui, shortcut.does, ui.theme.ink);
    }
    gap(ui, 8.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Words");
    for (const auto& term : terms()) {
        text_in(ui, ui.fonts.bold, ui.theme.accent, term.name);
        paragraph(ui, term.meaning, ui.theme.ink);
        ImGui::PushFont(ui.fonts.small);
        paragraph(ui, term.source, ui.theme.quiet);
        ImGui::PopFont();
        gap(ui, 4.0f);
    }
    ImGui::EndChild();
    leave_button(ui, "Back to the bench", escape_pressed(ui), Tone::accent);
    end_card();
}

void view_guide(const Ui& ui, const PanelHead& head, std::size_t& step) {
    if (!begin_card(ui, head, {ui.px(520.0f), ui.px(250.0f)})) return;
    step = std::min(step, steps.size() - 1);
    text_in(ui, ui.fonts.small, ui.theme.quiet,
            std::to_string(step + 1) + " of " + std::to_string(steps.size()));
    text_in(ui, ui.fonts.title, ui.theme.ink, steps[step][0]);
    gap(ui, 4.0f);
    paragraph(ui, steps[step][1], ui.theme.ink);
    ImGui::SetCursorPosY(ImGui::GetWindowHeight() - ImGui::GetFrameHeight() - ui.px(18.0f));
    bool leave = key_pressed(ImGuiKey_Escape);
    const bool last = step + 1 == steps.size();
    if (button(ui, last ? "To the bench##guide on" : "Next##guide on", Tone::accent, ui.px(120.0f))) {
        if (last)
            leave = true;
        else
            ++step;
    }
    ImGui::SameLine();
    if (button(ui, "Show me on an example", Tone::plain)) {
        ui.ask.command(Command::example);
        leave = true;
    }
    ImGui::SameLine();
    if (button(ui, "Skip##guide skip", Tone::plain)) leave = true;
    if (leave) {
        ImGui::CloseCurrentPopup();
        if (!ui.settings.guide_seen) {
            Settings settings = ui.settings;
            settings.guide_seen = true;
            ui.ask.act(ChangeSettings{settings});
        }
    }
    end_card();
}

}  // namespace battwright::window
