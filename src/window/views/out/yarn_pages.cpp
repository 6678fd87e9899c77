// What the yarn is in figures, and what it is enough for.
#include <algorithm>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "app/yarn/yarn_edits.hpp"
#include "text/words.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/out/yarn.hpp"

namespace battwright::window {
namespace {

using yarn::Verdict;

const colour::Srgb& colour_of(const Theme& theme, Verdict verdict) {
    if (verdict == Verdict::enough || verdict == Verdict::likely) return theme.advice;
    return verdict == Verdict::hardly ? theme.warning : theme.spoils;
}

// A sign for each verdict, so that colour alone says nothing: a tick in a full disc, a tick, a tilde of two
// strokes, a cross.
void draw_sign(const Ui& ui, Verdict verdict, ImVec2 middle) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImU32 colour = u32(colour_of(ui.theme, verdict));
    const float s = ui.px(1.0f), thick = ui.px(2.2f);
    const ImVec2 c = middle;
    const auto tick = [&](ImU32 ink) {
        list.AddLine({c.x - 5 * s, c.y}, {c.x - 1.5f * s, c.y + 4 * s}, ink, thick);
        list.AddLine({c.x - 1.5f * s, c.y + 4 * s}, {c.x + 5 * s, c.y - 4 * s}, ink, thick);
    };
    if (verdict == Verdict::enough) {
        list.AddCircleFilled(c, 9 * s, colour, 20);
        tick(u32(ui.theme.panel));
    } else if (verdict == Verdict::likely) {
        tick(colour);
    } else if (verdict == Verdict::hardly) {
        list.AddTriangle({c.x, c.y - 8 * s}, {c.x + 9 * s, c.y + 7 * s}, {c.x - 9 * s, c.y + 7 * s}, colour,
                         1.8f * s);
        list.AddLine({c.x, c.y - 3 * s}, {c.x, c.y + 2 * s}, colour, thick);
        list.AddCircleFilled({c.x, c.y + 4.7f * s}, 1.3f * s, colour, 8);
    } else {
        list.AddLine({c.x - 5 * s, c.y - 5 * s}, {c.x + 5 * s, c.y + 5 * s}, colour, thick);
        list.AddLine({c.x - 5 * s, c.y + 5 * s}, {c.x + 5 * s, c.y - 5 * s}, colour, thick);
    }
}

void figure_cell(const Ui& ui, const YarnFigure& figure, float width, float height) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::InvisibleButton(figure.name.c_str(), {width, height});
    mark(ui, figure.name);
    hover(ui, figure.name + ": " + figure.value + "\n" + figure.meaning);
    put_text(ui.fonts.small, ui.theme.quiet, at, figure.name);
    ImGui::PushFont(ui.fonts.bold);
    const std::string value = cut_to(figure.value, width - ui.px(6.0f));
    ImGui::PopFont();
    put_text(ui.fonts.bold, ui.theme.ink, {at.x, at.y + ui.px(17.0f)}, value);
}

void filter_choice(const Ui& ui, YarnState& state) {
    std::vector<std::string> filters{std::string(what_it_reaches)};
    for (const std::string_view thing : project_things()) filters.emplace_back(thing);
    filters.emplace_back(everything);
    const auto now = std::find(filters.begin(), filters.end(), state.filter) - filters.begin();
    const auto chosen = drop_down(ui, "things", filters, static_cast<std::size_t>(now), ui.px(190.0f));
    if (chosen) state.filter = filters[*chosen];
}

void project_row(const Ui& ui, const ProjectRow& row) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x, height = ui.px(42.0f);
    ImGui::Dummy({width, height});
    mark(ui, row.thing);
    hover(ui, row.thing + " takes " + row.needs + " at this thickness, frugal to generous: " +
                  std::string(word_for(row.verdict)) + ". " + row.advice + ".");
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float small = ui.fonts.small->FontSize, bold = ui.fonts.bold->FontSize;
    list.AddText(ui.fonts.bold, bold, at, u32(ui.theme.ink), row.thing.c_str());
    put_text(ui.fonts.body, ui.theme.ink, {at.x + 0.42f * width, at.y}, row.needs);
    draw_sign(ui, row.verdict, {at.x + 0.7f * width, at.y + ui.px(10.0f)});
    const std::string verdict(word_for(row.verdict));
    list.AddText(ui.fonts.bold, bold, {at.x + 0.7f * width + ui.px(15.0f), at.y},
                 u32(colour_of(ui.theme, row.verdict)), verdict.c_str());
    list.AddText(ui.fonts.small, small, {at.x + ui.px(10.0f), at.y + ui.px(20.0f)}, u32(ui.theme.quiet),
                 row.advice.c_str());
    list.AddLine({at.x, at.y + height - ui.px(1.0f)}, {at.x + width, at.y + height - ui.px(1.0f)},
                 u32(ui.theme.line), ui.px(1.0f));
}

// What this batt is for, which the recipe keeps.
void purpose(const Ui& ui, const Sheet& sheet) {
    const recipe::Purpose& now = sheet.recipe.purpose;
    const auto choose = [&](const char* name, const char* nothing, std::vector<std::string> words,
                            const std::string& chosen, float width) -> std::optional<std::string> {
        const auto at = std::find(words.begin(), words.end(), chosen);
        const auto index = at == words.end() ? 0 : static_cast<std::size_t>(at - words.begin()) + 1;
        words.insert(words.begin(), nothing);
        const auto picked = drop_down(ui, name, words, index, width);
        if (!picked) return std::nullopt;
        return *picked == 0 ? std::string() : words[*picked];
    };
    beside(ui, "For");
    ImGui::SameLine();
    if (const auto thing = choose("purpose", "not said", recipe::purpose_things(), now.thing, ui.px(146.0f)))
        ui.ask.edit(set_purpose_thing(sheet, *thing), "say what it is for");
    hover(ui, "What the yarn of this batt is for. The findings then speak of how it will feel and wear.");
    if (!now.thing.empty()) {
        ImGui::SameLine();
        if (const auto size = choose("size", "any size", sizes_of(now.thing), now.size, ui.px(110.0f)))
            ui.ask.edit(set_purpose_size(sheet, *size), "say how large it is to be");
    }
    beside(ui, "Next to the skin");
    ImGui::SameLine();
    const std::size_t worn = !now.next_to_skin ? 0 : *now.next_to_skin ? 1 : 2;
    if (const auto picked = choices(ui, "worn", {"not said", "yes", "no"}, worn)) {
        const std::optional<bool> said = *picked == 0 ? std::nullopt : std::optional(*picked == 1);
        ui.ask.edit(set_next_to_skin(sheet, said), "say how it is worn");
    }
}

}  // namespace

void view_yarn_figures(const Ui& ui, const yarn::YarnForecast& forecast,
                       const std::vector<YarnFigure>& figures) {
    if (!(forecast.length_m > 0.0)) {
        paragraph(ui, "There are no figures until the plan can be spun.", ui.theme.ink);
        return;
    }
    paragraph(ui, text::capitalised(std::string(forecast.effect.text)) + ".", ui.theme.ink);
    mark(ui, "plying effect");
    const float cell = 0.5f * ImGui::GetContentRegionAvail().x, height = ui.px(40.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    for (std::size_t i = 0; i < figures.size(); ++i) {
        const std::size_t across = i % 2, down = i / 2;
        ImGui::SetCursorScreenPos(
            {at.x + cell * static_cast<float>(across), at.y + height * static_cast<float>(down)});
        figure_cell(ui, figures[i], cell, height);
    }
}

void view_yarn_enough(const Ui& ui, const Sheet& sheet, YarnState& state) {
    const YarnWords& words = state.words();
    purpose(ui, sheet);
    if (words.purpose) project_row(ui, *words.purpose);
    filter_choice(ui, state);
    ImGui::SameLine(0.0f, ui.px(10.0f));
    ImGui::AlignTextToFramePadding();
    text_within(ui, ui.fonts.small, ui.theme.quiet, "Plain knitting; common practice, no source",
                ImGui::GetContentRegionAvail().x);
    if (words.rows.empty())
        paragraph(ui,
                  "It reaches for nothing in the table yet. Choose a thing above to see how much more fibre "
                  "it takes.",
                  ui.theme.ink);
    for (const ProjectRow& row : words.rows) project_row(ui, row);
}

}  // namespace battwright::window
