#include <algorithm>
#include <array>

#include "app/bench/disagreement.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/bench/staple_words.hpp"
#include "app/look.hpp"
#include "app/settings.hpp"
#include "forecast/forecast.hpp"
#include "staple/findings.hpp"
#include "text/numbers.hpp"
#include "text/words.hpp"
#include "window/kit/terms.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/out/yarn.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

using text::number;

void swatch(const Ui& ui, const forecast::Forecast& forecast, float width, float height) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton("swatch", {width, height});
    mark(ui, "swatch");
    std::string words = "The colour of all of it blended so finely that the eye cannot part the fibres.";
    for (const auto& note : forecast.left_out) words += "\n\u00b7 " + note;
    hover(ui, words);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const auto& colour = forecast.colour.srgb;
    list.AddRectFilled(at, {at.x + width, at.y + height}, u32(colour), ui.px(8.0f));
    list.AddRect(at, {at.x + width, at.y + height}, u32(ui.theme.edge), ui.px(8.0f));
    const auto ink = readable_on(colour);
    const auto& lab = forecast.colour.lab;
    const std::string words_lab = "L " + number(lab.l) + "  a " + number(lab.a) + "  b " + number(lab.b);
    put_text(ui.fonts.bold, ink, {at.x + ui.px(10.0f), at.y + height - ui.px(46.0f)}, colour::hex(colour));
    put_text(ui.fonts.small, ink, {at.x + ui.px(10.0f), at.y + height - ui.px(24.0f)}, words_lab);
}

struct Number {
    const char* term = "";
    std::string value;
    std::string doubt{};  // how far it may be off, in words
};

void number_cell(const Ui& ui, const Number& number, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton(number.term, {width, ui.px(42.0f)});
    mark(ui, number.term);
    if (const Term* term = number.doubt.empty() ? nullptr : find_term(number.term); term != nullptr)
        hover(ui, std::string(term->meaning) + "\n" + number.doubt + "\n" + std::string(term->source));
    else
        hover_term(ui, number.term);
    put_text(ui.fonts.small, ui.theme.quiet, at, number.term);
    put_text(ui.fonts.bold, ui.theme.ink, {at.x, at.y + ui.px(17.0f)}, number.value);
}

void number_cells(const Ui& ui, const std::array<Number, 9>& numbers, float width) {
    const float cell = width / 3.0f, height = ui.px(42.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const std::size_t row = i / 3;
        ImGui::SetCursorScreenPos(
            {at.x + cell * static_cast<float>(i % 3), at.y + height * static_cast<float>(row)});
        number_cell(ui, numbers[i], cell);
    }
    ImGui::SetCursorScreenPos({at.x, at.y + 3.0f * height});
}

// An empty bench shows where things will stand, and the words can already be asked about.
void nothing_yet(const Ui& ui) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 size{ui.px(146.0f), ui.px(126.0f)};
    ImGui::Dummy(size);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRect(at, {at.x + size.x, at.y + size.y}, u32(ui.theme.line), ui.px(8.0f), 0, ui.px(1.5f));
    const char* words = "blended colour";
    const ImVec2 wide = ImGui::CalcTextSize(words);
    list.AddText({at.x + 0.5f * (size.x - wide.x), at.y + 0.5f * (size.y - wide.y)}, u32(ui.theme.quiet),
                 words);
    ImGui::SameLine(0.0f, ui.px(16.0f));
    std::array<Number, 9> numbers;
    const std::array<const char*, 9> names{"Mean length", "Spread",         "Short fibre",
                                           "Longest",     "Thickness",      "Prickle",
                                           "Hands apart", "Twist to start", "Fibre weight"};
    for (std::size_t i = 0; i < names.size(); ++i) numbers[i] = {names[i], "\u2013"};
    number_cells(ui, numbers, ImGui::GetContentRegionAvail().x);
    gap(ui, 8.0f);
    paragraph(ui,
              "Colour, length, softness and what a practised spinner would say of the mixture appear here as "
              "soon as there is fibre on the bench. Hover over a word to see what it means.",
              ui.theme.ink);
}

}  // namespace

void view_numbers(const Ui& ui, const forecast::Forecast& forecast, float width) {
    const auto unit = ui.settings.length;
    const StapleWords words = staple_words(forecast, ui.settings);
    number_cells(ui,
                 {{{"Mean length", words.mean_length, words.length_doubt},
                   {"Spread", number(forecast.length.cv_pct) + " %"},
                   {"Short fibre", number(forecast.length.short_share_pct, 1) + " %"},
                   {"Longest", measure::print_length(forecast.length.p95_mm, unit)},
                   {"Thickness", words.mean_diameter, words.diameter_doubt},
                   {"Prickle", words.prickle, words.prickle_doubt},
                   {"Hands apart", measure::print_length(forecast.drafting.hands_apart_mm, unit)},
                   {"Twist to start", number(forecast.drafting.twist_angle_degrees) + "\u00b0"},
                   {"Fibre weight", number(forecast.fibre_tex, 2) + " tex"}}},
                 width);
}

namespace {

// "Warning: merino, silk"
std::string title_of(const staple::Finding& finding, const forecast::Forecast& forecast) {
    std::vector<std::string> names;
    for (const std::size_t k : finding.components) {
        if (k >= forecast.components.size()) continue;
        const std::string& label = forecast.components[k].label;
        if (std::find(names.begin(), names.end(), label) == names.end()) names.push_back(label);
    }
    const std::string kind = text::capitalised(std::string(staple::word_for(finding.severity)));
    return kind + (names.empty() ? "" : ": " + text::listed(names));
}

std::string counted_of(std::ptrdiff_t count, staple::Severity severity) {
    const std::string number = std::to_string(count) + " ";
    switch (severity) {
        case staple::Severity::spoils:
            return number + "would spoil it";
        case staple::Severity::warning:
            return number + (count == 1 ? "warning" : "warnings");
        case staple::Severity::advice:
            break;
    }
    return number + "advice";
}

// "3 findings: 1 would spoil it, 2 advice"
std::string count_of(const std::vector<staple::Finding>& findings) {
    std::string parts;
    using staple::Severity;
    for (const auto severity : {Severity::spoils, Severity::warning, Severity::advice}) {
        const auto count = std::count_if(findings.begin(), findings.end(),
                                         [&](const auto& finding) { return finding.severity == severity; });
        if (count > 0) parts += (parts.empty() ? "" : ", ") + counted_of(count, severity);
    }
    return std::to_string(findings.size()) + (findings.size() == 1 ? " finding: " : " findings: ") + parts;
}

void whole_finding(const Ui& ui, const staple::Finding& finding) {
    paragraph(ui, in_own_units(finding.text_with_quantities, ui.settings), ui.theme.ink);
    paragraph(ui, in_own_units(finding.remedy_with_quantities, ui.settings), ui.theme.ink);
    const bool published = finding.basis == staple::Basis::published;
    ImGui::PushFont(ui.fonts.small);
    paragraph(ui, published ? "Published: " + finding.source : "Common practice, no source", ui.theme.quiet);
    ImGui::PopFont();
}

// The title; folded in, as much of the finding beside it as there is room for.
void head_words(const Ui& ui, const staple::Finding& finding, const forecast::Forecast& forecast, ImVec2 at,
                float room, bool open) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float height = ImGui::GetFrameHeight();
    ImGui::PushFont(ui.fonts.bold);
    const std::string title = cut_to(title_of(finding, forecast), room);
    ImGui::PopFont();
    list.AddText(ui.fonts.bold, ui.fonts.bold->FontSize,
                 {at.x, at.y + 0.5f * (height - ui.fonts.bold->FontSize)},
                 u32(colour_of(ui.theme, finding.severity)), title.c_str());
    if (open) return;
    const std::string words = in_own_units(finding.text_with_quantities, ui.settings);
    hover(ui, words + "\n" + in_own_units(finding.remedy_with_quantities, ui.settings));
    const float left = width_of(ui.fonts.bold, title) + ui.px(8.0f);
    if (room - left < ui.px(60.0f)) return;
    ImGui::PushFont(ui.fonts.small);
    const std::string shown = cut_to(words, room - left);
    ImGui::PopFont();
    list.AddText(ui.fonts.small, ui.fonts.small->FontSize,
                 {at.x + left, at.y + 0.5f * (height - ui.fonts.small->FontSize)}, u32(ui.theme.ink),
                 shown.c_str());
}

void take_advice(const Ui& ui, const Sheet& sheet, const staple::Finding& finding) {
    if (finding.action != staple::Remedy::see_in_light)
        return ui.ask.edit(apply_remedy(sheet, finding), "take the advice");
    Look look = ui.look;
    look.light = static_cast<colour::Light>(std::lround(finding.action_value));
    ui.ask.act(LookAt{look});
}

// Its title, pressed to fold it out or in, and at the right what can be done about it. True: folded out.
bool finding_head(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, std::size_t i,
                  bool open) {
    const auto& finding = forecast.findings[i];
    const std::string number = std::to_string(i + 1);
    const float height = ImGui::GetFrameHeight(), width = ImGui::GetContentRegionAvail().x;
    const float act = can_apply(finding) ? ui.px(126.0f) : 0.0f;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (ImGui::InvisibleButton("head", {std::max(1.0f, width - act - ui.px(6.0f)), height})) open = !open;
    mark(ui, "finding " + number);
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (live) list.AddRectFilled(at, ImGui::GetItemRectMax(), u32(ui.theme.hover), ui.px(5.0f));
    const ImVec2 c{at.x + ui.px(8.0f), at.y + 0.5f * height};
    const float r = ui.px(4.0f);
    if (open)
        list.AddTriangleFilled({c.x - r, c.y - 0.6f * r}, {c.x + r, c.y - 0.6f * r}, {c.x, c.y + r},
                               u32(ui.theme.quiet));
    else
        list.AddTriangleFilled({c.x - 0.6f * r, c.y - r}, {c.x - 0.6f * r, c.y + r}, {c.x + r, c.y},
                               u32(ui.theme.quiet));
    head_words(ui, finding, forecast, {at.x + ui.px(20.0f), at.y}, width - act - ui.px(30.0f), open);
    if (act > 0.0f) {
        ImGui::SetCursorScreenPos({at.x + width - act, at.y});
        if (button(ui, std::string(remedy_in_words(finding.action)) + "##remedy " + number, Tone::plain, act))
            take_advice(ui, sheet, finding);
    }
    ImGui::SetCursorScreenPos({at.x, at.y + height + ui.px(2.0f)});
    return open;
}

}  // namespace

void view_findings(const Ui& ui, const Sheet& sheet, const forecast::Forecast& forecast, Pointing& pointing) {
    const auto& findings = forecast.findings;
    if (findings.empty()) {
        text_in(ui, ui.fonts.body, ui.theme.advice, "Nothing stands against this mixture.");
        return;
    }
    // With room for all of them they stand folded out, else as many as possible are in sight.
    const bool room = ImGui::GetContentRegionAvail().y > ui.px(130.0f) * static_cast<float>(findings.size());
    ImGuiStorage& kept = *ImGui::GetStateStorage();
    for (std::size_t i = 0; i < findings.size(); ++i) {
        const auto& finding = findings[i];
        ImGui::PushID(finding.code.c_str());
        ImGui::PushID(static_cast<int>(i));
        const ImVec2 low = ImGui::GetCursorScreenPos();
        ImGui::Indent(ui.px(8.0f));
        const ImGuiID turned = ImGui::GetID("turned");
        const bool usual = room || findings.size() == 1;
        const bool open = finding_head(ui, sheet, forecast, i, kept.GetBool(turned) != usual);
        kept.SetBool(turned, open != usual);
        if (open) whole_finding(ui, finding);
        ImGui::Unindent(ui.px(8.0f));
        const ImVec2 high = ImGui::GetCursorScreenPos();
        ImGui::GetWindowDrawList()->AddRectFilled(low, {low.x + ui.px(4.0f), high.y - ui.px(4.0f)},
                                                  u32(colour_of(ui.theme, finding.severity)), ui.px(2.0f));
        const float right = low.x + ImGui::GetContentRegionAvail().x;
        if (ImGui::IsWindowHovered() && ImGui::IsMouseHoveringRect(low, {right, high.y}))
            pointing.next.insert(finding.components.begin(), finding.components.end());
        ImGui::PopID();
        ImGui::PopID();
        gap(ui, 1.0f);
    }
}

namespace {

// What it is fit for by its diameters, and a line for each thing that is no fibre of the mixture.
void lies_among(const Ui& ui, const forecast::Forecast& forecast) {
    const StapleWords words = staple_words(forecast, ui.settings);
    const float width = ImGui::GetContentRegionAvail().x;
    if (!words.feel.empty()) {
        text_within(ui, ui.fonts.body, ui.theme.ink, words.feel, width);
        hover(ui, words.feel +
                      ", by the share of its length over 30 \u00b5m, the published limit of prickle, "
                      "else by its mean (common practice, no source).");
        mark(ui, "feel");
    }
    for (const std::string& line : words.inclusions)
        text_within(ui, ui.fonts.small, ui.theme.quiet, line, width);
    if (!words.inclusions.empty()) mark(ui, "inclusions");
}

// "Yarn  163 to 301 m, super fine (14 wraps per inch), 2 plies": leads to all there is to say of it.
void yarn_line(const Ui& ui, const forecast::Forecast& forecast, YarnState& state) {
    const auto& yarn = forecast.yarn;
    if (yarn.length_m <= 0.0) return;
    const YarnHead& head = state.words().head;
    const std::string plies = yarn.plies == 1 ? "a single" : std::to_string(yarn.plies) + " plies";
    const std::string words = "Yarn  " + head.range + ", " + yarn.class_name + " (" + number(yarn.wpi) +
                              " wraps per inch), " + plies +
                              (yarn.spinnable ? "" : ": finer than this fibre spins");
    const float width = ImGui::GetContentRegionAvail().x;
    ImGui::PushStyleVar(ImGuiStyleVar_ButtonTextAlign, {0.0f, 0.5f});
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {ui.px(8.0f), ui.px(6.0f)});
    const std::string shown = cut_to(words, width - ui.px(34.0f));
    if (button(ui, shown + " \u203a##yarn", Tone::plain, width,
               head.range + ": " + head.middle + ". " + head.kind + ". Press for the whole of it."))
        state.shown = true;
    ImGui::PopStyleVar(2);
}

// The batt as it is, or the yarn it can become.
void head(const Ui& ui, YarnState& state) {
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float lift = 0.5f * (ImGui::GetFrameHeight() - ui.fonts.title->FontSize);
    ImGui::SetCursorScreenPos({start.x, start.y + lift});
    text_in(ui, ui.fonts.title, ui.theme.ink, "What comes out");
    const float side = ui.px(94.0f), right = start.x + ImGui::GetContentRegionAvail().x;
    ImGui::SetCursorScreenPos({right - 2.0f * side - ui.px(3.0f), start.y});
    choose(ui, "comes out", {"The batt", "The yarn"}, state.shown, side);
}

}  // namespace

void view_out(const Ui& ui, const Sheet& sheet, const Outcome& outcome, Pointing& pointing, YarnState& yarn,
              ImVec2 at, ImVec2 size) {
    begin_panel(ui, "out", "", at, size);
    head(ui, yarn);
    if (yarn.shown) {
        view_yarn(ui, sheet, outcome, yarn);
        end_panel();
        return;
    }
    if (!outcome.forecast) {
        nothing_yet(ui);
        end_panel();
        return;
    }
    const auto& forecast = *outcome.forecast;
    const float height = ui.px(126.0f), left = ui.px(146.0f);
    swatch(ui, forecast, left, height);
    ImGui::SameLine(0.0f, ui.px(16.0f));
    view_numbers(ui, forecast, ImGui::GetContentRegionAvail().x);
    lies_among(ui, forecast);
    gap(ui, 2.0f);
    yarn_line(ui, forecast, yarn);
    const float diagram = std::clamp(0.38f * ImGui::GetContentRegionAvail().y, ui.px(108.0f), ui.px(280.0f));
    view_staple(ui, forecast, outcome.diagram, pointing, {ImGui::GetContentRegionAvail().x, diagram});
    rule(ui);
    const bool current = forecast.components.size() == sheet.recipe.components.size() && !outcome.complaint;
    if (current && !forecast.findings.empty()) {
        text_in(ui, ui.fonts.bold, ui.theme.quiet, count_of(forecast.findings));
        mark(ui, "findings");
    }
    begin_child("findings", {0.0f, 0.0f});
    if (current) view_findings(ui, sheet, forecast, pointing);
    ImGui::EndChild();
    end_panel();
}

}  // namespace battwright::window
